#include "analysis/swing/verdict.h"

#include <cmath>

namespace footing {

namespace {
double normal_below(double limit, double mean, double sd) {
    if (sd <= 0.0) return mean < limit ? 1.0 : 0.0;
    return 0.5 * std::erfc((mean - limit) / (sd * std::sqrt(2.0)));
}
}  // namespace

Verdict judge(double value, double u, const TargetBand& band, double sure) {
    if (!std::isfinite(value) || std::isnan(u)) return Verdict::too_close;
    const double p_below = normal_below(band.low, value, u);
    const double p_above = 1.0 - normal_below(band.high, value, u);
    if (p_below >= sure) return Verdict::below;
    if (p_above >= sure && value > band.high) return Verdict::above;
    if (1.0 - p_below - p_above >= sure || (u <= 0.0 && value <= band.high)) return Verdict::inside;
    return Verdict::too_close;
}

bool surely_not_under(double value, double u, double limit, double sure) {
    if (!std::isfinite(value) || std::isnan(u)) return false;
    return 1.0 - normal_below(limit, value, u) >= sure;
}

std::string verdict_name(Verdict verdict) {
    switch (verdict) {
        case Verdict::inside:
            return "inside";
        case Verdict::below:
            return "below";
        case Verdict::above:
            return "above";
        case Verdict::too_close:
            return "too_close";
    }
    return "too_close";
}

}  // namespace footing
