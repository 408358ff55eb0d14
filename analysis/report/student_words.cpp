#include "analysis/report/student_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "acquisition/frame/count_words.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/statistics/rounding.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

/// What the swings that are spoken of are called.
struct Noun {
    const char* one;
    const char* many;
};

Noun noun_of(const std::vector<const ReportedSwing*>& swings) {
    const bool shots = std::ranges::all_of(
        swings, [](const ReportedSwing* swing) { return swing->kind == SwingKind::shot; });
    return shots ? Noun{"shot", "shots"} : Noun{"swing", "swings"};
}

std::string not_measured_words(const StudentReport& report, const char* what) {
    if (report.lessons.empty()) return "There is no lesson in this time.";
    const bool any_recording = std::ranges::any_of(
        report.lessons, [](const ReportedLesson& lesson) { return lesson.not_measured.empty(); });
    if (!any_recording)
        return fmt::format("Not measured: {} without plates under your feet. Next time on the plates.",
                           report.lessons.size() == 1 ? "this lesson was" : "these lessons were");
    return fmt::format("Not known here: the plates did not tell {}.", what);
}

std::string bands_in_words(const std::vector<const ReportedSwing*>& swings) {
    const TargetBand usual = usual_band(swings);
    const bool one = std::ranges::all_of(swings, [&](const ReportedSwing* swing) {
        return swing->band.low == usual.low && swing->band.high == usual.high;
    });
    return band_words(usual) + (one ? "" : ", other lengths of swing their own");
}

std::string judged_words(const SetUpFinding& found, const Noun& noun, Hand hand) {
    const VerdictCounts& counts = found.counts;
    std::string words = part_words(counts.of(Verdict::inside), counts.known, noun.one, noun.many) + " inside";
    for (const auto& [verdict, place] :
         {std::pair{Verdict::below, "below"}, std::pair{Verdict::above, "above"},
          std::pair{Verdict::too_close, "too close to call"}}) {
        if (counts.of(verdict) > 0) words += fmt::format(", {} {}", counts.of(verdict), place);
    }
    words += ".";
    const char* lead = lead_foot(hand);
    const char* trail = lead_foot(hand == Hand::right ? Hand::left : Hand::right);
    switch (found.ruling) {
        case Ruling::too_few:
            return words + " Too few to say more.";
        case Ruling::keep:
            return words + " Keep\u00A0it.";
        case Ruling::change:
            return words +
                   (found.side == Verdict::below
                        ? fmt::format(" Settle more onto your {} foot before you start.", lead)
                        : fmt::format(" Let a little more weight rest on your {} foot before you start.",
                                      trail));
        case Ruling::open:
            break;
    }
    if (found.side == Verdict::too_close) return words;
    if (counts.of(Verdict::below) + counts.of(Verdict::above) == 0)
        return words + " None was surely outside.";
    return words + " It varied: find the same feeling before every shot.";
}

std::string steadiness_words(const TempoFinding& tempo, const std::string& one) {
    const std::string spread = number_words(100.0 * tempo.spread, 0);
    switch (tempo.ruling) {
        case Ruling::too_few:
            break;
        case Ruling::keep:
            return fmt::format("From {} to {} it stayed the same (spread {} %). Keep\u00A0it.", one, one,
                               spread);
        case Ruling::change:
            return fmt::format(
                "It changed from {} to {} (spread {} %): swing to one count, the same each time.", one, one,
                spread);
        case Ruling::open:
            return fmt::format("From {} to {} it changed a little (spread {} %).", one, one, spread);
    }
    return "Too few to say how steady it is.";
}

/// How shots matched the practice swings before them, from the lessons that are told in progress too; empty
/// where no lesson has enough.
std::string rhythm_match_words(const StudentReport& report, const std::vector<const ReportedSwing*>& swings) {
    std::vector<std::vector<double>> of_lesson(report.lessons.size());
    for (const ReportedSwing* swing : swings) {
        if (swing->rhythm_percent) of_lesson[swing->lesson].push_back(*swing->rhythm_percent);
    }
    std::vector<double> matches;
    for (const std::vector<double>& values : of_lesson) {
        if (tells_of_lesson(values.size())) matches.insert(matches.end(), values.begin(), values.end());
    }
    if (matches.empty()) return "";
    const Noun noun = noun_of(swings);
    return fmt::format("{} followed practice swings and matched them to {} % on average.",
                       part_words(matches.size(), swings.size(), noun.one, noun.many),
                       number_words(mean(matches), 0));
}

}  // namespace

std::string begun_large(const std::string& sentence) {
    if (sentence.empty() || sentence.front() < 'a' || sentence.front() > 'z') return sentence;
    return std::string(1, static_cast<char>(sentence.front() - 'a' + 'A')) + sentence.substr(1);
}

PlainThing set_up_thing(const StudentReport& report) {
    PlainThing thing{"Your set-up weight", "", {}};
    const auto swings = counted_swings(report);
    std::vector<double> shares;
    double largest_u = 0.0;
    for (const ReportedSwing* swing : swings) {
        if (!swing->address) continue;
        shares.push_back(swing->address->value);
        if (std::isfinite(swing->address->u)) largest_u = std::max(largest_u, swing->address->u);
    }
    if (shares.empty()) {
        thing.sentences = {not_measured_words(report, "how your weight was split between your feet")};
        return thing;
    }
    const char* lead = lead_foot(report.hand);
    thing.number = share_short(mean(shares));
    thing.sentences = {
        fmt::format(
            "of your weight was on your {} foot, the one nearer the target, before you began to swing ({}± "
            "{} "
            "%). "
            "Your coach asks for {}.",
            lead,
            shares.size() > 1 ? fmt::format("mean of {} {}, each ", shares.size(), noun_of(swings).many) : "",
            rounded_to_uncertainty(0.0, 200.0 * largest_u).expanded, bands_in_words(swings)),
        judged_words(findings_of(swings, report.sure).set_up, noun_of(swings), report.hand)};
    return thing;
}

PlainThing rhythm_thing(const StudentReport& report) {
    PlainThing thing{"Your rhythm", "", {}};
    const auto swings = counted_swings(report);
    const TempoFinding tempo = findings_of(swings, report.sure).tempo;
    std::vector<double> back;
    std::vector<double> down;
    for (const ReportedSwing* swing : swings) {
        if (!swing->tempo || !std::isfinite(swing->tempo->ratio)) continue;
        back.push_back(swing->tempo->backswing_s);
        down.push_back(swing->tempo->downswing_s);
    }
    if (tempo.known == 0) {
        thing.sentences = {not_measured_words(report, "when your swing turned")};
        return thing;
    }
    thing.number = ratio_words(tempo.mean);
    thing.sentences = {
        fmt::format("Your backswing takes {} times as long as your downswing: {} s back, {} s down.",
                    number_words(tempo.mean, 1), number_words(mean(back), 2), number_words(mean(down), 2)),
        steadiness_words(tempo, noun_of(swings).one)};
    if (std::string match = rhythm_match_words(report, swings); !match.empty())
        thing.sentences.push_back(std::move(match));
    return thing;
}

std::vector<std::string> practice_sentences(const StudentReport& report) {
    std::vector<std::string> sentences;
    for (const Advice& advice : report.advice) sentences.push_back(clean_text(advice.words, 240));
    if (sentences.empty()) {
        sentences.emplace_back(
            "Nothing stands out in the numbers so far, so ask your coach what to practise. More lessons and "
            "carries "
            "in the book make it plain.");
    }
    return sentences;
}

std::vector<std::string> progress_sentences(const StudentReport& report) {
    std::vector<std::string> sentences;
    std::string silent;
    for (const ProgressSeries& series : report.progress) {
        if (series.change) {
            sentences.push_back(begun_large(progress_words(series, report.progress_dates)));
        } else {
            silent += (silent.empty() ? "" : ", ") + progress_measure_words(series.measure);
        }
    }
    if (!silent.empty()) {
        sentences.push_back(fmt::format("In too few lessons so far to tell a change ({} are needed): {}.",
                                        fewest_lessons, silent));
    }
    sentences.insert(sentences.end(), report.weight_words.begin(), report.weight_words.end());
    return sentences;
}

std::string progress_picture_words(const StudentReport& report) {
    const auto any = [&](const auto& holds) { return std::ranges::any_of(report.progress, holds); };
    std::string words = "Each dot is a lesson.";
    if (any([](const ProgressSeries& series) { return series.change && !series.chart; }))
        words += " The bars are the means of the first and of the last lessons, which are compared.";
    if (any([](const ProgressSeries& series) { return series.chart.has_value(); }))
        words +=
            " Tinted is where lessons like the first five are to be expected, the bold line is their "
            "moving average, and a ring stands where it left the tint.";
    if (!any([](const ProgressSeries& series) { return series.change.has_value(); }))
        words += fmt::format(" From {} lessons on the first are compared with the last.", fewest_lessons);
    return words;
}

std::string recording_words(const StudentReport& report) {
    return "The recording of " + clean_text(report.lessons[report.measured_lesson].date, 10);
}

std::string lessons_words() {
    return "Your weight at address: each stroke is a shot (where fewer than three were told, any swing), the "
           "dot is the lesson's mean, the stripe is the "
           "band. "
           "On the right: the mean, and how many lay inside.";
}

std::string period_words(const StudentReport& report) {
    return report.period + (report.hand == Hand::right ? " · right-handed" : " · left-handed") +
           (report.as_of.empty() ? "" : " · distances, card and progress as of " + report.as_of);
}

std::string each_swing_words(const StudentReport& report) {
    const bool others = report.lessons.size() > 1 && report.earlier.empty();
    return each_swing_words(report, report.measured_lesson) +
           (others
                ? " It is the newest of these with a recording; every other one is drawn swing by swing in a "
                  "report of its own."
                : "");
}

std::string each_swing_words(const StudentReport& report, std::size_t place) {
    const ReportedLesson& lesson = report.lessons[place];
    std::string words = fmt::format("Lesson {} of {}", lesson.number, clean_text(lesson.date, 10));
    if (!lesson.setup.empty()) words += ". Set-up: " + clean_text(lesson.setup, 120);
    return words + ".";
}

std::vector<std::size_t> set_aside_places(const StudentReport& report, std::size_t lesson,
                                          const LessonResult& measured) {
    std::vector<std::size_t> places;
    for (std::size_t place = 0; place < measured.swings.size(); ++place) {
        const ReportedSwing* said = reported(report, lesson, measured.swings[place]);
        if (said && said->coach == CoachSays::set_aside) places.push_back(place);
    }
    return places;
}

std::string swing_line(const StudentReport& report, const ReportedSwing& swing) {
    std::vector<std::string> parts;
    if (!swing.wedge.empty()) {
        parts.push_back(clean_text(swing.wedge, most_wedge_name) +
                        (swing.length ? " " + length_name(*swing.length) : ""));
    } else if (swing.length) {
        parts.push_back(length_name(*swing.length));
    }
    if (swing.kind == SwingKind::practice) parts.insert(parts.begin(), "practice swing");
    if (swing.carry_m) parts.push_back(distance_words(*swing.carry_m, report.unit));
    if (swing.tempo) parts.push_back("tempo " + ratio_words(swing.tempo->ratio));
    if (swing.coach == CoachSays::set_aside) parts.emplace_back("set aside");
    std::string line;
    for (const std::string& part : parts) line += (line.empty() ? "" : " · ") + part;
    return line;
}

const ReportedSwing* reported(const StudentReport& report, std::size_t lesson, const Swing& swing) {
    for (const ReportedSwing& one : report.swings) {
        if (one.lesson == lesson && one.number == static_cast<std::int64_t>(swing.index)) return &one;
    }
    return nullptr;
}

std::vector<std::string> how_it_was_measured(const StudentReport& report) {
    std::vector<std::string> words{
        fmt::format(
            "The lead share is the part of your weight on the plates that your {} foot carries, the one "
            "nearer "
            "the target. Every picture runs from the trail foot (0 %) to the lead foot (100 %); the upright "
            "stripe is the band that your coach asks for. Time runs down, with 0 at impact.",
            lead_foot(report.hand)),
        "± is twice the standard uncertainty: the true value lies within it in about 95 of 100 cases. A "
        "verdict is given "
        "only where it is sure enough (" +
            certainty_words(report.sure) + "); else the mark says too close to call.",
        shot_words(ShotsTold::by_book),
        fmt::format(
            "A distance is the mean carry of the shots that count, without roll; ± is its 95 % interval. A "
            "shot "
            "that Grubbs' test finds to be no part of the others (at {} %) is set aside, never deleted; the "
            "coach's word stands above the test. {} shots make a number; with fewer, only how many there are "
            "is "
            "told.{}",
            number_words(100.0 * report.limits.outlier_alpha, 0), shots_for_a_number,
            report.as_of.empty()
                ? ""
                : " The book holds lessons after " + report.as_of + "; nothing of them is in this report."),
        "A change over the lessons is called real only where chance alone would show one as large in fewer "
        "than 5 of 100 "
        "cases, as lessons differ from one another."};
    std::string estimates =
        "Estimates: the top of the backswing is read from the weight, not seen at the club, and so the tempo "
        "is an "
        "estimate too";
    if (report.measured) estimates += "; " + impact_words(report.measured->swings);
    words.push_back(
        estimates +
        ". The centre of pressure shows where the ground is pushed, not where the body's mass is.");
    return words;
}

std::vector<std::string> student_cautions(const StudentReport& report) {
    std::vector<std::string> sentences = cautions();
    sentences.push_back(
        "These are your data" +
        (report.consent.empty() ? std::string() : " (consent to be recorded: " + report.consent + ")") +
        ". Ask your coach to correct or remove them whenever you like; for a child the guardian "
        "decides.");
    return sentences;
}

}  // namespace footing
