#pragma once

#include <span>
#include <vector>

namespace footing {

/// One second-order section, a0 = 1: y[n] = b0 x[n] + b1 x[n-1] + b2 x[n-2] - a1 y[n-1] - a2 y[n-2].
struct Section {
    double b0 = 1.0;
    double b1 = 0.0;
    double b2 = 0.0;
    double a1 = 0.0;
    double a2 = 0.0;
};

/// Butterworth low pass of even order as order/2 sections, by the bilinear transform with the cut-off
/// prewarped (docs/formulas.md, F8). |H| is 1/sqrt(2) at `cutoff_hz` after one pass. `cutoff_hz` lies between
/// 0 and half of `rate_hz`; `order` is 2, 4, 6 or 8.
[[nodiscard]] std::vector<Section> butterworth_low_pass(int order, double cutoff_hz, double rate_hz);

/// The cut-off to design for, so that a forward and a backward pass together have |H| = 1/sqrt(2) at
/// `cutoff_hz`: tan(pi f'/rate) = tan(pi f/rate) / (sqrt(2) - 1)^(1/(2 order)) (Winter, Biomechanics and
/// Motor Control of Human Movement; docs/formulas.md, F9).
[[nodiscard]] double cutoff_for_two_passes(int order, double cutoff_hz, double rate_hz);

/// A causal low pass for the live screen, called with one sample after another. Lags by about
/// (sqrt(2)/2) / tan(pi fc/rate) samples for order 2. Samples that are not known (NaN) leave it as it is and
/// come back as NaN; it settles on the first known sample.
class CausalFilter {
  public:
    explicit CausalFilter(std::vector<Section> sections);
    [[nodiscard]] double operator()(double sample);
    /// As if `level` had come for ever.
    void settle_at(double level);

  private:
    struct State {
        double z0 = 0.0;
        double z1 = 0.0;
    };
    std::vector<Section> sections_;
    std::vector<State> states_;
    bool settled_ = false;
};

/// Zero-lag filtering in place: forward and backward, each pass started from the steady state of its first
/// sample, over the column extended oddly at both ends by 3 (2 sections + 1) samples, less the zeros at the
/// origin that the sections share (docs/formulas.md, F10). Equal to scipy.signal.sosfiltfilt with its
/// defaults; a column that is not longer than the extension is extended by what it has. Every value must be
/// known.
void zero_lag_filter(std::span<const Section> sections, std::span<double> column);

/// The same for columns with values that are not known (NaN): each run of known values is filtered for
/// itself.
void zero_lag_filter_known(std::span<const Section> sections, std::span<double> column);

}  // namespace footing
