#include "analysis/report/student_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/statistics/rounding.h"

namespace footing {

namespace {

constexpr double steady_tempo = 0.10;  // spread over mean: rule 3 of plain_words.h
constexpr double uneven_tempo = 0.20;

std::string noun_of(const std::vector<const ReportedSwing*>& swings) {
    const bool shots = std::ranges::all_of(
        swings, [](const ReportedSwing* swing) { return swing->kind == SwingKind::shot; });
    return shots ? "shots" : "swings";
}

std::string one_of_them(const std::string& noun) {
    return noun == "shots" ? "shot" : "swing";
}

struct Spread {
    std::size_t count = 0;
    double mean = 0.0;
    double sd = 0.0;
};

Spread spread_of(const std::vector<double>& values) {
    Spread spread{values.size(), 0.0, 0.0};
    if (values.empty()) return spread;
    for (const double value : values) spread.mean += value / static_cast<double>(values.size());
    for (const double value : values) spread.sd += (value - spread.mean) * (value - spread.mean);
    spread.sd = values.size() > 1 ? std::sqrt(spread.sd / static_cast<double>(values.size() - 1)) : 0.0;
    return spread;
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

std::string judged_words(const std::vector<const ReportedSwing*>& swings, const std::string& noun,
                         const char* lead) {
    std::array<std::size_t, 4> of{};
    std::size_t known = 0;
    for (const ReportedSwing* swing : swings) {
        if (!swing->address) continue;
        ++known;
        ++of[static_cast<std::size_t>(swing->address->verdict)];
    }
    const auto count = [&](Verdict verdict) { return of[static_cast<std::size_t>(verdict)]; };
    std::string words = fmt::format("{} of {} {} inside", count(Verdict::inside), known, noun);
    for (const auto& [verdict, place] :
         {std::pair{Verdict::below, "below"}, std::pair{Verdict::above, "above"},
          std::pair{Verdict::too_close, "too close to call"}}) {
        if (count(verdict) > 0) words += fmt::format(", {} {}", count(verdict), place);
    }
    words += ".";
    if (known < fewest_swings) return words + " Too few to say more.";
    if (3 * count(Verdict::inside) >= 2 * known) return words + " Keep it.";
    if (2 * count(Verdict::below) > known)
        return words + fmt::format(" Settle more onto your {} foot before you start.", lead);
    if (2 * count(Verdict::above) > known)
        return words + fmt::format(" Let a little more weight rest on your {} foot before you start.",
                                   std::string(lead) == "left" ? "right" : "left");
    if (2 * count(Verdict::too_close) > known) return words;
    if (count(Verdict::below) + count(Verdict::above) == 0) return words + " None was surely outside.";
    return words + " It varied: find the same feeling before every shot.";
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
    thing.number = share_short(spread_of(shares).mean);
    thing.sentences = {
        fmt::format(
            "of your weight was on your {} foot, the one nearer the target, before you began to swing ({}± "
            "{} "
            "%). "
            "Your coach asks for {}.",
            lead,
            shares.size() > 1 ? fmt::format("mean of {} {}, each ", shares.size(), noun_of(swings)) : "",
            rounded_to_uncertainty(0.0, 200.0 * largest_u).expanded, bands_in_words(swings)),
        judged_words(swings, noun_of(swings), lead)};
    return thing;
}

PlainThing rhythm_thing(const StudentReport& report) {
    PlainThing thing{"Your rhythm", "", {}};
    const auto swings = counted_swings(report);
    std::vector<double> ratios;
    std::vector<double> back;
    std::vector<double> down;
    std::vector<double> matches;
    for (const ReportedSwing* swing : swings) {
        if (swing->rhythm_percent) matches.push_back(*swing->rhythm_percent);
        if (!swing->tempo || !std::isfinite(swing->tempo->ratio)) continue;
        ratios.push_back(swing->tempo->ratio);
        back.push_back(swing->tempo->backswing_s);
        down.push_back(swing->tempo->downswing_s);
    }
    if (ratios.empty()) {
        thing.sentences = {not_measured_words(report, "when your swing turned")};
        return thing;
    }
    const Spread ratio = spread_of(ratios);
    const std::string one = one_of_them(noun_of(swings));
    thing.number = ratio_words(ratio.mean);
    thing.sentences = {
        fmt::format("Your backswing takes {} times as long as your downswing: {} s back, {} s down.",
                    number_words(ratio.mean, 1), number_words(spread_of(back).mean, 2),
                    number_words(spread_of(down).mean, 2))};
    if (ratio.count >= fewest_swings && ratio.mean > 0.0) {
        const double part = ratio.sd / ratio.mean;
        const std::string spread = number_words(100.0 * part, 0);
        thing.sentences.push_back(
            part <= steady_tempo
                ? fmt::format("From {} to {} it stayed the same (spread {} %). Keep it.", one, one, spread)
            : part > uneven_tempo
                ? fmt::format(
                      "It changed from {} to {} (spread {} %): swing to one count, the same each time.", one,
                      one, spread)
                : fmt::format("From {} to {} it changed a little (spread {} %).", one, one, spread));
    } else {
        thing.sentences.push_back("Too few to say how steady it is.");
    }
    if (!matches.empty()) {
        thing.sentences.push_back(fmt::format("Your shots matched the practice swings before them to {} %.",
                                              number_words(spread_of(matches).mean, 0)));
    }
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
    if (report.measured) {
        std::size_t measured = 0;
        std::size_t estimated = 0;
        for (const Swing& swing : report.measured->swings) {
            if (!swing.events.impact) continue;
            (swing.events.impact->source == EventSource::estimated ? estimated : measured) += 1;
        }
        estimates +=
            fmt::format("; impact was measured or marked in {} and estimated from the load in {}",
                        count_words(measured, "swing", "swings"), count_words(estimated, "swing", "swings"));
    }
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
