#include "analysis/progress/change_words.h"

#include <fmt/format.h>

#include "acquisition/frame/count_words.h"
#include "analysis/statistics/rounding.h"
#include "analysis/swing/share_words.h"

namespace footing {

namespace {

PracticeRule rule_of(AskedChange change) {
    switch (change) {
        case AskedChange::set_up:
            return PracticeRule::weight_outside;
        case AskedChange::impact:
            return PracticeRule::weight_at_impact;
        case AskedChange::lowest:
            return PracticeRule::onto_trail_foot;
        case AskedChange::tempo:
            return PracticeRule::uneven_rhythm;
        case AskedChange::rest:
            return PracticeRule::finish_not_held;
        case AskedChange::finish:
            return PracticeRule::weight_at_finish;
    }
    return PracticeRule::weight_outside;
}

std::string band_of(const LessonFindings& findings) {
    return findings.one_band ? "the band (" + band_words(findings.band) + ")" : "the band of their length";
}

std::string lower_edge_of(const LessonFindings& findings) {
    return findings.one_band ? rounded(100.0 * findings.band.low, 0) + " %" : "the band of their length";
}

/// "less than 70 %"; "too little" where the lengths ask for different things.
std::string less_of(const LessonFindings& findings) {
    return findings.one_band ? "less than " + lower_edge_of(findings) : std::string("too little");
}

}  // namespace

std::string of_swings(std::size_t some, std::size_t all, const LessonFindings& findings) {
    return findings.all_shots ? part_words(some, all, "shot", "shots")
                              : part_words(some, all, "swing", "swings");
}

std::string tempo_facts_words(const LessonFindings& findings, const std::string& of_lesson) {
    const TempoFinding& tempo = findings.tempo;
    return fmt::format("backswing to downswing was {} on average, from {} to {} in {}, a spread of {} %",
                       ratio_words(tempo.mean), ratio_words(tempo.least), ratio_words(tempo.most),
                       of_swings(tempo.known, findings.swings, findings) + of_lesson,
                       rounded(100.0 * tempo.spread, 0));
}

std::string change_words(const LessonFindings& findings, AskedChange change, const std::string& of_lesson) {
    const auto in = [&](std::size_t some, std::size_t all) {
        return of_swings(some, all, findings) + of_lesson;
    };
    switch (change) {
        case AskedChange::set_up: {
            const SetUpFinding& found = findings.set_up;
            const bool below = found.side == Verdict::below;
            return fmt::format(
                "At address the lead share was {} {} in {}: {} before you start.", below ? "below" : "above",
                band_of(findings), in(found.counts.of(found.side), found.counts.known),
                below ? "settle more onto the lead foot" : "let a little more weight rest on the trail foot");
        }
        case AskedChange::impact: {
            const VerdictCounts& counts = findings.impact.counts;
            return fmt::format(
                "At impact the lead share was below {} in {}: let the weight arrive on the "
                "lead foot before the ball.",
                lower_edge_of(findings), in(counts.of(Verdict::below), counts.known));
        }
        case AskedChange::lowest:
            return fmt::format(
                "In {} the lead share fell under 50 % (lowest {}): the weight moved onto the trail foot.",
                in(findings.lowest.surely_under, findings.lowest.known), share_words(*findings.lowest.least));
        case AskedChange::tempo:
            return fmt::format("The rhythm changed from swing to swing: {}.",
                               tempo_facts_words(findings, of_lesson));
        case AskedChange::rest:
            return fmt::format("The finish came to rest in {} only: hold it until the ball has landed.",
                               in(findings.rest.held, findings.rest.known));
        case AskedChange::finish: {
            const VerdictCounts& counts = findings.finish.counts;
            return fmt::format(
                "At the finish the lead share was below {} in {}: finish tall on the lead foot.",
                lower_edge_of(findings), in(counts.of(Verdict::below), counts.known));
        }
    }
    return "";
}

std::string change_words_for_student(const LessonFindings& findings, AskedChange change, Hand hand,
                                     const std::string& of_lesson) {
    const char* lead = hand == Hand::right ? "left" : "right";
    const char* trail = hand == Hand::right ? "right" : "left";
    const auto in = [&](std::size_t some, std::size_t all) {
        return of_swings(some, all, findings) + of_lesson;
    };
    switch (change) {
        case AskedChange::set_up: {
            const SetUpFinding& found = findings.set_up;
            const bool below = found.side == Verdict::below;
            return fmt::format(
                "Set-up: too {} weight on your {} foot in {}; {} before you start.",
                below ? "little" : "much", lead, in(found.counts.of(found.side), found.counts.known),
                below ? "settle more onto it" : fmt::format("let a little more rest on your {} foot", trail));
        }
        case AskedChange::impact: {
            const VerdictCounts& counts = findings.impact.counts;
            return fmt::format(
                "Impact: {} of your weight on your {} foot in {}; let it arrive there before "
                "the ball.",
                less_of(findings), lead, in(counts.of(Verdict::below), counts.known));
        }
        case AskedChange::lowest:
            return fmt::format(
                "On the way: weight moved onto your {} foot in {} (at worst {} was on the {}); "
                "keep more than half of it on your {} foot.",
                trail, in(findings.lowest.surely_under, findings.lowest.known),
                share_words(*findings.lowest.least), lead, lead);
        case AskedChange::tempo:
            return fmt::format("Rhythm: it changed from swing to swing{} (spread {} %); swing to one count.",
                               of_lesson, rounded(100.0 * findings.tempo.spread, 0));
        case AskedChange::rest:
            return fmt::format("Finish: it came to rest in {} only; hold it until the ball has landed.",
                               in(findings.rest.held, findings.rest.known));
        case AskedChange::finish: {
            const VerdictCounts& counts = findings.finish.counts;
            return fmt::format("Finish: {} of your weight on your {} foot in {}; finish tall on it.",
                               less_of(findings), lead, in(counts.of(Verdict::below), counts.known));
        }
    }
    return "";
}

std::vector<Advice> advice_of_lesson(const LessonFindings& findings, const std::string& of_lesson) {
    std::vector<Advice> advice;
    for (const AskedChange change : changes_of(findings))
        advice.push_back({rule_of(change), change_words(findings, change, of_lesson)});
    return advice;
}

std::vector<Advice> advice_for_student(const LessonFindings& findings, Hand hand,
                                       const std::string& of_lesson) {
    std::vector<Advice> advice;
    for (const AskedChange change : changes_of(findings)) {
        advice.push_back({rule_of(change),
                          change_words_for_student(findings, change, hand, advice.empty() ? of_lesson : "")});
    }
    return advice;
}

}  // namespace footing
