#include "analysis/report/student_report.h"

#include <algorithm>
#include <cmath>

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
