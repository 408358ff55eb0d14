#include "viewer/calibration/quick_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "acquisition/frame/ground_words.h"
#include "analysis/statistics/calibration_fit.h"
#include "analysis/statistics/distributions.h"

namespace footing {

namespace {

constexpr double least_person_n = 150.0;
constexpr double empty_limit_n = 30.0;
constexpr double foot_floor = 0.15;   ///< with both feet on, each plate carries at least this part
constexpr double other_plate = 0.05;  ///< with nobody on it, a plate carries at most this part
constexpr double example_share = 0.75;

/// People sway, on one foot more than on two.
SteadyOptions standing_still() {
    SteadyOptions steady;
    steady.hold_s = 3.0;
    steady.most_noise_share = 0.03;
    steady.most_slope_share = 0.01;
    return steady;
}

}  // namespace

QuickCheck::QuickCheck(const DeviceDescription& device, const Calibration& calibration, CheckOptions options)
    : device_(device),
      only_ratios_(calibration.only_ratios),
      options_(options),
      reader_(std::vector<double>(values_per_frame(device.layout), 1.0), standing_still()) {
    const std::size_t values = values_per_frame(device.layout);
    if (device.layout.kind == FrameKind::components) {
        newtons_per_value_.assign(values, 0.0);
        for (std::size_t i = 0; i < values; ++i) {
            plate_of_value_.push_back(i / components_per_plate);
            constexpr std::size_t vertical = 2;
            if (i % components_per_plate == vertical) newtons_per_value_[i] = 1.0;
        }
    } else {
        newtons_per_value_ = calibration.newtons_per_count;
        plate_of_value_ =
            device.layout.grid ? std::vector<std::size_t>(values, 0) : plate_of_value(device.layout);
    }
    reader_ = SteadyReader(newtons_per_value_, standing_still());
    const std::vector<PlateSide> sides = plate_sides(device.layout);
    const auto left = std::find(sides.begin(), sides.end(), PlateSide::left);
    const auto right = std::find(sides.begin(), sides.end(), PlateSide::right);
    two_feet_ = left != sides.end() && right != sides.end();
    left_ = static_cast<std::size_t>(left - sides.begin());
    right_ = static_cast<std::size_t>(right - sides.begin());
}

std::string QuickCheck::instruction() const {
    switch (step_) {
        case CheckStep::empty:
            return fmt::format("Leave the {} empty.", ground_words(device_.layout.kind));
        case CheckStep::both:
            return two_feet_ ? "Stand on both plates, a foot on each, and keep still."
                             : "Stand in the middle, and keep still.";
        case CheckStep::left_only:
            return "Stand on the left plate only, with both feet if they fit, else on one, and keep still. "
                   "Have a support within reach and someone beside you, and touch neither.";
        case CheckStep::right_only:
            return "Stand on the right plate only, in the same way, and keep still.";
        case CheckStep::elsewhere:
            return "Step off, then stand on another part of it, and keep still.";
        case CheckStep::done:
            break;
    }
    return {};
}

QuickCheck::Standing QuickCheck::standing_of(const SteadyReading& reading) const {
    Standing standing;
    standing.plate_n.assign(std::max<std::size_t>(device_.layout.plates.size(), 1), 0.0);
    for (std::size_t i = 0; i < reading.counts.size(); ++i) {
        const double force_n = newtons_per_value_[i] * (reading.counts[i] - zero_->counts[i]);
        standing.plate_n[plate_of_value_[i]] += force_n;
        standing.total_n += force_n;
    }
    standing.u_n = std::hypot(reading.u_n, zero_->u_n);
    return standing;
}

std::string QuickCheck::objection(const Standing& now) const {
    if (now.total_n < least_person_n)
        return fmt::format("Waiting for someone to stand there ({:.0f} N now).",
                           std::round(now.total_n) + 0.0);
    if (!two_feet_) {
        if (step_ == CheckStep::elsewhere && !stepped_off_) return "Step off first.";
        return {};
    }
    const double left = now.plate_n[left_] / now.total_n;
    const double right = now.plate_n[right_] / now.total_n;
    if (step_ == CheckStep::both && std::min(left, right) < foot_floor)
        return "Waiting for a foot on each plate.";
    if (step_ == CheckStep::left_only && right > other_plate)
        return fmt::format("{:.0f} N are still on the right plate.", now.plate_n[right_]);
    if (step_ == CheckStep::right_only && left > other_plate)
        return fmt::format("{:.0f} N are still on the left plate.", now.plate_n[left_]);
    return {};
}

void QuickCheck::next_step() {
    switch (step_) {
        case CheckStep::empty:
            step_ = CheckStep::both;
            break;
        case CheckStep::both:
            step_ = two_feet_ ? CheckStep::left_only : CheckStep::elsewhere;
            break;
        case CheckStep::left_only:
            step_ = CheckStep::right_only;
            break;
        default:
            step_ = CheckStep::done;
    }
    accepted_ = false;
    remark_.clear();
    reader_.restart();
}

void QuickCheck::take(const FrameView& frame) {
    if (finished()) return;
    reader_.take(frame);
    if (zero_) {
        const auto newest = reader_.newest_counts();
        if (newest && std::abs(reader_.newton(*newest) - reader_.newton(zero_->counts)) < empty_limit_n)
            stepped_off_ = true;
    }
    const auto reading = reader_.reading();
    if (!reading) {
        const ReadingSteadiness steadiness = reader_.steadiness();
        if (steadiness == ReadingSteadiness::noisy)
            remark_ = fmt::format("The reading shakes by {:.1f} N: keep still.", reader_.noise_n());
        if (steadiness == ReadingSteadiness::sloping) remark_ = "The reading still moves: keep still.";
        return;
    }
    if (step_ == CheckStep::empty) {
        zero_ = *reading;
        next_step();
        return;
    }
    const Standing now = standing_of(*reading);
    remark_ = accepted_ ? std::string() : objection(now);
    if (!remark_.empty()) return;
    switch (step_) {
        case CheckStep::both:
            both_ = now;
            break;
        case CheckStep::left_only:
            left_only_ = now;
            break;
        case CheckStep::right_only:
            right_only_ = now;
            break;
        default:
            elsewhere_ = now;
    }
    stepped_off_ = false;
    next_step();
}

CheckComparison QuickCheck::compare(std::string what, const Standing& measured, double expected_n,
                                    double expected_u_n) const {
    CheckComparison comparison;
    comparison.what = std::move(what);
    comparison.measured_n = measured.total_n;
    comparison.expected_n = expected_n;
    comparison.difference = measured.total_n / expected_n - 1.0;
    comparison.u = std::hypot(measured.u_n, expected_u_n * measured.total_n / expected_n) / expected_n;
    const double guard = normal_quantile(options_.sure) * comparison.u;
    const double off = std::abs(comparison.difference);
    if (off + guard <= options_.agree_within) comparison.agreement = Agreement::agrees;
    if (off - guard > options_.agree_within) comparison.agreement = Agreement::differs;
    return comparison;
}

CheckResult QuickCheck::result() const {
    CheckResult result;
    if (zero_) result.zero_noise_n = zero_->noise_n;
    const auto total = [](const std::optional<Standing>& standing) -> std::optional<double> {
        if (!standing) return std::nullopt;
        return standing->total_n;
    };
    result.both_n = total(both_);
    result.left_only_n = total(left_only_);
    result.right_only_n = total(right_only_);
    result.elsewhere_n = total(elsewhere_);
    if (options_.weight_kg && !only_ratios_) {
        const double weight_n = *options_.weight_kg * options_.gravity_m_s2;
        const double u_n = std::hypot(rectangular_u(options_.weight_tolerance_kg) * options_.gravity_m_s2,
                                      weight_n * options_.gravity_relative_u);
        const auto against_weight = [&](const char* what, const std::optional<Standing>& standing) {
            if (standing) result.comparisons.push_back(compare(what, *standing, weight_n, u_n));
        };
        against_weight(two_feet_ ? "both feet against the weight" : "in the middle against the weight",
                       both_);
        against_weight("the left plate alone against the weight", left_only_);
        against_weight("the right plate alone against the weight", right_only_);
        against_weight("in another place against the weight", elsewhere_);
    }
    if (left_only_ && right_only_) {
        result.comparisons.push_back(
            compare("the left plate against the right", *left_only_, right_only_->total_n, right_only_->u_n));
        // A share s read with plates whose scales differ by d is off by s (1 - s) d, to first order.
        result.share_error =
            example_share * (1.0 - example_share) * (left_only_->total_n / right_only_->total_n - 1.0);
    }
    if (both_ && elsewhere_)
        result.comparisons.push_back(
            compare("in another place against the middle", *elsewhere_, both_->total_n, both_->u_n));
    advise(result);
    return result;
}

void QuickCheck::advise(CheckResult& result) const {
    if (only_ratios_) {
        result.advice.emplace_back(
            "The device does not say what a count is worth, so nothing can be compared with the weight: "
            "calibrate it "
            "(footing calibrate).");
    }
    if (left_only_ && right_only_) {
        const double leak = std::max(std::abs(left_only_->plate_n[right_]) / left_only_->total_n,
                                     std::abs(right_only_->plate_n[left_]) / right_only_->total_n);
        if (leak > 0.01) {
            result.advice.push_back(
                fmt::format("The free plate read {:.1f} % of the weight: see that the plates do not touch "
                            "each other, and "
                            "that nothing lies across them.",
                            100.0 * leak));
        }
    }
    bool any_weight_differs = false;
    bool plates_differ = false;
    bool undecided = false;
    for (const CheckComparison& comparison : result.comparisons) {
        const bool with_weight = comparison.what.find("weight") != std::string::npos;
        undecided = undecided || comparison.agreement == Agreement::too_close;
        if (comparison.agreement != Agreement::differs) continue;
        (with_weight ? any_weight_differs : plates_differ) = true;
    }
    if (plates_differ) {
        result.advice.emplace_back(
            two_feet_ ? "The plates do not read alike, so shares are wrong: see that all feet of both plates "
                        "stand firm on "
                        "level ground, check again, and if it stays, calibrate (footing calibrate)."
                      : "It reads differently in different places: see that it lies flat and firm, check "
                        "again, and if it "
                        "stays, calibrate (footing calibrate).");
    }
    if (any_weight_differs && !plates_differ) {
        result.advice.emplace_back(
            std::string(two_feet_ ? "The plates read" : "Both places read") +
            " alike but not what the person weighs: shares hold, newtons do not. Weigh again as dressed now, "
            "club in hand or not as here; if it stays, calibrate (footing calibrate).");
    }
    if (undecided && !any_weight_differs && !plates_differ)
        result.advice.emplace_back(
            "Too close to call: stand stiller, or weigh the person more exactly, and check again.");
    if (result.advice.empty() && !result.comparisons.empty())
        result.advice.emplace_back("Nothing to do: go on.");
}

Agreement CheckResult::overall() const {
    Agreement all = comparisons.empty() ? Agreement::too_close : Agreement::agrees;
    for (const CheckComparison& comparison : comparisons) {
        if (comparison.agreement == Agreement::differs) return Agreement::differs;
        if (comparison.agreement == Agreement::too_close) all = Agreement::too_close;
    }
    return all;
}

}  // namespace footing
