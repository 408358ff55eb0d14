#include "analysis/swing/sign_reader.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

namespace footing {

namespace {

/// Sizes below these would make ratios of noise.
constexpr double least_push_bw = 0.01;
constexpr double least_return = 0.01;
constexpr double seen_usual_load_changes = 4.0;
constexpr double seen_usual_share_changes = 3.0;
constexpr double turn_of_range = 0.15;
constexpr double crossing_of_push = 0.25;
constexpr double half_alike_s = 0.3;  ///< of what is laid over its like
constexpr double soonest_again_s = 0.35;
constexpr double latest_again_s = 0.9;

/// A stretch of a column less its own straight line, to lay others of its length over.
class Stretch {
  public:
    explicit Stretch(std::span<const double> values)
        : bent_(values.begin(), values.end()), middle_(0.5 * static_cast<double>(values.size() - 1)) {
        for (std::size_t i = 0; i < bent_.size(); ++i) run_squares_ += off(i) * off(i);
        const Sums sums = sums_of(values);
        const double mean = sums.values / static_cast<double>(bent_.size());
        const double slope = sums.along / run_squares_;
        for (std::size_t i = 0; i < bent_.size(); ++i) {
            bent_[i] -= mean + slope * off(i);
            squares_ += bent_[i] * bent_[i];
        }
    }

    /// Correlation with another, it too less its own line; NaN where one of them has nothing else.
    [[nodiscard]] double likeness(std::span<const double> other) const {
        const Sums sums = sums_of(other);
        const double other_squares = sums.squares -
                                     sums.values * sums.values / static_cast<double>(other.size()) -
                                     sums.along * sums.along / run_squares_;
        return std::min(sums.with_bent / std::sqrt(squares_ * other_squares), 1.0);
    }

  private:
    struct Sums {
        double values = 0.0;
        double along = 0.0;  ///< with the distance from the middle
        double squares = 0.0;
        double with_bent = 0.0;
    };
    double off(std::size_t i) const { return static_cast<double>(i) - middle_; }
    Sums sums_of(std::span<const double> values) const {
        Sums sums;
        for (std::size_t i = 0; i < values.size(); ++i) {
            sums.values += values[i];
            sums.along += off(i) * values[i];
            sums.squares += values[i] * values[i];
            sums.with_bent += bent_[i] * values[i];
        }
        return sums;
    }

    std::vector<double> bent_;
    double middle_;
    double run_squares_ = 0.0;
    double squares_ = 0.0;
};

/// Looks about one candidate; every time is held within the recording.
class SignReader {
  public:
    SignReader(const SwingCandidate& candidate, const StanceSignals& signals, const SwingOptions& options,
               const SwingEvidence& evidence, const std::vector<double>& unrest)
        : c_(candidate),
          s_(signals),
          o_(options),
          evidence_(evidence),
          unrest_(unrest),
          address_{candidate.quiet_to - signals.entries(options.quiet_window_s), candidate.quiet_to + 1},
          address_share_(mean(signals.share, address_)),
          address_bw_(mean(signals.load_bw, address_)),
          hold_end_(std::min(signals.size(), candidate.arrival + signals.entries(0.5) + 1)) {
        c_.push_bw = signals.load_bw[candidate.push_peak] - address_bw_;
        push_ = std::max(c_.push_bw, least_push_bw);
    }

    [[nodiscard]] SwingSigns read() const {
        SwingSigns signs{};
        const auto set = [&](SwingSign sign, double value) { signs[static_cast<std::size_t>(sign)] = value; };
        read_return(set);
        read_push(set);
        read_load(set);
        read_place(set);
        return signs;
    }

  private:
    void read_return(const auto& set) const {
        const double seen = std::max(o_.least_shift, seen_usual_share_changes * s_.usual_share_change);
        set(SwingSign::return_share, c_.return_share);
        set(SwingSign::return_in_usual, c_.return_share / seen);
        set(SwingSign::return_s, c_.return_s);
        set(SwingSign::quick_s, c_.quick_s);
        set(SwingSign::speed, top_rate(s_.share, at(c_.middle, -0.25), at(c_.middle, 0.15)));
        set(SwingSign::hold, (lowest(s_.share, at(c_.arrival, 0.05), hold_end_ - 1) - s_.share[c_.turn]) /
                                 std::max(c_.return_share, least_return));
        set(SwingSign::rest_level, mean(s_.share, {at(c_.arrival, 0.15), hold_end_}) - address_share_);
        set(SwingSign::departure_s, c_.departure_s);
        set(SwingSign::away_s, evidence_.away_s(c_, address_share_));
        set(SwingSign::lateness_s,
            (static_cast<double>(c_.push_peak) - static_cast<double>(c_.middle)) / s_.rate_hz);
    }

    void read_push(const auto& set) const {
        const std::size_t peak = c_.push_peak;
        const double seen = std::max(o_.least_push_bw, seen_usual_load_changes * s_.usual_load_change_bw);
        const std::size_t before = std::max(peak, c_.quiet_to + 1);
        set(SwingSign::push, c_.push_bw);
        set(SwingSign::push_in_usual, c_.push_bw / seen);
        set(SwingSign::push_s, evidence_.push_s(c_, address_bw_));
        set(SwingSign::impulse_left, evidence_.impulse_left(c_, address_bw_));
        set(SwingSign::unrest_after, off_address(at(peak, 0.45), at(peak, 0.75)) / push_);
        set(SwingSign::unrest_before, off_address(at(peak, -0.85), at(peak, -0.35)) / push_);
        set(SwingSign::stir_before, off_address(at(peak, -2.5), at(peak, -0.85)) / push_);
        set(SwingSign::load_repeats, repeats(s_.load_bw, peak));
        set(SwingSign::share_repeats, repeats(s_.share, c_.middle));
        set(SwingSign::sink, (address_bw_ - lowest(s_.load_bw, c_.quiet_to, before)) / push_);
        set(SwingSign::rise,
            (highest(s_.load_bw, c_.quiet_to, std::max(at(peak, -0.3), c_.quiet_to + 1)) - address_bw_) /
                push_);
        set(SwingSign::unload, (address_bw_ - lowest(s_.load_bw, peak, at(peak, 0.35))) / push_);
        set(SwingSign::bent_before, evidence_.bent_before(c_, address_bw_) ? 1.0 : 0.0);
    }

    void read_load(const auto& set) const {
        const std::size_t over = at(c_.arrival, 0.4);
        const double range = highest(s_.load_bw, c_.quiet_to, over) - lowest(s_.load_bw, c_.quiet_to, over);
        const EntryRange last{hold_end_ - std::min(hold_end_, s_.entries(0.2)), hold_end_};
        set(SwingSign::impulse, std::abs(evidence_.impulse(c_, address_bw_)));
        set(SwingSign::load_after, std::abs(mean(s_.load_bw, last) - address_bw_));
        set(SwingSign::load_range, range);
        set(SwingSign::range_to_push, range / push_);
        set(SwingSign::load_rate, top_change(s_.load_bw, at(c_.turn, -0.3), at(c_.arrival, 0.3)));
        set(SwingSign::crossings, crossings());
    }

    void read_place(const auto& set) const {
        const std::size_t last = hold_end_ - 1;
        const double forward_m = mean(s_.forward_m, address_);
        double far_share = 0.0;
        double far_forward_m = 0.0;
        for (std::size_t i = c_.quiet_to; i <= at(c_.turn, -under_way_before_turn_s); ++i) {
            far_share = std::max(far_share, std::abs(s_.share[i] - address_share_));
            far_forward_m = std::max(far_forward_m, std::abs(s_.forward_m[i] - forward_m));
        }
        set(SwingSign::far_share, far_share / std::max(1e-4, s_.usual_share_change));
        set(SwingSign::far_forward, far_forward_m / std::max(1e-5, s_.usual_forward_change_m));
        set(SwingSign::quiet_s, static_cast<double>(c_.quiet_to - c_.quiet_from) / s_.rate_hz);
        set(SwingSign::lowest, lowest(s_.share, c_.quiet_from, last));
        set(SwingSign::highest_before, highest(s_.share, c_.quiet_from, c_.turn));
        set(SwingSign::highest, highest(s_.share, c_.quiet_from, last));
        set(SwingSign::forward_range,
            highest(s_.forward_m, c_.quiet_to, last) - lowest(s_.forward_m, c_.quiet_to, last));
        set(SwingSign::settling,
            at(c_.arrival, 0.3) < hold_end_ ? lowest(unrest_, at(c_.arrival, 0.3), last) : unrest_.back());
        set(SwingSign::back, address_share_ - lowest(s_.share, c_.quiet_to, c_.turn));
        set(SwingSign::turns, turns());
    }

    std::size_t at(std::size_t entry, double later_s) const {
        const double moved = static_cast<double>(entry) + later_s * s_.rate_hz;
        return static_cast<std::size_t>(std::clamp(moved, 0.0, static_cast<double>(s_.size() - 1)));
    }
    /// Of the entries from `from` to `to`, both counted, that are known; NaN where none is.
    double lowest(const std::vector<double>& column, std::size_t from, std::size_t to) const {
        double low = unknown;
        for (std::size_t i = from; i <= std::max(from, to); ++i) low = std::fmin(low, column[i]);
        return low;
    }
    double highest(const std::vector<double>& column, std::size_t from, std::size_t to) const {
        double high = unknown;
        for (std::size_t i = from; i <= std::max(from, to); ++i) high = std::fmax(high, column[i]);
        return high;
    }
    double off_address(std::size_t from, std::size_t to) const {
        return std::max(highest(s_.load_bw, from, to) - address_bw_,
                        address_bw_ - lowest(s_.load_bw, from, to));
    }
    /// Per second, over four entries about an entry.
    double rate_at(const std::vector<double>& column, std::size_t i) const {
        if (i < 2 || i + 2 >= column.size()) return 0.0;
        return (column[i + 2] - column[i - 2]) / 4.0 * s_.rate_hz;
    }
    double top_rate(const std::vector<double>& column, std::size_t from, std::size_t to) const {
        double top = 0.0;
        for (std::size_t i = from; i <= to; ++i) top = std::max(top, rate_at(column, i));
        return top;
    }
    double top_change(const std::vector<double>& column, std::size_t from, std::size_t to) const {
        double top = 0.0;
        for (std::size_t i = from; i <= to; ++i) top = std::max(top, std::abs(rate_at(column, i)));
        return top;
    }

    /// Highest likeness of a column about an entry to itself some time before, or after as far as the hold is
    /// seen: whoever bounces or waggles does the same again and again.
    double repeats(const std::vector<double>& column, std::size_t middle) const {
        const std::size_t half = s_.entries(half_alike_s);
        if (middle < half || middle + half >= hold_end_) return 0.0;
        const auto about = [&](std::size_t i) { return std::span(column).subspan(i - half, 2 * half + 1); };
        const Stretch here(about(middle));
        double most = 0.0;
        for (std::size_t lag = s_.entries(soonest_again_s); lag <= s_.entries(latest_again_s); ++lag) {
            if (middle >= half + lag) most = std::fmax(most, here.likeness(about(middle - lag)));
            if (middle + half + lag < hold_end_) most = std::fmax(most, here.likeness(about(middle + lag)));
        }
        return most;
    }

    double turns() const {
        const std::size_t last = hold_end_ - 1;
        const double band =
            turn_of_range * (highest(s_.share, c_.quiet_to, last) - lowest(s_.share, c_.quiet_to, last));
        double high = address_share_;
        double low = address_share_;
        int way = 0;
        int turned = 0;
        for (std::size_t i = c_.quiet_to; i < hold_end_; ++i) {
            high = std::max(high, s_.share[i]);
            low = std::min(low, s_.share[i]);
            if (way >= 0 && s_.share[i] < high - band) {
                ++turned;
                way = -1;
                low = s_.share[i];
            } else if (way <= 0 && s_.share[i] > low + band) {
                ++turned;
                way = 1;
                high = s_.share[i];
            }
        }
        return turned;
    }

    double crossings() const {
        int side = 0;
        int crossed = 0;
        for (std::size_t i = c_.quiet_to; i < hold_end_; ++i) {
            const double over = s_.load_bw[i] - address_bw_;
            if (std::abs(over) <= crossing_of_push * push_) continue;
            const int now = over > 0.0 ? 1 : -1;
            if (now != side) ++crossed;
            side = now;
        }
        return crossed;
    }

    SwingCandidate c_;
    const StanceSignals& s_;
    const SwingOptions& o_;
    const SwingEvidence& evidence_;
    const std::vector<double>& unrest_;
    EntryRange address_;
    double address_share_;
    double address_bw_;
    std::size_t hold_end_;
    double push_ = 0.0;
};

}  // namespace

SwingSigns signs_of(const SwingCandidate& candidate, const StanceSignals& signals,
                    const SwingOptions& options, const SwingEvidence& evidence,
                    const std::vector<double>& unrest) {
    return SignReader(candidate, signals, options, evidence, unrest).read();
}

}  // namespace footing
