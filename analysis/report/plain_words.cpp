#include "analysis/report/plain_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "analysis/report/number_words.h"

namespace footing {

namespace {

constexpr double even_share = 0.50;
constexpr double steady_tempo = 0.10;
constexpr double uneven_tempo = 0.20;

/// "5 of 6 shots".
std::string of_swings(std::size_t some, std::size_t all, const std::string& noun) {
    return fmt::format("{} of {} {}", some, all, noun);
}

struct Tally {
    std::size_t known = 0;
    std::array<std::size_t, 4> by_verdict{};
    [[nodiscard]] std::size_t of(Verdict verdict) const {
        return by_verdict[static_cast<std::size_t>(verdict)];
    }
};

Tally tally(const std::vector<const Swing*>& swings, std::optional<ShareValue> SwingShares::*member) {
    Tally counts;
    for (const Swing* swing : swings) {
        if (const auto& share = swing->lead_share.*member) {
            ++counts.known;
            ++counts.by_verdict[static_cast<std::size_t>(share->verdict)];
        }
    }
    return counts;
}

/// In how many the lead share reached the band's lower edge, surely, however far beyond it.
std::size_t surely_arrived(const std::vector<const Swing*>& swings,
                           std::optional<ShareValue> SwingShares::*member, const LessonResult& lesson) {
    return static_cast<std::size_t>(std::ranges::count_if(swings, [&](const Swing* swing) {
        const auto& share = swing->lead_share.*member;
        return share && surely_not_under(share->value, share->u, lesson.band.low, lesson.sure);
    }));
}

void say_address(const std::vector<const Swing*>& swings, const std::string& noun, const TargetBand& band,
                 PlainWords& words) {
    const Tally counts = tally(swings, &SwingShares::address);
    if (counts.known < fewest_swings) {
        words.notes.push_back(fmt::format("At address: known in {} only, too few to advise on.",
                                          of_swings(counts.known, swings.size(), noun)));
        return;
    }
    const auto says = [&](Verdict verdict, const std::string& place) {
        return fmt::format("At address the lead share was {} the band ({}) in {}", place, band_words(band),
                           of_swings(counts.of(verdict), counts.known, noun));
    };
    if (3 * counts.of(Verdict::inside) >= 2 * counts.known) {
        words.keep.push_back(says(Verdict::inside, "inside") + ".");
    } else if (2 * counts.of(Verdict::below) > counts.known) {
        words.change.push_back(says(Verdict::below, "below") +
                               ": settle more onto the lead foot before you start.");
    } else if (2 * counts.of(Verdict::above) > counts.known) {
        words.change.push_back(says(Verdict::above, "above") +
                               ": let a little more weight rest on the trail foot before you start.");
    } else if (2 * counts.of(Verdict::too_close) > counts.known) {
        words.notes.push_back(
            fmt::format("At address the lead share was too close to the edge of the band to call in {}.",
                        of_swings(counts.of(Verdict::too_close), counts.known, noun)));
    } else {
        std::string places;
        for (const auto& [verdict, place] :
             {std::pair{Verdict::inside, "inside the band"}, std::pair{Verdict::below, "below"},
              std::pair{Verdict::above, "above"}, std::pair{Verdict::too_close, "too close to call"}}) {
            if (counts.of(verdict) == 0) continue;
            places += fmt::format("{}{} {}", places.empty() ? "" : ", ", counts.of(verdict), place);
        }
        const bool none_outside = counts.of(Verdict::below) + counts.of(Verdict::above) == 0;
        words.notes.push_back(
            none_outside ? fmt::format("At address the lead share was surely outside the band in none "
                                       "of {} {}: {}.",
                                       counts.known, noun, places)
                         : fmt::format("At address the lead share varied: {}.", places));
    }
}

/// More weight on the lead foot than the band says is no fault at impact: the swing turns over that leg.
void say_impact(const std::vector<const Swing*>& swings, const std::string& noun, const LessonResult& lesson,
                PlainWords& words) {
    const Tally counts = tally(swings, &SwingShares::impact);
    if (counts.known < fewest_swings) {
        words.notes.push_back(fmt::format("At impact: known in {} only, too few to advise on.",
                                          of_swings(counts.known, swings.size(), noun)));
        return;
    }
    const std::string lower_edge = number_words(100.0 * lesson.band.low, 0) + " %";
    const std::size_t arrived = surely_arrived(swings, &SwingShares::impact, lesson);
    if (3 * arrived >= 2 * counts.known) {
        words.keep.push_back(fmt::format("At impact the weight was on the lead foot, {} or more, in {}.",
                                         lower_edge, of_swings(arrived, counts.known, noun)));
    } else if (2 * counts.of(Verdict::below) > counts.known) {
        words.change.push_back(
            fmt::format("At impact the lead share was below {} in {}: let the weight arrive on the lead foot "
                        "before the ball.",
                        lower_edge, of_swings(counts.of(Verdict::below), counts.known, noun)));
    } else {
        words.notes.push_back(fmt::format("At impact the weight was surely on the lead foot in {}.",
                                          of_swings(arrived, counts.known, noun)));
    }
}

void say_lowest(const std::vector<const Swing*>& swings, const std::string& noun, PlainWords& words) {
    std::size_t known = 0;
    std::size_t surely_under = 0;
    std::size_t possibly_under = 0;
    const ShareValue* lowest = nullptr;
    for (const Swing* swing : swings) {
        const auto& share = swing->lead_share.lowest;
        if (!share) continue;
        const double u = std::isfinite(share->u) ? share->u : 0.0;
        ++known;
        surely_under += share->value + 2.0 * u < even_share ? 1 : 0;
        possibly_under += share->value - 2.0 * u < even_share ? 1 : 0;
        if (lowest == nullptr || share->value < lowest->value) lowest = &*share;
    }
    if (known < fewest_swings) return;
    if (surely_under > 0) {
        words.change.push_back(fmt::format(
            "In {} the lead share fell under 50 % (lowest {}): the weight moved onto the trail foot.",
            of_swings(surely_under, known, noun), share_words(*lowest)));
    } else if (possibly_under == 0) {
        words.keep.push_back(fmt::format("The weight stayed on the lead side in {}: lowest lead share {}.",
                                         of_swings(known, swings.size(), noun), share_words(*lowest)));
    }
}

void say_tempo(const std::vector<const Swing*>& swings, const std::string& noun, PlainWords& words) {
    std::vector<double> ratios;
    for (const Swing* swing : swings) {
        if (swing->tempo && std::isfinite(swing->tempo->ratio)) ratios.push_back(swing->tempo->ratio);
    }
    if (ratios.size() < fewest_swings) return;
    const auto n = static_cast<double>(ratios.size());
    double mean = 0.0;
    for (const double ratio : ratios) mean += ratio / n;
    double squares = 0.0;
    for (const double ratio : ratios) squares += (ratio - mean) * (ratio - mean);
    if (!(mean > 0.0)) return;
    const double spread = std::sqrt(squares / (n - 1.0)) / mean;
    const auto [least, most] = std::minmax_element(ratios.begin(), ratios.end());
    const std::string facts =
        fmt::format("backswing to downswing was {} on average, from {} to {} in {}, a spread of {} %",
                    ratio_words(mean), ratio_words(*least), ratio_words(*most),
                    of_swings(ratios.size(), swings.size(), noun), number_words(100.0 * spread, 0));
    if (spread <= steady_tempo) {
        words.keep.push_back("The rhythm was steady: " + facts + ".");
    } else if (spread > uneven_tempo) {
        words.change.push_back("The rhythm changed from swing to swing: " + facts + ".");
    } else {
        words.notes.push_back("Rhythm: " + facts + ".");
    }
}

void say_finish(const std::vector<const Swing*>& swings, const std::string& noun, PlainWords& words) {
    const auto held = static_cast<std::size_t>(std::count_if(
        swings.begin(), swings.end(), [](const Swing* swing) { return swing->events.finish.has_value(); }));
    if (held == swings.size()) {
        words.keep.push_back(
            fmt::format("The finish came to rest in {}.", of_swings(held, swings.size(), noun)));
    } else if (3 * held < 2 * swings.size()) {
        words.change.push_back(
            fmt::format("The finish came to rest in {} only: hold it until the ball has landed.",
                        of_swings(held, swings.size(), noun)));
    }
}

/// A full finish stands on the lead foot: what the band calls above is wanted here.
void say_finish_weight(const std::vector<const Swing*>& swings, const std::string& noun,
                       const LessonResult& lesson, PlainWords& words) {
    const Tally counts = tally(swings, &SwingShares::finish);
    if (counts.known < fewest_swings) return;
    const std::string lower_edge = number_words(100.0 * lesson.band.low, 0) + " %";
    const std::size_t full = surely_arrived(swings, &SwingShares::finish, lesson);
    if (full == counts.known) {
        words.keep.push_back(fmt::format("The finish stood on the lead foot, {} or more, in {}.", lower_edge,
                                         of_swings(full, counts.known, noun)));
    } else if (2 * counts.of(Verdict::below) > counts.known) {
        words.change.push_back(
            fmt::format("At the finish the lead share was below {} in {}: finish tall on the lead foot.",
                        lower_edge, of_swings(counts.of(Verdict::below), counts.known, noun)));
    }
}

void say_loss(const LessonResult& lesson, PlainWords& words) {
    std::string where;
    std::size_t count = 0;
    for (const Swing& swing : lesson.swings) {
        const bool hit = std::any_of(
            lesson.facts.gaps.begin(), lesson.facts.gaps.end(),
            [&](const TimeSpan& gap) { return gap.from_s < swing.to_s && gap.to_s > swing.from_s; });
        if (!hit) continue;
        where += (count == 0 ? "" : ", ") + std::to_string(swing.index);
        ++count;
    }
    if (count == 0) return;
    words.notes.push_back(
        fmt::format("Frames were lost during swing{} {}: there the line is a bridge, shaded in the picture.",
                    count == 1 ? "" : "s", where));
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

std::string noun_of(const std::vector<const Swing*>& swings) {
    const bool all_shots = std::all_of(swings.begin(), swings.end(),
                                       [](const Swing* swing) { return swing->kind == SwingKind::shot; });
    return all_shots ? "shots" : "swings";
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
    const std::vector<const Swing*> swings = counted_swings(lesson);
    const Tally counts = tally(swings, &SwingShares::address);
    if (counts.known == 0) return std::nullopt;
    std::string of_what = noun_of(swings) + " set up inside the band, " + band_words(lesson.band);
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
        const std::string noun = noun_of(swings);
        if (std::string none = no_share_words(lesson); !none.empty()) {
            none.pop_back();  // its line end
            words.notes.push_back(std::move(none));
        } else {
            say_address(swings, noun, lesson.band, words);
            say_impact(swings, noun, lesson, words);
        }
        say_lowest(swings, noun, words);
        say_tempo(swings, noun, words);
        say_finish(swings, noun, words);
        say_finish_weight(swings, noun, lesson, words);
    }
    if (std::string hand = other_hand_words(lesson); !hand.empty()) words.notes.push_back(std::move(hand));
    say_loss(lesson, words);
    say_joined(lesson.facts, words);
    say_calibration(lesson.facts, words);
    return words;
}

}  // namespace footing
