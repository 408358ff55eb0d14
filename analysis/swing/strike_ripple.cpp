#include "analysis/swing/strike_ripple.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/pressure/filter.h"
#include "analysis/statistics/summary.h"
#include "analysis/swing/event_span.h"

namespace footing {

namespace {

/// Frequencies between which a column is looked at.
struct Band {
    double lowest_hz;
    double highest_hz;
};
constexpr Band ripple_band{20.0, 60.0};
constexpr Band body_band{10.0, 20.0};  ///< the quickest that the body does by itself
constexpr double least_rate_hz = 200.0;
constexpr int filter_order = 4;
constexpr double settles_s = 0.15;  ///< of the filters, at both ends
constexpr double window_s = 0.04;   ///< about as long as a jolt rings
/// Where the ripple is looked for, about the impact; it is late by its way through the body.
constexpr double before_impact_s = 0.05;
constexpr double after_impact_s = 0.09;
/// … however unsure that is: further off a foot that is planted rings as well.
constexpr double most_doubt_s = 0.12;
/// The swing up to so long before the strongest ripple is what that must stand out of.
constexpr double reference_ends_before_s = 0.14;
constexpr double shortest_reference_s = 0.16;
/// A ripple is seen from so many times the usual in its band on, and so many times the most that the swing
/// itself had there.
constexpr double times_usual = 3.0;
constexpr double times_most = 1.5;
/// A short push of the body is seen in the ripple's band as well, but more so below it; what rings has so
/// many times as much within the band.
constexpr double times_body = 1.25;
/// Silence tells something where the usual ripple would have been so much larger than is needed.
constexpr double plainly_larger = 2.0;
/// The filters smear the ripple to before its beginning, and the way through the body makes it late; by how
/// much differs, so that both are left in the uncertainty [our own].
constexpr double strike_u_s = 0.01;
/// One ripple may be a club that met the turf.
constexpr std::size_t fewest_ripples = 2;

/// The column between two low passes, zero lag.
std::vector<double> in_band(std::vector<double> column, const Band& band, double rate_hz) {
    std::vector<double> slow = column;
    const auto low_pass = [rate_hz](double cutoff_hz) {
        return butterworth_low_pass(filter_order, cutoff_for_two_passes(filter_order, cutoff_hz, rate_hz),
                                    rate_hz);
    };
    zero_lag_filter(low_pass(band.highest_hz), column);
    zero_lag_filter(low_pass(band.lowest_hz), slow);
    for (std::size_t i = 0; i < column.size(); ++i) column[i] -= slow[i];
    return column;
}

/// The total load of a stretch of the recording in a band.
class LoadInBand {
  public:
    /// Entries of the trace, the last not counted.
    LoadInBand(const LoadTrace& trace, const Band& band, std::size_t begin, std::size_t end)
        : rate_hz_(trace.rate_hz), begin_(begin), window_(entry(window_s, trace.rate_hz)) {
        band_ = in_band({trace.total_n.begin() + static_cast<std::ptrdiff_t>(begin),
                         trace.total_n.begin() + static_cast<std::ptrdiff_t>(end)},
                        band, trace.rate_hz);
    }

    static std::size_t entry(double time_s, double rate_hz) {
        return static_cast<std::size_t>(std::max(0.0, time_s * rate_hz + 0.5));
    }

    /// The mean squares of all windows between two times; the first begins at the earlier.
    [[nodiscard]] std::vector<double> mean_squares(double from_s, double to_s) const {
        std::vector<double> means;
        const std::size_t last = entry(to_s, rate_hz_) - begin_;
        for (std::size_t i = entry(from_s, rate_hz_) - begin_; i + window_ <= last; ++i)
            means.push_back(mean_square(i));
        return means;
    }

  private:
    double mean_square(std::size_t first) const {
        double sum = 0.0;
        for (std::size_t k = first; k < first + window_; ++k) sum += band_[k] * band_[k];
        return sum / static_cast<double>(window_);
    }

    double rate_hz_;
    std::size_t begin_;
    std::size_t window_;
    std::vector<double> band_;
};

/// What a ripple must reach to be seen in this swing.
double needed_n(const StrikeRipple& ripple) {
    return std::max({times_usual * ripple.usual_n, times_most * ripple.most_n, times_body * ripple.body_n});
}

}  // namespace

std::optional<StrikeRipple> measure_strike_ripple(const LoadTrace& trace, const SwingEvents& events) {
    if (!(trace.rate_hz >= least_rate_hz) || !events.address || !events.impact) return std::nullopt;
    const double doubt_s = std::min(2.0 * events.impact->u_s, most_doubt_s);
    const double from_s = std::max(0.0, address_span(*events.address).from_s);
    const double search_from_s = events.impact->time_s - doubt_s - before_impact_s;
    const double search_to_s = events.impact->time_s + doubt_s + after_impact_s;
    const std::size_t begin = LoadInBand::entry(from_s - settles_s, trace.rate_hz);
    const std::size_t end = LoadInBand::entry(search_to_s + settles_s, trace.rate_hz);
    if (end > trace.size() || search_from_s - reference_ends_before_s < from_s + shortest_reference_s)
        return std::nullopt;
    if (std::any_of(trace.bridged.begin() + static_cast<std::ptrdiff_t>(begin),
                    trace.bridged.begin() + static_cast<std::ptrdiff_t>(end),
                    [](std::uint8_t bridged) { return bridged != 0; }))
        return std::nullopt;
    const LoadInBand band(trace, ripple_band, begin, end);
    const std::vector<double> about = band.mean_squares(search_from_s, search_to_s);
    if (about.empty()) return std::nullopt;
    const std::size_t about_begin = LoadInBand::entry(search_from_s - settles_s, trace.rate_hz);
    const std::vector<double> body =
        LoadInBand(trace, body_band, about_begin, end).mean_squares(search_from_s, search_to_s);
    const auto strongest = static_cast<std::size_t>(std::ranges::max_element(about) - about.begin());
    const double strongest_s = search_from_s + static_cast<double>(strongest) / trace.rate_hz;
    // Up to shortly before it, so that the swing's own push stands against it.
    const std::vector<double> before = band.mean_squares(from_s, strongest_s - reference_ends_before_s);
    return StrikeRipple{std::sqrt(about[strongest]), std::sqrt(mean(before)),
                        std::sqrt(std::ranges::max(before)), strongest_s, std::sqrt(body[strongest])};
}

bool is_seen(const StrikeRipple& ripple) {
    return ripple.peak_n > needed_n(ripple);
}

Event rippled_impact(const StrikeRipple& ripple) {
    return {ripple.began_s, strike_u_s, EventSource::estimated};
}

void tell_kinds(std::vector<Swing>& swings, const std::vector<bool>& struck, TriggerTrust trust) {
    const bool trigger_speaks = std::ranges::any_of(struck, [](bool one) { return one; });
    std::vector<double> seen_n;
    for (const Swing& swing : swings) {
        if (swing.strike_ripple && is_seen(*swing.strike_ripple))
            seen_n.push_back(swing.strike_ripple->peak_n);
    }
    const double usual_n = seen_n.size() >= fewest_ripples ? median(seen_n) : 0.0;
    for (std::size_t i = 0; i < swings.size(); ++i) {
        Swing& swing = swings[i];
        const auto& ripple = swing.strike_ripple;
        const auto say = [&swing](SwingKind kind, KindSource source) {
            swing.kind = kind;
            swing.kind_source = source;
        };
        swing.kind = SwingKind::unknown;
        swing.kind_source.reset();
        if (struck[i]) {
            say(SwingKind::shot, KindSource::trigger);
        } else if (trigger_speaks && trust == TriggerTrust::never_misses) {
            say(SwingKind::practice, KindSource::trigger);
        } else if (ripple && is_seen(*ripple) && (usual_n > 0.0 || trigger_speaks)) {
            say(SwingKind::shot, KindSource::ripple);
        } else if (ripple && usual_n > plainly_larger * needed_n(*ripple)) {
            say(SwingKind::practice, KindSource::ripple);
        }
    }
}

}  // namespace footing
