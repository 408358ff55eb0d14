#include "analysis/report/student_report.h"

#include <algorithm>
#include <cmath>

#include "analysis/progress/change_words.h"

namespace footing {

std::vector<const ReportedSwing*> counted_swings(const StudentReport& report) {
    std::vector<std::size_t> measured_shots(report.lessons.size(), 0);
    for (const ReportedSwing& swing : report.swings) {
        if (swing.coach == CoachSays::set_aside || swing.kind != SwingKind::shot) continue;
        measured_shots[swing.lesson] += swing.address || swing.tempo ? 1 : 0;
    }
    std::vector<const ReportedSwing*> counted;
    for (const ReportedSwing& swing : report.swings) {
        if (swing.coach == CoachSays::set_aside) continue;
        if (swing.kind == SwingKind::shot || measured_shots[swing.lesson] < fewest_counted_shots)
            counted.push_back(&swing);
    }
    return counted;
}

LessonFindings findings_of(const std::vector<const ReportedSwing*>& swings, double sure) {
    std::vector<RuledSwing> ruled;
    for (const ReportedSwing* swing : swings) {
        ruled.push_back(*swing);
        ruled.back().tempo_ratio = swing->tempo ? std::optional(swing->tempo->ratio) : std::nullopt;
    }
    return lesson_findings(ruled, sure);
}

std::optional<std::vector<Advice>> changes_asked(const StudentReport& report) {
    const std::vector<const ReportedSwing*> counted = counted_swings(report);
    for (std::size_t lesson = report.lessons.size(); lesson-- > 0;) {
        std::vector<const ReportedSwing*> of_lesson;
        for (const ReportedSwing* swing : counted) {
            if (swing->lesson == lesson) of_lesson.push_back(swing);
        }
        const LessonFindings found = findings_of(of_lesson, report.sure);
        if (!found.tell_enough()) continue;
        return advice_for_student(
            found, report.hand,
            report.lessons.size() > 1 ? " of the lesson of " + report.lessons[lesson].date : "");
    }
    return std::nullopt;
}

TargetBand usual_band(const std::vector<const ReportedSwing*>& swings) {
    TargetBand usual;
    std::ptrdiff_t most = 0;
    for (const ReportedSwing* swing : swings) {
        const TargetBand& band = swing->band;
        const auto count = std::ranges::count_if(swings, [&](const ReportedSwing* other) {
            return other->address && other->band.low == band.low && other->band.high == band.high;
        });
        if (count > most) most = count, usual = band;
    }
    if (most == 0 && !swings.empty()) usual = swings.back()->band;
    return usual;
}

const char* lead_foot(Hand hand) {
    return hand == Hand::right ? "left" : "right";
}

bool has_card(const StudentReport& report) {
    return !report.chart.usable_cells().empty();
}

std::vector<ClubChoice> card_of(const StudentReport& report) {
    const double unit_m = metres_per(report.unit);
    const double within_m = 5.0 * unit_m;
    std::vector<ClubChoice> card;
    for (const double step : {5.0, 10.0, 20.0, 50.0}) {
        card = distance_card(report.chart, step * unit_m, within_m);
        if (card.size() <= most_card_rows) break;
    }
    return card;
}

}  // namespace footing
