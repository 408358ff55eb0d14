#include "viewer/book/ruled_swing.h"

#include <limits>

namespace footing {

std::optional<Tempo> tempo_of(const BookSwing& swing) {
    if (!swing.backswing_s || !swing.downswing_s || !(*swing.downswing_s > 0.0)) return std::nullopt;
    return Tempo{*swing.backswing_s, *swing.downswing_s, *swing.backswing_s / *swing.downswing_s};
}

RuledSwing ruled_swing(const BookSwing& swing, const Lesson& lesson, double sure) {
    RuledSwing ruled;
    ruled.kind = swing.kind();
    ruled.band = band_for(lesson, swing.length);
    const auto share = [&](const std::optional<double>& value, const std::optional<double>& u) {
        if (!value) return std::optional<ShareValue>();
        const double known_u = u.value_or(std::numeric_limits<double>::infinity());
        return std::optional(ShareValue{*value, known_u, judge(*value, known_u, ruled.band, sure)});
    };
    ruled.address = share(swing.address_share, swing.address_u);
    ruled.lowest = share(swing.lowest_share, swing.lowest_u);
    ruled.impact = share(swing.impact_share, swing.impact_u);
    if (const auto& finish = swing.finish) {
        ruled.finish = share(finish->share, finish->u);
        ruled.came_to_rest = finish->came_to_rest;
    }
    if (const auto tempo = tempo_of(swing)) ruled.tempo_ratio = tempo->ratio;
    return ruled;
}

}  // namespace footing
