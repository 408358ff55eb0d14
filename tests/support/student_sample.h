#pragma once

#include <string>
#include <vector>

#include "analysis/report/student_report.h"
#include "tests/support/lesson_sample.h"

/// Invented students for tests of the student's report, the same at every call.
namespace footing::sample {

/// Carries of a student with three wedges, some set aside; a shot's number is its place.
inline void add_distances(StudentReport& report, const std::vector<std::string>& names) {
    std::vector<ChartWedge> wedges;
    for (std::size_t i = 0; i < names.size(); ++i)
        wedges.push_back({names[i], 60.0 - 4.0 * static_cast<double>(i), Bag::in});
    std::vector<ChartShot> shots;
    std::int64_t number = 0;
    for (std::size_t wedge = 0; wedge < names.size(); ++wedge) {
        for (const SwingLength length : swing_lengths) {
            const double mean_m =
                36.0 + 7.0 * static_cast<double>(wedge) + 13.0 * static_cast<double>(length);
            for (const double off_m : {-1.2, 0.4, 1.1, -0.6, 0.2, 0.7, -0.9}) {
                ChartShot shot{wedge, length, {++number, mean_m + off_m, CoachSays::nothing, "", 20580}};
                if (number % 23 == 0) shot.carry.carry_m -= 18.0;  // the test sets it aside
                if (number % 31 == 0) shot.carry.coach = CoachSays::set_aside, shot.carry.reason = "wind";
                shots.push_back(shot);
                report.charted[number] = {"2026-05-07", 3, number % 60 + 1};
            }
        }
    }
    report.limits.today = 20588;
    report.chart = make_distance_chart(std::move(wedges), shots, report.limits);
}

/// One lesson on plates, with carries; `lessons` before it are known from the book only.
inline StudentReport student(Hand hand = Hand::right, DistanceUnit unit = DistanceUnit::yards,
                             std::size_t lessons_before = 0) {
    StudentReport report;
    report.name = "Sample Student";
    report.hand = hand;
    report.unit = unit;
    report.consent = "yes, 2026-04-01";
    report.period = "Lesson of 2026-05-14";
    for (std::size_t i = 0; i <= lessons_before; ++i) {
        ReportedLesson lesson;
        lesson.number = static_cast<std::int64_t>(i) + 1;
        lesson.date = i == lessons_before ? "2026-05-14" : "2026-04-" + std::to_string(10 + i);
        if (i < lessons_before) lesson.not_measured = "without plates";
        report.lessons.push_back(lesson);
        report.progress_dates.push_back(lesson.date);
    }
    report.measured = lesson(hand);
    report.measured->facts.student = report.name;
    report.measured_lesson = lessons_before;
    report.lessons.back().setup = "ball back";
    report.lessons.back().measured_by = lesson_facts(*report.measured);
    for (std::size_t at = 0; at <= lessons_before; ++at) {
        for (const Swing& swing : report.measured->swings) {
            ReportedSwing one;
            one.lesson = at;
            one.number = static_cast<std::int64_t>(swing.index);
            one.kind = swing.kind;
            one.address = swing.lead_share.address;
            one.lowest = swing.lead_share.lowest;
            one.impact = swing.lead_share.impact;
            one.tempo = swing.tempo;
            one.wedge = swing.kind == SwingKind::shot ? "56" : "";
            one.length = swing.kind == SwingKind::shot ? std::optional(SwingLength::half) : std::nullopt;
            if (swing.kind == SwingKind::shot) one.carry_m = 43.0 + 0.3 * static_cast<double>(swing.index);
            report.swings.push_back(one);
        }
    }
    std::vector<ProgressShot> shots;
    for (const ReportedSwing& swing : report.swings) {
        ProgressShot shot;
        shot.lesson = swing.lesson;
        if (swing.address)
            shot.address_share = swing.address->value + 0.002 * static_cast<double>(swing.lesson % 3);
        if (swing.tempo) shot.tempo_ratio = swing.tempo->ratio;
        shots.push_back(shot);
    }
    const auto progress = progress_of_lessons(shots);
    report.progress.assign(progress.begin(), progress.end());
    report.weight_words = {"Carry and weight at address: too few shots to say."};
    report.advice = {{PracticeRule::weight_outside, "Set-up: 2 of 6 shots had less weight on the lead foot."},
                     {PracticeRule::number_unknown, "Distance: 60 full is 62 yd ± 4 yd so far."}};
    add_distances(report, {"60", "56", "52"});
    return report;
}

/// A student of whom seven lessons were recorded, the newest six of them laid over each other.
inline StudentReport student_of_many_recordings() {
    StudentReport report = student(Hand::right, DistanceUnit::yards, 6);
    for (std::size_t place = 0; place < report.lessons.size(); ++place) {
        report.lessons[place].not_measured.clear();
        report.lessons[place].measured_by = {{"Measured by", "two plates"}};
        if (place == 0) continue;
        LaidSwings laid{place, lesson(), {}};
        laid.set =
            swing_set(laid.measured.trace, laid.measured.facts.hand, laid.measured.swings, SetKind::counted);
        laid.measured.trace = {};
        report.laid.push_back(std::move(laid));
    }
    return report;
}

/// A student whose lesson was held without plates.
inline StudentReport unmeasured_student() {
    StudentReport report = student();
    report.measured.reset();
    report.lessons.back().measured_by.clear();
    report.lessons.back().not_measured = "without plates";
    for (ReportedSwing& swing : report.swings) swing.address.reset(), swing.tempo.reset();
    return report;
}

/// A student of whom nothing is known.
inline StudentReport new_student() {
    StudentReport report;
    report.name = "New";
    report.period = "Lesson of 2026-05-14";
    report.lessons = {{1, "2026-05-14", "", "", {}, "without plates"}};
    report.progress_dates = {"2026-05-14"};
    return report;
}

/// 200 names that would do harm where text is taken for something else. Each script would call for `url`.
inline std::vector<std::string> two_hundred_hostile_names(const std::string& url) {
    const std::vector<std::string> payloads{
        "<script>fetch('" + url + "')</script>",
        "<img src=" + url + " onerror=document.title='owned'>",
        "<svg onload=document.title='owned'>",
        "<iframe src=\"" + url + "\"></iframe>",
        "<link rel=stylesheet href=" + url + ">",
        "<style>@import url(" + url + ");</style>",
        "<meta http-equiv=refresh content=\"0;url=" + url + "\">",
        "<base href=" + url + ">",
        "<object data=" + url + "></object>",
        "<video src=" + url + " autoplay>",
        "<body onload=document.title='owned'>",
        "<a href=\"javascript:document.title='owned'\" autofocus>",
        "<form action=" + url + "><input autofocus onfocus=document.title='owned'>",
        "<math><mtext></mtext><script>document.title='owned'</script></math>",
        "&lt;script&gt;document.title='owned'&lt;/script&gt;",
        "&#60;script>document.title='owned'&#60;/script>",
        "=HYPERLINK(\"" + url + "\")",
        "@SUM(1+1)*cmd|' /C calc'!A0",
        "%PDF-1.5 endobj endstream ) (",
        std::string(400, 'W'),
        "\xF0\x9F\x8F\x8C\xEF\xB8\x8F \xE6\x97\xA5\xE6\x9C\xAC\xE8\xAA\x9E",
        "\xD7\x90\xD7\x91\xD7\x92 \xE2\x80\xAE"
        "cba \xD8\xA7\xD8\xA8\xD8\xAC",
        "\xFF\xC3\x28 \x01\r\n\t bad bytes",
        "e\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81\xCC\x81",
        "{} {0} %s %n ${HOME} $(id) `id` ; DROP TABLE student; --"};
    const std::vector<std::string> before{"",    "\">",      "'>",       "-->",
                                          "]]>", "</title>", "</style>", "</text></svg>"};
    std::vector<std::string> names;
    for (const std::string& opening : before) {
        for (const std::string& payload : payloads) names.push_back(opening + payload);
    }
    return names;
}

/// Reports that carry all of these names, in every place that free text has.
inline std::vector<StudentReport> hostile_students(const std::vector<std::string>& names) {
    constexpr std::size_t each = 10;
    std::vector<StudentReport> reports;
    for (std::size_t from = 0; from < names.size(); from += each) {
        const auto name = [&](std::size_t i) { return names[(from + i) % names.size()]; };
        StudentReport report = reports.empty() ? student() : unmeasured_student();
        report.name = name(0);
        report.period = name(1);
        report.consent = name(2);
        report.lessons.back().date = name(3);
        report.lessons.back().setup = name(4);
        if (!report.measured) report.lessons.back().not_measured = name(5);
        report.advice.front().words = name(6);
        add_distances(report, {name(7), name(8), name(9)});
        for (DistanceCell& cell : report.chart.cells) cell.shots.front().reason = name(5);
        for (ReportedSwing& swing : report.swings) swing.wedge = name(9);
        reports.push_back(std::move(report));
    }
    return reports;
}

}  // namespace footing::sample
