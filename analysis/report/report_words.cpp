#include "analysis/report/report_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "acquisition/frame/count_words.h"
#include "analysis/report/mat_words.h"
#include "analysis/report/number_words.h"
#include "analysis/swing/strike_lag.h"
#include "analysis/swing/swing_set.h"

namespace footing {

namespace {

std::string or_not_known(const std::string& text) {
    return text.empty() ? "not known" : text;
}

std::string behind_semicolon(const std::string& words) {
    return words.empty() ? words : "; " + words;
}

std::string loss_words(const LessonFacts& facts) {
    const LossCounters& losses = facts.losses;
    std::string text = count_words(losses.frames, "frame", "frames");
    if (facts.impossible_frames > 0)
        text += fmt::format(" ({} with a load that no body makes, bridged)", facts.impossible_frames);
    if (losses.lost == 0 && losses.damaged == 0)
        return text + ", none lost or damaged" + behind_semicolon(restart_words(facts));
    const double share = 100.0 * static_cast<double>(losses.lost) /
                         std::max(1.0, static_cast<double>(losses.frames + losses.lost));
    text += fmt::format(", {} lost ({} %) in {}, {} damaged", losses.lost,
                        number_words(share, share < 1.0 ? 2 : 1),
                        count_words(facts.gaps.size(), "gap", "gaps"), losses.damaged);
    return text;
}

std::string outcome_words(const LessonFacts& facts) {
    const bool imported = facts.origin == RecordingOrigin::imported;
    std::string text;
    switch (facts.outcome) {
        case RecordingOutcome::clean:
            text = imported ? "imported whole: nothing missing"
                   : restart_words(facts).empty()
                       ? "clean: stopped on purpose, nothing missing"
                       : "clean: stopped on purpose" + behind_semicolon(restart_words(facts));
            break;
        case RecordingOutcome::lossy:
            text = imported ? "imported: lines or frames are missing in it"
                            : "lossy: stopped on purpose, but frames were lost or damaged";
            break;
        case RecordingOutcome::truncated:
            text = "truncated: the end is missing";
            break;
        case RecordingOutcome::incomplete:
            text = "incomplete: closed early";
            break;
    }
    return facts.cause.empty() ? text : text + "; " + facts.cause;
}

std::string told_by_words(KindSource source) {
    switch (source) {
        case KindSource::trigger:
            return "by the trigger";
        case KindSource::ripple:
            return "by the strike's ripple";
        case KindSource::coach:
            return "as the coach marked it";
    }
    return "";
}

/// "5 by the trigger, 2 not known": what told shots from practice swings; empty where there are no swings.
std::string kind_source_words(const LessonResult& lesson) {
    std::string words;
    const auto count = [&](std::optional<KindSource> source, const char* how) {
        const auto swings = std::ranges::count(lesson.swings, source, &Swing::kind_source);
        if (swings > 0) words += fmt::format("{}{} {}", words.empty() ? "" : ", ", swings, how);
    };
    count(KindSource::trigger, "told by the trigger");
    count(KindSource::ripple, "by the strike's ripple");
    count(KindSource::coach, "by the coach");
    count(std::nullopt, "not known");
    return words;
}

/// Where the trigger and the load contradict each other; empty where they agree, or the trigger told of fewer
/// than two strikes.
std::string trigger_words(const LessonResult& lesson) {
    const std::optional<double> lag_s = trigger_lag_s(lesson.swings);
    if (!lag_s || std::abs(*lag_s) < doubtful_trigger_lag_s) return "";
    return fmt::format(
        "comes {} s {} than the load tells strikes: see that it answers to the strike, and at once",
        number_words(std::abs(*lag_s), 2), *lag_s > 0.0 ? "later" : "sooner");
}

}  // namespace

std::string impact_words(const std::vector<Swing>& swings) {
    std::size_t measured = 0;
    std::size_t estimated = 0;
    std::vector<StrikeWitnesses> strikes_s;
    for (const Swing& swing : swings) {
        if (teaches(swing)) strikes_s.push_back(*swing.strike_after_witnesses_s);
        if (!swing.events.impact) continue;
        (swing.events.impact->source == EventSource::estimated ? estimated : measured) += 1;
    }
    std::string words =
        fmt::format("impact was measured or marked in {} and estimated from the load in {}",
                    count_words(measured, "swing", "swings"), count_words(estimated, "swing", "swings"));
    // A trigger that fired by something else taught nothing.
    const std::size_t teaching =
        std::ranges::max(learn_strike_lags(strikes_s), {}, &StrikeLag::swings).swings;
    if (estimated > 0 && teaching > 0)
        words += fmt::format(", as the strikes of {} teach", count_words(teaching, "swing", "swings"));
    return words;
}

std::string restart_words(const LessonFacts& facts) {
    if (facts.losses.lost > 0 || facts.losses.damaged > 0 || facts.gaps.empty()) return "";
    double away_s = 0.0;
    for (const TimeSpan& gap : facts.gaps) away_s += gap.to_s - gap.from_s;
    return fmt::format("the device restarted {}, away for {} s",
                       facts.gaps.size() == 1 ? "once" : fmt::format("{} times", facts.gaps.size()),
                       number_words(away_s, 1));
}

std::string report_title(const LessonResult& lesson) {
    if (!lesson.facts.student.empty()) return lesson.facts.student;
    // Without the folders, which may hold the coach's own name.
    const std::string& file = lesson.facts.file;
    return file.substr(file.find_last_of('/') + 1);
}

std::vector<Fact> lesson_facts(const LessonResult& lesson) {
    const LessonFacts& facts = lesson.facts;
    std::vector<Fact> rows{
        {"Recorded", or_not_known(facts.started)},
        {"Plays", facts.hand == Hand::right ? "right-handed: the left foot leads"
                                            : "left-handed: the right foot leads"},
        {"Measured by", or_not_known(facts.device)},
        {"Calibration", or_not_known(facts.calibration)},
        {"Zero", or_not_known(facts.zero)},
        {"Recording", fmt::format("{} at {:g} Hz, {}", duration_words(lesson.duration_s),
                                  std::round(lesson.rate_hz), loss_words(facts))},
        {"It ended", outcome_words(facts)},
        {"File", or_not_known(facts.file)},
    };
    const std::string weight =
        lesson.body_weight_n ? fmt::format("{} N", number_words(*lesson.body_weight_n, 0)) : "not known";
    rows.insert(rows.begin() + 2, {"Body weight", weight});
    if (const std::string kinds = kind_source_words(lesson); !kinds.empty())
        rows.insert(rows.begin() + 3, {"Shot or not", kinds});
    if (const std::string trigger = trigger_words(lesson); !trigger.empty())
        rows.insert(rows.end() - 3, {"Trigger", trigger});
    if (const std::string mat = mat_words(lesson); !mat.empty()) rows.insert(rows.end() - 3, {"Mat", mat});
    return rows;
}

std::string kind_words(const Swing& swing) {
    const std::string kind = kind_name(swing.kind);
    return swing.kind_source ? kind + ", " + told_by_words(*swing.kind_source) : kind;
}

std::string shot_words(ShotsTold told) {
    const std::string by =
        told == ShotsTold::by_recording
            ? "A shot is a swing at which the trigger or the strike's ripple told of a strike, or "
              "that the coach marked as one. A carry that stands in the lesson book makes a swing a "
              "shot there, in the student's report, not here."
            : "A shot is a swing at which the trigger or the strike's ripple told of a strike, that "
              "the coach calls one, or whose carry or strike stands in the lesson book.";
    return by + fmt::format(
                    " What is said of a lesson is said of its shots{}, or of all its swings where fewer than "
                    "{} are shots.",
                    told == ShotsTold::by_book ? ", without those that the coach set aside" : "",
                    fewest_counted_shots);
}

std::string swing_title(const Swing& swing) {
    std::string title = fmt::format("Swing {}", swing.index);
    if (swing.kind == SwingKind::shot) return title + " · shot";
    if (swing.kind == SwingKind::practice) return title + " · practice swing";
    return title;
}

std::vector<Fact> swing_facts(const Swing& swing, Hand hand) {
    std::vector<Fact> rows;
    if (swing.kind_source) rows.push_back({kind_name(swing.kind), told_by_words(*swing.kind_source)});
    if (swing.tempo) {
        rows.push_back({"tempo", ratio_words(swing.tempo->ratio)});
        rows.push_back({"backswing", number_words(swing.tempo->backswing_s, 2) + " s"});
        rows.push_back({"downswing", number_words(swing.tempo->downswing_s, 2) + " s"});
    }
    // The picture beside it tells the share at the turnaround, which is the lowest one or as good as it:
    // twice the same with another ± would only puzzle.
    if (swing.lead_share.lowest && !swing.lead_share.turnaround)
        rows.push_back({"lowest share", share_words(*swing.lead_share.lowest)});
    if (swing.cop_m.address)
        rows.push_back({"CoP at address", place_words(*swing.cop_m.address, swing.cop_u_m.address)});
    if (swing.vertical) {
        rows.push_back({"load, body weights", fmt::format("{} to {}", number_words(swing.vertical->min_bw, 2),
                                                          number_words(swing.vertical->max_bw, 2))});
    }
    if (swing.stance) rows.push_back({"stance", stance_words(*swing.stance, hand)});
    if (swing.feet) {
        const auto toes = [&](const char* event, std::optional<double> FootShares::*share) {
            const bool left_leads = hand == Hand::right;
            const auto& lead = (left_leads ? swing.feet->left : swing.feet->right).toes.*share;
            const auto& trail = (left_leads ? swing.feet->right : swing.feet->left).toes.*share;
            if (!lead && !trail) return;
            const auto words = [](const std::optional<double>& one) {
                return one ? share_short(*one) : std::string("not known");
            };
            rows.push_back({std::string("on the toes at ") + event,
                            fmt::format("trail {}, lead {}", words(trail), words(lead))});
        };
        toes("address", &FootShares::address);
        toes("impact", &FootShares::impact);
    }
    if (swing.events.impact) {
        rows.push_back({"impact", swing.events.impact->source == EventSource::coach
                                      ? "marked by the coach"
                                      : source_name(swing.events.impact->source)});
    }
    return rows;
}

std::vector<std::string> how_to_read(const LessonResult& lesson) {
    std::vector<std::string> words{
        "The lead share is the part of the vertical load that the lead foot, the one nearer the target, "
        "carries. Across "
        "each picture runs the stance, from the trail foot (0 %) to the lead foot (100 %); the upright "
        "stripe is the "
        "band the coach asked for, " +
            band_words(lesson.band) + ".",
        "Time runs down the page, with 0 at impact. A line that moves to the right is weight that moves to "
        "the target. "
        "Over the rule the feet are seen from above, with the path of the centre of pressure; it stands over "
        "its own "
        "lead share.",
        "± is twice the standard uncertainty: the true value lies within it in about 95 of 100 cases. It "
        "holds "
        "what the calibration, the zero, noise, sway and the device's steps leave open. Each share was " +
            certainty_words(lesson.sure) +
            ": a verdict is given only where that much speaks for it; else the mark says too close to call. "
            "At the finish, weight "
            "fully on the lead foot, beyond the band, is what is wanted.",
        shot_words(ShotsTold::by_recording),
        "The share at the turnaround is as good as the lowest share, with a little more ±, since the instant "
        "of the "
        "turnaround is not known exactly.",
        "The centre of pressure (CoP) is told in mm from the middle of the plates, first towards the target, "
        "then ahead, to the toes.",
        "A dashed leader is an event estimated from the load, a full one was measured or marked by the "
        "coach. " +
            fmt::format("Here {}.", impact_words(lesson.swings)),
        "Pressure is not weight: the centre of pressure shows where the ground is pushed, not where the "
        "body's mass is.",
    };
    if (lesson.centre_of_mass) {
        words.push_back(
            "The dashed path is an estimate of where the centre of mass was, from the centre of pressure, "
            "for a body "
            "that sways like a stick over the ankles. A swing turns and bends the body, so it shows the slow "
            "part "
            "only.");
    }
    return words;
}

const std::vector<std::string>& cautions() {
    static const std::vector<std::string> all{
        "Before each swing clear the whole radius of the club, behind and above too; nobody stands inside "
        "it.",
        "Plates, mats and cables are trip hazards: step on and off with the eyes on them, and keep them dry.",
        "Stop when something hurts, and see a licensed health professional before going on.",
        "Children and young people: only with a guardian's consent and by the local rules of supervision and "
        "data protection.",
        "This is not a medical device. It measures load for coaching; it finds and treats nothing.",
    };
    return all;
}

std::string iso_start(const LessonResult& lesson) {
    const std::string& text = lesson.facts.started;
    const std::string unknown_start = "1970-01-01T00:00:00Z";
    const std::string pattern = "dddd-dd-dd dd:dd:dd";
    if (text.size() < pattern.size()) return unknown_start;
    for (std::size_t i = 0; i < pattern.size(); ++i) {
        const bool digit = text[i] >= '0' && text[i] <= '9';
        if (pattern[i] == 'd' ? !digit : text[i] != pattern[i]) return unknown_start;
    }
    std::string iso = text.substr(0, 10) + "T" + text.substr(11, 8);
    // The offset from UTC behind it, "+02:00" or "+0200".
    std::string zone = text.substr(std::min<std::size_t>(text.size(), pattern.size() + 1), 6);
    if (zone.size() >= 5 && zone[3] != ':') zone = zone.substr(0, 3) + ":" + zone.substr(3, 2);
    const auto digit = [&](std::size_t i) { return zone[i] >= '0' && zone[i] <= '9'; };
    const bool offset = zone.size() == 6 && (zone[0] == '+' || zone[0] == '-') && zone[3] == ':' &&
                        digit(1) && digit(2) && digit(4) && digit(5);
    if (offset) return iso + zone;
    return iso + "Z";
}

}  // namespace footing
