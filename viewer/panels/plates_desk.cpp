#include "viewer/panels/plates_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "acquisition/calibrate/zero_words.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

constexpr double silent_after_s = 1.0;
constexpr double rate_within = 0.01;  // of the rate that the device states
constexpr double empty_below_n = 20.0;
constexpr double noisy_above_n = 4.0;  // as for a reading at rest (steady_reading.h)

HealthLine rate_line(const PlatesView& view) {
    using State = HealthLine::State;
    if (view.newest_age_s > silent_after_s)
        return {State::look_at_it,
                fmt::format("no frame for {:.0f} s: check power and cable", std::floor(view.newest_age_s))};
    if (view.heard_rate_hz <= 0.0) return {State::good, "counting frames"};
    const bool as_stated = std::abs(view.heard_rate_hz / view.device.rate_hz - 1.0) <= rate_within;
    return {as_stated ? State::good : State::look_at_it,
            as_stated ? fmt::format("{:.0f} frames a second", view.heard_rate_hz)
                      : fmt::format("{:.0f} frames a second, {:.0f} are stated", view.heard_rate_hz,
                                    view.device.rate_hz)};
}

HealthLine loss_line(const PlatesView& view) {
    const bool none = view.losses.lost == 0 && view.losses.damaged == 0;
    return {none ? HealthLine::State::good : HealthLine::State::look_at_it, loss_words(view.losses)};
}

HealthLine zero_line(const PlatesView& view) {
    using State = HealthLine::State;
    if (view.zero_advice != ZeroAdvice::fine) {
        const std::string why = refusal_words(view.zero_refusal);
        return {State::look_at_it, why.empty() ? advice_words(view.zero_advice) : why};
    }
    if (!view.zero_age_s) return {State::good, "plates send newtons: they zero themselves"};
    const double minutes = std::floor(*view.zero_age_s / 60.0);
    return {State::good,
            minutes < 1.0 ? "zeroed less than a minute ago" : fmt::format("zeroed {:.0f} min ago", minutes)};
}

HealthLine noise_line(const PlatesView& view) {
    using State = HealthLine::State;
    const bool empty = std::abs(view.total_n) < empty_below_n;
    if (!empty) return {State::good, fmt::format("trembles by {:.1f} N under load", view.noise_n)};
    const bool quiet = view.noise_n <= noisy_above_n;
    return {quiet ? State::good : State::look_at_it,
            quiet ? fmt::format("noise {:.2f} N, empty", view.noise_n)
                  : fmt::format("noise {:.1f} N while empty: wind, a draught, a loose cable", view.noise_n)};
}

HealthLine calibration_line(const PlatesView& view) {
    using State = HealthLine::State;
    const bool holds = view.calibration_state == CalibrationState::valid ||
                       view.calibration_state == CalibrationState::external;
    return {holds ? State::good : State::look_at_it, view.calibration};
}

}  // namespace

std::optional<std::vector<double>> typed_masses(const std::string& typed) {
    std::vector<double> masses;
    const char* at = typed.data();
    const char* const end = at + typed.size();
    while (at != end) {
        if (*at == ' ' || *at == ',') {
            ++at;
            continue;
        }
        double mass = 0.0;
        const auto [next, error] = std::from_chars(at, end, mass);
        if (error != std::errc() || next == at) return std::nullopt;
        masses.push_back(mass);
        at = next;
    }
    if (!check_masses(masses)) return std::nullopt;
    return masses;
}

std::vector<HealthLine> plates_health(const PlatesView& view) {
    return {rate_line(view), loss_line(view), noise_line(view), zero_line(view), calibration_line(view)};
}

}  // namespace footing
