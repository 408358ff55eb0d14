#include "analysis/report/plain_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "acquisition/frame/count_words.h"
#include "analysis/progress/change_words.h"
#include "analysis/report/number_words.h"
#include "analysis/swing/lesson_findings.h"

namespace footing {

namespace {

void say_address(const LessonFindings& found, PlainWords& words) {
    const VerdictCounts& counts = found.set_up.counts;
    switch (found.set_up.ruling) {
        case Ruling::too_few:
            words.notes.push_back(fmt::format("At address: known in {} only, too few to advise on.",
                                              of_swings(counts.known, found.swings, found)));
            return;
        case Ruling::keep:
            words.keep.push_back(fmt::format("At address the lead share was inside the band ({}) in {}.",
                                             band_words(found.band),
                                             of_swings(counts.of(Verdict::inside), counts.known, found)));
            return;
        case Ruling::change:
            return;
        case Ruling::open:
            break;
    }
    if (found.set_up.side == Verdict::too_close) {
        words.notes.push_back(
            fmt::format("At address the lead share was too close to the edge of the band to call in {}.",
                        of_swings(counts.of(Verdict::too_close), counts.known, found)));
        return;
    }
    std::string places;
    for (const auto& [verdict, place] :
         {std::pair{Verdict::inside, "inside the band"}, std::pair{Verdict::below, "below"},
          std::pair{Verdict::above, "above"}, std::pair{Verdict::too_close, "too close to call"}}) {
        if (counts.of(verdict) == 0) continue;
        places += fmt::format("{}{} {}", places.empty() ? "" : ", ", counts.of(verdict), place);
    }
    const bool none_outside = counts.of(Verdict::below) + counts.of(Verdict::above) == 0;
    words.notes.push_back(
        none_outside ? fmt::format("At address the lead share was surely outside the band in none of {}: {}.",
                                   count_words(counts.known, found.all_shots ? "shot" : "swing",
                                               found.all_shots ? "shots" : "swings"),
                                   places)
                     : fmt::format("At address the lead share varied: {}.", places));
}

void say_impact(const LessonFindings& found, PlainWords& words) {
    const ArrivalFinding& impact = found.impact;
    if (impact.ruling == Ruling::too_few) {
        words.notes.push_back(fmt::format("At impact: known in {} only, too few to advise on.",
                                          of_swings(impact.counts.known, found.swings, found)));
    } else if (impact.ruling == Ruling::keep) {
        words.keep.push_back(fmt::format("At impact the weight was on the lead foot, {} % or more, in {}.",
                                         number_words(100.0 * found.band.low, 0),
                                         of_swings(impact.arrived, impact.counts.known, found)));
    } else if (impact.ruling == Ruling::open) {
        words.notes.push_back(fmt::format("At impact the weight was surely on the lead foot in {}.",
                                          of_swings(impact.arrived, impact.counts.known, found)));
    }
}

void say_lowest(const LessonFindings& found, PlainWords& words) {
    if (found.lowest.ruling != Ruling::keep) return;
    words.keep.push_back(fmt::format("The weight stayed on the lead side in {}: lowest lead share {}.",
                                     of_swings(found.lowest.known, found.swings, found),
                                     share_words(*found.lowest.least)));
}

void say_tempo(const LessonFindings& found, PlainWords& words) {
    if (found.tempo.ruling == Ruling::keep) {
        words.keep.push_back("The rhythm was steady: " + tempo_facts_words(found) + ".");
    } else if (found.tempo.ruling == Ruling::open) {
        words.notes.push_back("Rhythm: " + tempo_facts_words(found) + ".");
    }
}

void say_finish(const LessonFindings& found, PlainWords& words) {
    if (found.rest.ruling == Ruling::keep) {
        words.keep.push_back(fmt::format("The finish came to rest in {}.",
                                         of_swings(found.rest.held, found.rest.known, found)));
    }
    if (found.finish.ruling == Ruling::keep) {
        words.keep.push_back(fmt::format("The finish stood on the lead foot, {} % or more, in {}.",
                                         number_words(100.0 * found.band.low, 0),
                                         of_swings(found.finish.arrived, found.finish.counts.known, found)));
    }
}

/// "1, 3 to 5, 8": numbers in ascending order.
std::string ranges_words(const std::vector<std::size_t>& numbers) {
    std::string words;
    for (std::size_t from = 0; from < numbers.size();) {
        std::size_t to = from;
        while (to + 1 < numbers.size() && numbers[to + 1] == numbers[to] + 1) ++to;
        words += fmt::format("{}{}", words.empty() ? "" : ", ", numbers[from]);
        if (to > from) words += fmt::format("{}{}", to == from + 1 ? ", " : " to ", numbers[to]);
        from = to + 1;
    }
    return words;
}

void say_loss(const LessonResult& lesson, PlainWords& words) {
    std::vector<std::size_t> hurt;
    for (const Swing& swing : lesson.swings) {
        const bool hit = std::any_of(
            lesson.facts.gaps.begin(), lesson.facts.gaps.end(),
            [&](const TimeSpan& gap) { return gap.from_s < swing.to_s && gap.to_s > swing.from_s; });
        if (!hit) continue;
        hurt.push_back(swing.index);
    }
    if (hurt.empty()) return;
    words.notes.push_back(
        fmt::format("Frames were lost during swing{} {}: there the line is a bridge, shaded in the picture.",
                    hurt.size() == 1 ? "" : "s", ranges_words(hurt)));
}

void say_joined(const LessonFacts& facts, PlainWords& words) {
    if (!facts.clock || !facts.clock->joined_ms) return;
    words.notes.push_back(fmt::format(
        "The plates are devices with clocks of their own; their frames belong together to ±{} ms.",
        number_words(*facts.clock->joined_ms, 2)));
}

/// A scale that nobody vouches for makes every ± wider; that must be said where the verdicts are read.
void say_calibration(const LessonFacts& facts, PlainWords& words) {
    const CalibrationFacts& known = facts.calibration_facts;
    const std::string doubt =
        fmt::format("{} load is taken to be right within {} % (k = 2), which every ± here includes",
                    facts.layout.grid ? "each half's" : "each plate's",
                    number_words(200.0 * known.ratio_relative_u, known.ratio_relative_u < 0.05 ? 1 : 0));
    switch (known.state) {
        case CalibrationState::expired:
            words.notes.push_back(fmt::format("The calibration had expired on {}: {}. Calibrate again.",
                                              known.valid_until, doubt));
            return;
        case CalibrationState::nominal:
        case CalibrationState::absent:
            words.notes.push_back(fmt::format(
                "{} not calibrated: {}.", facts.layout.grid ? "This mat was" : "These plates were", doubt));
            return;
        case CalibrationState::valid:
        case CalibrationState::external:
            return;
    }
}

/// The rules' answers for the swings that the words are about.
LessonFindings findings_of(const LessonResult& lesson, const std::vector<const Swing*>& counted) {
    std::vector<RuledSwing> ruled;
    for (const Swing* swing : counted) {
        const SwingShares& share = swing->lead_share;
        ruled.push_back({swing->kind, lesson.band, share.address, share.impact, share.finish, share.lowest,
                         swing->tempo ? std::optional(swing->tempo->ratio) : std::nullopt,
                         swing->events.finish.has_value()});
    }
    return lesson_findings(ruled, lesson.sure);
}

}  // namespace

std::vector<const Swing*> counted_swings(const LessonResult& lesson) {
    std::vector<const Swing*> all;
    std::vector<const Swing*> shots;
    for (const Swing& swing : lesson.swings) {
        all.push_back(&swing);
        if (swing.kind == SwingKind::shot) shots.push_back(&swing);
    }
    return shots.size() >= fewest_swings ? shots : all;
}

std::optional<Headline> headline(const LessonResult& lesson) {
    const LessonFindings found = findings_of(lesson, counted_swings(lesson));
    const VerdictCounts& counts = found.set_up.counts;
    if (counts.known == 0) return std::nullopt;
    const char* many = found.all_shots ? "shots" : "swings";
    const char* one = found.all_shots ? "shot" : "swing";
    std::string of_what =
        fmt::format("{} set up inside the band, {}", counts.known == 1 ? one : many, band_words(lesson.band));
    if (const std::size_t unclear = counts.of(Verdict::too_close); unclear > 0) {
        of_what += fmt::format("; {} too close to call", unclear);
    }
    return Headline{counts.of(Verdict::inside), counts.known, std::move(of_what)};
}

std::string other_hand_words(const LessonResult& lesson) {
    if (lesson.swings_as_other_hand == 0) return "";
    const bool right = lesson.facts.hand == Hand::right;
    return fmt::format(
        "It was read as a {}-handed golfer's; read as {}-handed it holds {}. If the student plays that way, "
        "ask for it with --hand {}.",
        right ? "right" : "left", right ? "left" : "right",
        count_words(lesson.swings_as_other_hand, "swing", "swings"), right ? "left" : "right");
}

std::string no_swing_words(const LessonResult& lesson) {
    const std::string hand = other_hand_words(lesson);
    return "No swing was found in this recording." + (hand.empty() ? "" : " " + hand);
}

std::string no_share_words(const LessonResult& lesson) {
    for (const Swing& swing : lesson.swings) {
        for (const NamedShare& named : named_shares) {
            if (swing.lead_share.*named.member) return "";
        }
    }
    const LoadTrace& trace = lesson.trace;
    if (std::ranges::any_of(trace.left_n, known) && std::ranges::any_of(trace.right_n, known))
        return "The lead share is not known in these swings: their events were not found.\n";
    if (lesson.facts.layout.plates.size() == 1)
        return "One plate under both feet cannot tell how the load is split between them, so the lead share "
               "is not "
               "known.\n";
    return "This recording does not tell the two feet apart, so the lead share is not known.\n";
}

std::string stray_strike_words(const LessonResult& lesson) {
    constexpr std::size_t most_named = 5;
    const std::vector<double>& strikes_s = lesson.strikes_without_swing_s;
    if (strikes_s.empty()) return "";
    std::string at;
    for (std::size_t i = 0; i < std::min(strikes_s.size(), most_named); ++i) {
        at += fmt::format("{}{} s", i == 0 ? "" : ", ", number_words(strikes_s[i], 1));
    }
    if (strikes_s.size() > most_named) at += " and more";
    return fmt::format("The trigger told of a strike, but no swing was found there: at {}.\n", at);
}

PlainWords plain_words(const LessonResult& lesson) {
    PlainWords words;
    const std::vector<const Swing*> swings = counted_swings(lesson);
    if (swings.empty()) {
        words.notes.push_back(no_swing_words(lesson));
        return words;
    }
    if (swings.size() < fewest_swings) {
        words.notes.push_back(fmt::format("Too few swings to advise on: {}; three or more are needed.",
                                          count_words(swings.size(), "swing", "swings")));
    } else {
        const LessonFindings found = findings_of(lesson, swings);
        if (std::string none = no_share_words(lesson); !none.empty()) {
            none.pop_back();  // its line end
            words.notes.push_back(std::move(none));
        } else {
            say_address(found, words);
            say_impact(found, words);
        }
        say_lowest(found, words);
        say_tempo(found, words);
        say_finish(found, words);
        for (const AskedChange change : changes_of(found))
            words.change.push_back(change_words(found, change));
    }
    if (std::string hand = other_hand_words(lesson); !hand.empty()) words.notes.push_back(std::move(hand));
    say_loss(lesson, words);
    say_joined(lesson.facts, words);
    say_calibration(lesson.facts, words);
    return words;
}

}  // namespace footing
