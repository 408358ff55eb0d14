#include "analysis/pressure/lead_share.h"

#include <algorithm>

namespace footing {

double lead_share(double left_n, double right_n, Hand hand, double load_floor_n) {
    const double both_n = left_n + right_n;
    if (!(both_n >= load_floor_n) || both_n <= 0.0) return unknown;
    return std::clamp((hand == Hand::right ? left_n : right_n) / both_n, 0.0, 1.0);
}

double lead_share(const LoadSample& sample, Hand hand, double load_floor_n) {
    return lead_share(sample.left_n, sample.right_n, hand, load_floor_n);
}

void lead_share(std::span<const double> left_n, std::span<const double> right_n, Hand hand,
                std::span<double> share, double load_floor_n) {
    const std::span<const double> lead_n = hand == Hand::right ? left_n : right_n;
    for (std::size_t i = 0; i < share.size(); ++i) {
        const double both_n = left_n[i] + right_n[i];
        const double part = lead_n[i] / both_n;
        const double in_range = part < 0.0 ? 0.0 : part > 1.0 ? 1.0 : part;
        share[i] = both_n >= load_floor_n && both_n > 0.0 ? in_range : unknown;
    }
}

std::vector<double> lead_share(const LoadTrace& trace, Hand hand, double load_floor_n) {
    std::vector<double> share(trace.size());
    lead_share(trace.left_n, trace.right_n, hand, share, load_floor_n);
    return share;
}

double stance_x_m(double plate_x_m, Hand hand) {
    return hand == Hand::right ? -plate_x_m : plate_x_m;
}

PointM to_stance_frame(PointM plate_frame, Hand hand) {
    return {stance_x_m(plate_frame.x_m, hand), plate_frame.y_m};
}

}  // namespace footing
