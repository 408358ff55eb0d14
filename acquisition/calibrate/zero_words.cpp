#include "acquisition/calibrate/zero_words.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdio>

#include "acquisition/frame/ground_words.h"

namespace footing {

std::string zero_note(const ZeroEvent& zero, FrameKind kind) {
    std::array<char, 128> text{};
    const std::string empty = std::string("the empty ") + ground_words(kind);
    if (zero.cause == ZeroCause::first) {
        std::snprintf(text.data(), text.size(), "first zero on %s; noise %.2f N", empty.c_str(),
                      zero.noise_n);
        return text.data();
    }
    const std::string why = zero.cause == ZeroCause::asked     ? "zeroed, as asked"
                            : zero.cause == ZeroCause::drifted ? "zeroed: " + empty + " had drifted"
                                                               : "zeroed on " + empty;
    std::snprintf(text.data(), text.size(), "%s; moved by %+.2f N in %.1f min, noise %.2f N", why.c_str(),
                  zero.shift_n, zero.since_last_s / 60.0, zero.noise_n);
    return text.data();
}

std::string refusal_words(ZeroRefusal refusal) {
    switch (refusal) {
        case ZeroRefusal::none:
            return {};
        case ZeroRefusal::too_short:
            return "no zero yet: the plates must be empty and at rest for a second";
        case ZeroRefusal::loaded:
            return "no zero: something is on the plates; step off, and take off bags and clubs";
        case ZeroRefusal::noisy:
            return "no zero: the reading shakes; keep away from the plates and see that no cable swings";
        case ZeroRefusal::sloping:
            return "no zero: the reading still moves; wait a moment, and let cold plates warm up";
    }
    return {};
}

std::string advice_words(ZeroAdvice advice) {
    switch (advice) {
        case ZeroAdvice::fine:
            return {};
        case ZeroAdvice::none_yet:
            return "leave the plates empty for a second, so that they can be zeroed";
        case ZeroAdvice::drifted:
            return "the empty plates read more than 0.5 % of body weight: leave them empty and untouched for "
                   "a second";
        case ZeroAdvice::too_old:
            return "the zero is more than 10 minutes old: step off for a second";
    }
    return {};
}

ZeroDrift zero_drift(std::span<const ZeroEvent> zeros, const std::vector<double>& newtons_per_count,
                     const std::vector<std::size_t>& plate_of_value) {
    assert(newtons_per_count.size() == plate_of_value.size());
    std::size_t plates = 0;
    for (const std::size_t plate : plate_of_value) plates = std::max(plates, plate + 1);
    ZeroDrift drift;
    drift.zeros = zeros.size();
    drift.largest_n.assign(plates, 0.0);
    for (std::size_t k = 1; k < zeros.size(); ++k) {
        std::vector<double> shift_n(plates, 0.0);
        for (std::size_t i = 0; i < plate_of_value.size(); ++i) {
            shift_n[plate_of_value[i]] +=
                (zeros[k].zero_counts[i] - zeros[k - 1].zero_counts[i]) * newtons_per_count[i];
        }
        for (std::size_t p = 0; p < plates; ++p)
            drift.largest_n[p] = std::max(drift.largest_n[p], std::abs(shift_n[p]));
        if (zeros[k].since_last_s > 0.0) {
            drift.n_per_min =
                std::max(drift.n_per_min, std::abs(zeros[k].shift_n) / zeros[k].since_last_s * 60.0);
        }
    }
    for (const double shift_n : drift.largest_n) drift.u_n.push_back(shift_n / std::sqrt(3.0));
    return drift;
}

}  // namespace footing
