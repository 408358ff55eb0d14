#include "viewer/calibration/calibration_guide.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace footing {

namespace {

using Kind = CalibrationStep::Kind;

/// A load must come at least this near to what the masses weigh, as parts of the change and of the load.
constexpr double of_change = 0.4;
constexpr double of_load = 0.1;
constexpr double least_change = 0.5;
constexpr double empty_limit_n = 8.0;
/// What empty plates may read before any zero: cells are rarely off by more than the larger one (as in
/// ZeroKeeper).
constexpr double least_doubted_n = 20.0;
constexpr double most_offset_n = 150.0;
/// Where a mass over a cell is at home, its own cell carries the most.
constexpr double home_share = 0.4;

std::vector<double> rough_scale(const DeviceDescription& device) {
    assert(device.newtons_per_count.has_value());
    return std::vector<double>(values_per_frame(device.layout), device.newtons_per_count.value_or(1.0));
}

std::size_t first_value_of(const PlateLayout& layout, std::size_t plate) {
    std::size_t first = 0;
    for (std::size_t i = 0; i < plate; ++i) first += layout.plates[i].cells.size();
    return first;
}

}  // namespace

SteadyOptions steadiness_for(CalibrationMethod method) {
    SteadyOptions steady;
    if (method == CalibrationMethod::mat || method == CalibrationMethod::plate_total) {
        steady.hold_s = 3.0;
        steady.most_noise_share = 0.02;
        steady.most_slope_share = 0.005;
    }
    return steady;
}

CalibrationGuide::CalibrationGuide(DeviceDescription device, std::vector<CalibrationStep> steps,
                                   double gravity_m_s2, SteadyOptions options)
    : device_(std::move(device)),
      steps_(std::move(steps)),
      gravity_m_s2_(gravity_m_s2),
      reader_(rough_scale(device_), options) {
    assert(!steps_.empty());
    if (device_.layout.grid) {
        constexpr double largest_u16 = 65535.0;
        survey_.emplace(device_.layout.grid->rows, device_.layout.grid->columns,
                        device_.full_scale_counts.value_or(largest_u16));
    }
}

std::string CalibrationGuide::instruction() const {
    return finished() ? std::string() : steps_[step_].words;
}

std::optional<MatFindings> CalibrationGuide::findings() const {
    if (!survey_ || !survey_over_) return std::nullopt;
    return survey_->findings();
}

void CalibrationGuide::take(const FrameView& frame) {
    if (finished()) return;
    if (!first_us_) first_us_ = frame.stamp.device_time_us;
    if (!step_began_us_) step_began_us_ = frame.stamp.device_time_us;
    reader_.take(frame);
    if (const auto newest = reader_.newest_counts(); newest && !zero_counts_.empty())
        load_n_ = reader_.newton(*newest) - reader_.newton(zero_counts_);
    const auto* grid = std::get_if<std::span<const std::uint16_t>>(&frame.values);
    if (survey_ && grid != nullptr && steps_[step_].kind == Kind::empty && !survey_over_)
        survey_->take_empty(*grid);
    if (steps_[step_].kind == Kind::walk) return walk(frame);
    if (steps_[step_].kind == Kind::hold) return hold(frame);

    switch (reader_.steadiness()) {
        case ReadingSteadiness::settling:
            break;
        case ReadingSteadiness::noisy:
            remark_ = fmt::format(
                "The reading shakes by {:.1f} N: nobody may touch the plates, and cables must not swing.",
                reader_.noise_n());
            break;
        case ReadingSteadiness::sloping:
            remark_ =
                fmt::format("The reading still moves ({:+.1f} N a second): waiting until it is at rest.",
                            reader_.slope_n());
            break;
        case ReadingSteadiness::steady:
            if (const auto reading = reader_.reading()) judge(*reading);
            break;
    }
}

void CalibrationGuide::judge(const SteadyReading& reading) {
    const double load_n =
        zero_counts_.empty() ? 0.0 : reader_.newton(reading.counts) - reader_.newton(zero_counts_);
    remark_ = accepted_ ? std::string() : objection(reading, load_n);
    if (!remark_.empty()) return;
    if (steps_[step_].kind == Kind::empty) zero_counts_ = reading.counts;
    last_load_n_ = steps_[step_].kind == Kind::empty ? 0.0 : load_n;
    record(reading);
    next_step();
}

std::string CalibrationGuide::objection(const SteadyReading& reading, double load_n) const {
    const CalibrationStep& step = steps_[step_];
    const double wanted_n = step.mass_kg * gravity_m_s2_;
    const double change_n = std::abs(wanted_n - last_load_n_);
    if (zero_counts_.empty()) return doubt_of_first_zero(reading);
    if (step.kind == Kind::empty) {
        if (std::abs(load_n) <= std::max(empty_limit_n, 0.02 * std::abs(last_load_n_))) return {};
        return fmt::format("{:.1f} kg are still on the plates.", load_n / gravity_m_s2_);
    }
    if (std::abs(load_n - last_load_n_) < least_change * change_n) {
        return fmt::format("Waiting for the load: {:.1f} kg now, {:g} kg belong there.",
                           std::round(10.0 * load_n / gravity_m_s2_) / 10.0 + 0.0, step.mass_kg);
    }
    const bool first_mass = std::abs(last_load_n_) < empty_limit_n;
    const double allowed_n = first_mass ? least_change * wanted_n : of_change * change_n + of_load * wanted_n;
    if (std::abs(load_n - wanted_n) > allowed_n) {
        return fmt::format(
            "At rest with {:.1f} kg, but {:g} kg belong there: put that mass there, or press Enter to take "
            "it as "
            "it is.",
            load_n / gravity_m_s2_, step.mass_kg);
    }
    return wrong_place(reading);
}

/// Before the first zero a steady load cannot be told from the cells' own offsets; what reads more than those
/// are likely to be, or as much as half of the lightest mass, is not taken for empty by itself.
std::string CalibrationGuide::doubt_of_first_zero(const SteadyReading& reading) const {
    double lightest_kg = std::numeric_limits<double>::max();
    for (const CalibrationStep& step : steps_) {
        if (step.mass_kg > 0.0) lightest_kg = std::min(lightest_kg, step.mass_kg);
    }
    const double limit_n = std::clamp(0.5 * lightest_kg * gravity_m_s2_, least_doubted_n, most_offset_n);
    const double reads_n = reader_.newton(reading.counts);
    if (std::abs(reads_n) <= limit_n) return {};
    return fmt::format(
        "At rest, but reading {:.0f} N, and no zero is known yet to tell load from offset: take everything "
        "off. If "
        "nothing stands there, press Enter, and this is the zero.",
        reads_n);
}

std::string CalibrationGuide::wrong_place(const SteadyReading& reading) const {
    const CalibrationStep& step = steps_[step_];
    if (device_.layout.plates.empty()) return {};
    const double scale = device_.newtons_per_count.value_or(1.0);
    std::vector<double> by_plate(device_.layout.plates.size(), 0.0);
    double total_n = 0.0;
    std::size_t value = 0;
    for (std::size_t plate = 0; plate < device_.layout.plates.size(); ++plate) {
        for (std::size_t cell = 0; cell < device_.layout.plates[plate].cells.size(); ++cell, ++value)
            by_plate[plate] += (reading.counts[value] - zero_counts_[value]) * scale;
        total_n += by_plate[plate];
    }
    if (by_plate[step.plate] < least_change * total_n) {
        return fmt::format("The load is not on {}: move it there, or press Enter to take it as it is.",
                           plate_words(device_.layout, step.plate));
    }
    if (!step.cell) return {};
    const std::size_t first = first_value_of(device_.layout, step.plate);
    std::size_t most = 0;
    for (std::size_t cell = 0; cell < device_.layout.plates[step.plate].cells.size(); ++cell) {
        const auto answer = [&](std::size_t i) {
            return reading.counts[first + i] - zero_counts_[first + i];
        };
        if (answer(cell) > answer(most)) most = cell;
    }
    const double own_n = (reading.counts[first + *step.cell] - zero_counts_[first + *step.cell]) * scale;
    if (most == *step.cell || own_n > home_share * total_n) return {};
    return fmt::format(
        "Most of the load is on cell {}, not on cell {}: move it, or press Enter to take it as it is.",
        most + 1, *step.cell + 1);
}

void CalibrationGuide::hold(const FrameView& frame) {
    const double held_s = static_cast<double>(frame.stamp.device_time_us - *step_began_us_) * seconds_per_us;
    const CalibrationStep& step = steps_[step_];
    const bool taken_off = load_n_ && std::abs(*load_n_ - last_load_n_) > 0.2 * std::abs(last_load_n_);
    if (taken_off) {
        // There is no creep to be had from this; the unloading that follows is what it would have been.
        remark_ = "The load was taken off before the time was over, so nothing is said about creep.";
        next_step();
        return;
    }
    remark_ = fmt::format("{:.0f} s left.", std::max(0.0, step.hold_s - held_s));
    if (held_s < step.hold_s && !accepted_) return;
    if (const auto reading = reader_.reading()) {
        record(*reading);
        next_step();
    }
}

void CalibrationGuide::walk(const FrameView& frame) {
    if (const auto* grid = std::get_if<std::span<const std::uint16_t>>(&frame.values)) survey_->take(*grid);
    // The time counts from the first footfall on.
    if (load_n_.value_or(0.0) < 10.0 * empty_limit_n && survey_->covered() == 0.0)
        step_began_us_ = frame.stamp.device_time_us;
    const double walked_s =
        static_cast<double>(frame.stamp.device_time_us - *step_began_us_) * seconds_per_us;
    remark_ = fmt::format("{:.0f} % of the mat walked on, {:.0f} s left.", 100.0 * survey_->covered(),
                          std::max(0.0, steps_[step_].hold_s - walked_s));
    if (walked_s < steps_[step_].hold_s && !accepted_) return;
    survey_over_ = true;
    // Whoever walked is still there, as far as the next step is concerned.
    last_load_n_ = load_n_.value_or(0.0);
    next_step();
}

void CalibrationGuide::record(const SteadyReading& reading) {
    const CalibrationStep& step = steps_[step_];
    CalibrationReading taken;
    taken.step = static_cast<int>(readings_.size()) + 1;
    taken.mass_kg = step.mass_kg;
    taken.plate = step.plate;
    taken.cell = step.cell;
    taken.point = step.point;
    taken.time_s = static_cast<double>(reading.device_time_us - *first_us_) * seconds_per_us;
    taken.counts = reading.counts;
    readings_.push_back(std::move(taken));
}

void CalibrationGuide::next_step() {
    ++step_;
    accepted_ = false;
    step_began_us_.reset();
    reader_.restart();
}

}  // namespace footing
