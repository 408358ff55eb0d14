#include "acquisition/device/golfer_chance.h"

#include <cmath>

namespace footing {

double Chance::between(double low, double high) {
    const double unit = static_cast<double>(engine_() >> 11) * 0x1.0p-53;
    return low + unit * (high - low);
}

bool Chance::happens(double probability) {
    return between(0.0, 1.0) < probability;
}

double Chance::normal() {
    if (has_spare_) {
        has_spare_ = false;
        return spare_;
    }
    double a = 0.0;
    double b = 0.0;
    double square = 0.0;
    do {
        a = between(-1.0, 1.0);
        b = between(-1.0, 1.0);
        square = a * a + b * b;
    } while (square >= 1.0 || square == 0.0);
    const double scale = std::sqrt(-2.0 * std::log(square) / square);
    spare_ = b * scale;
    has_spare_ = true;
    return a * scale;
}

}  // namespace footing
