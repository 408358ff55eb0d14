#include "analysis/pressure/trace_builder.h"

#include <algorithm>
#include <cmath>

#include "acquisition/frame/units.h"

namespace footing {

namespace {

constexpr std::uint64_t tick_every_samples = 64;
constexpr std::uint64_t first_samples_all_ticks = 256;
constexpr double longest_bridge_s = 3600.0;
constexpr double shortest_restart_s = 0.25;  ///< no device is back sooner
constexpr double same_rate = 1e-4;           // relative

double between(double from, double to, double part) {
    return from + (to - from) * part;
}

PointM or_unknown(const std::optional<PointM>& point) {
    return point.value_or(PointM{unknown, unknown});
}

}  // namespace

TraceBuilder::TraceBuilder(double nominal_rate_hz) : nominal_rate_hz_(nominal_rate_hz) {
    const double frames_s = nominal_rate_hz > 0.0 ? 2.0 / nominal_rate_hz : 0.0;
    shortest_restart_us_ = static_cast<std::uint64_t>((shortest_restart_s + frames_s) / seconds_per_us);
}

void TraceBuilder::reserve(std::size_t instants) {
    for (std::vector<double>* column :
         {&trace_.total_n, &trace_.left_n, &trace_.right_n, &trace_.cop_x_m, &trace_.cop_y_m,
          &trace_.left_x_m, &trace_.left_y_m, &trace_.right_x_m, &trace_.right_y_m})
        column->reserve(instants);
    trace_.trigger.reserve(instants);
    trace_.bridged.reserve(instants);
}

void TraceBuilder::add(const FrameStamp& stamp, const LoadSample& sample) {
    if (const std::uint64_t missing = missing_before(stamp); missing > 0) bridge(missing, sample);
    if (samples_ < first_samples_all_ticks || samples_ % tick_every_samples == 0)
        ticks_.push_back({trace_.total_n.size(), stamp.device_time_us});
    newest_ = {trace_.total_n.size(), stamp.device_time_us};
    append(sample, (stamp.inputs & trigger_bit) != 0 ? 1 : 0, 0);
    last_ = stamp;
    ++samples_;
}

void TraceBuilder::add(std::span<const FrameStamp> stamps, const LoadColumns& loads) {
    std::size_t from = 0;  // of the rows that follow without a gap
    for (std::size_t i = 0; i < stamps.size(); ++i) {
        const FrameStamp& stamp = stamps[i];
        if (const std::uint64_t missing = missing_before(stamp); missing > 0) {
            append_rows(loads, from, i);
            from = i;
            bridge(missing, sample_of(loads.row(i)));
        }
        const Tick tick{trace_.total_n.size() + (i - from), stamp.device_time_us};
        if (samples_ < first_samples_all_ticks || samples_ % tick_every_samples == 0) ticks_.push_back(tick);
        newest_ = tick;
        trace_.trigger.push_back((stamp.inputs & trigger_bit) != 0 ? 1 : 0);
        last_ = stamp;
        ++samples_;
    }
    append_rows(loads, from, stamps.size());
}

/// The loads only; the triggers are there already.
void TraceBuilder::append_rows(const LoadColumns& loads, std::size_t from, std::size_t to) {
    const auto append = [&](std::vector<double>& column, const std::vector<double>& rows) {
        column.insert(column.end(), rows.begin() + static_cast<std::ptrdiff_t>(from),
                      rows.begin() + static_cast<std::ptrdiff_t>(to));
    };
    append(trace_.total_n, loads.total_n);
    append(trace_.left_n, loads.left_n);
    append(trace_.right_n, loads.right_n);
    append(trace_.cop_x_m, loads.cop_x_m);
    append(trace_.cop_y_m, loads.cop_y_m);
    append(trace_.left_x_m, loads.left_x_m);
    append(trace_.left_y_m, loads.left_y_m);
    append(trace_.right_x_m, loads.right_x_m);
    append(trace_.right_y_m, loads.right_y_m);
    trace_.bridged.insert(trace_.bridged.end(), to - from, 0);
}

std::uint64_t TraceBuilder::missing_before(const FrameStamp& stamp) const {
    if (samples_ == 0 || stamp.counter <= last_.counter) return 0;
    if (stamp.counter > last_.counter + 1) return stamp.counter - last_.counter - 1;
    if (stamp.device_time_us <= last_.device_time_us) return 0;
    if (stamp.device_time_us - last_.device_time_us < shortest_restart_us_ || !(nominal_rate_hz_ > 0.0))
        return 0;
    const double jump_s = static_cast<double>(stamp.device_time_us - last_.device_time_us) * seconds_per_us;
    const double host_jump_s = static_cast<double>(stamp.host_time_ns - last_.host_time_ns) * seconds_per_ns;
    const bool is_told = std::ranges::find(restarts_, last_.counter) != restarts_.end();
    // A wrong stamp jumps by itself.
    if (!is_told && std::abs(host_jump_s - jump_s) > 0.5 * jump_s) return 0;
    return static_cast<std::uint64_t>(std::llround(std::min(jump_s, longest_bridge_s) * nominal_rate_hz_)) -
           1;
}

void TraceBuilder::bridge(std::uint64_t missing, const LoadSample& to) {
    const double rate_hz = nominal_rate_hz_ > 0.0 ? nominal_rate_hz_ : 1000.0;
    const std::uint64_t instants = std::min(missing, static_cast<std::uint64_t>(longest_bridge_s * rate_hz));
    const std::size_t last = trace_.total_n.size() - 1;
    const auto point = [&](const std::vector<double>& x_m, const std::vector<double>& y_m,
                           const std::optional<PointM>& there, double part) -> std::optional<PointM> {
        if (!there || !known(x_m[last])) return std::nullopt;
        return PointM{between(x_m[last], there->x_m, part), between(y_m[last], there->y_m, part)};
    };
    for (std::uint64_t i = 1; i <= instants; ++i) {
        const double part = static_cast<double>(i) / static_cast<double>(instants + 1);
        LoadSample step;
        step.total_n = between(trace_.total_n[last], to.total_n, part);
        step.left_n = between(trace_.left_n[last], to.left_n, part);
        step.right_n = between(trace_.right_n[last], to.right_n, part);
        step.cop = point(trace_.cop_x_m, trace_.cop_y_m, to.cop, part);
        step.left_cop = point(trace_.left_x_m, trace_.left_y_m, to.left_cop, part);
        step.right_cop = point(trace_.right_x_m, trace_.right_y_m, to.right_cop, part);
        step.mat = to.mat;
        append(step, 0, 1);
    }
}

void TraceBuilder::append(const LoadSample& sample, std::uint8_t trigger, std::uint8_t bridged) {
    const PointM cop = or_unknown(sample.cop);
    const PointM left = or_unknown(sample.left_cop);
    const PointM right = or_unknown(sample.right_cop);
    trace_.total_n.push_back(sample.total_n);
    trace_.left_n.push_back(sample.left_n);
    trace_.right_n.push_back(sample.right_n);
    trace_.cop_x_m.push_back(cop.x_m);
    trace_.cop_y_m.push_back(cop.y_m);
    trace_.left_x_m.push_back(left.x_m);
    trace_.left_y_m.push_back(left.y_m);
    trace_.right_x_m.push_back(right.x_m);
    trace_.right_y_m.push_back(right.y_m);
    trace_.trigger.push_back(trigger);
    trace_.bridged.push_back(bridged);
    if (sample.mat) trace_.mat.push_back(*sample.mat);
}

double TraceBuilder::estimated_rate_hz() const {
    const double median_hz = median_rate_hz();
    const auto is_nominal = [&](double rate_hz) {
        return std::abs(rate_hz - nominal_rate_hz_) <= same_rate * nominal_rate_hz_;
    };
    if (ticks_.empty() || !(nominal_rate_hz_ > 0.0) || is_nominal(median_hz)) return median_hz;
    const Tick& first = ticks_.front();
    if (newest_.device_time_us <= first.device_time_us) return median_hz;
    const double interval_s =
        static_cast<double>(newest_.device_time_us - first.device_time_us) * seconds_per_us;
    const double overall_hz = static_cast<double>(newest_.instant - first.instant) / interval_s;
    return is_nominal(overall_hz) ? overall_hz : median_hz;
}

double TraceBuilder::median_rate_hz() const {
    std::vector<double> rates;
    const std::size_t half = ticks_.size() / 2;
    for (std::size_t i = 0; half > 0 && i + half < ticks_.size(); ++i) {
        const Tick& from = ticks_[i];
        const Tick& to = ticks_[i + half];
        if (to.device_time_us <= from.device_time_us) continue;
        const double interval_s =
            static_cast<double>(to.device_time_us - from.device_time_us) * seconds_per_us;
        rates.push_back(static_cast<double>(to.instant - from.instant) / interval_s);
    }
    if (rates.empty()) return nominal_rate_hz_;
    const auto middle = rates.begin() + static_cast<std::ptrdiff_t>(rates.size() / 2);
    std::nth_element(rates.begin(), middle, rates.end());
    return std::isfinite(*middle) && *middle > 0.0 ? *middle : nominal_rate_hz_;
}

LoadTrace TraceBuilder::finish() && {
    trace_.rate_hz = estimated_rate_hz();
    trace_.time_s.resize(trace_.total_n.size());
    for (std::size_t i = 0; i < trace_.time_s.size(); ++i)
        trace_.time_s[i] = static_cast<double>(i) / trace_.rate_hz;
    return std::move(trace_);
}

}  // namespace footing
