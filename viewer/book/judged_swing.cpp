#include "viewer/book/judged_swing.h"

#include <limits>

namespace footing {

JudgedSwing judged_swing(const BookSwing& swing, const Lesson& lesson, double sure) {
    JudgedSwing judged;
    judged.band = band_for(lesson, swing.length);
    const auto share = [&](const std::optional<double>& value, const std::optional<double>& u) {
        if (!value) return std::optional<ShareValue>();
        const double known_u = u.value_or(std::numeric_limits<double>::infinity());
        return std::optional(ShareValue{*value, known_u, judge(*value, known_u, judged.band, sure)});
    };
    judged.address = share(swing.address_share, swing.address_u);
    judged.lowest = share(swing.lowest_share, swing.lowest_u);
    judged.impact = share(swing.impact_share, swing.impact_u);
    if (swing.finish) judged.finish = share(swing.finish->share, swing.finish->u);
    if (swing.backswing_s && swing.downswing_s && *swing.downswing_s > 0.0)
        judged.tempo = Tempo{*swing.backswing_s, *swing.downswing_s, *swing.backswing_s / *swing.downswing_s};
    return judged;
}

}  // namespace footing
