#include "acquisition/calibrate/zero_keeper.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace footing {

ZeroKeeper::ZeroKeeper(std::vector<double> newtons_per_count, std::vector<double> initial_zero_counts,
                       ZeroOptions options)
    : options_(options),
      newtons_per_count_(std::move(newtons_per_count)),
      zero_counts_(std::move(initial_zero_counts)),
      block_sums_(newtons_per_count_.size(), 0.0) {
    for (std::size_t i = 0; i < zero_counts_.size(); ++i)
        zero_total_n_ += zero_counts_[i] * newtons_per_count_[i];
}

void ZeroKeeper::start_block(std::uint64_t device_time_us) {
    block_start_us_ = device_time_us;
    block_frames_ = 0;
    std::fill(block_sums_.begin(), block_sums_.end(), 0.0);
    block_mean_n_ = 0.0;
    block_squares_n2_ = 0.0;
}

std::optional<ZeroEvent> ZeroKeeper::take(const FrameView& raw) {
    const std::uint64_t now_us = raw.stamp.device_time_us;
    const auto block_us = static_cast<std::uint64_t>(options_.block_s * 1e6);
    std::optional<ZeroEvent> zero;
    if (block_frames_ == 0) {
        start_block(now_us);
    } else if (now_us - block_start_us_ >= block_us) {
        zero = close_block(now_us);
        start_block(now_us);
    }
    double total_n = 0.0;
    std::visit(
        [&](const auto& values) {
            for (std::size_t i = 0; i < values.size(); ++i) {
                const auto counts = static_cast<double>(values[i]);
                block_sums_[i] += counts;
                total_n += counts * newtons_per_count_[i];
            }
        },
        raw.values);
    ++block_frames_;
    const double step = total_n - block_mean_n_;
    block_mean_n_ += step / static_cast<double>(block_frames_);
    block_squares_n2_ += step * (total_n - block_mean_n_);
    return zero;
}

ZeroEvent ZeroKeeper::zero_of_recent(std::uint64_t device_time_us) const {
    ZeroEvent event;
    event.device_time_us = device_time_us;
    event.zero_counts.assign(zero_counts_.size(), 0.0);
    double total_n = 0.0;
    double variance_n2 = 0.0;
    const auto blocks = static_cast<double>(recent_.size());
    for (const Block& quiet : recent_) {
        for (std::size_t i = 0; i < event.zero_counts.size(); ++i)
            event.zero_counts[i] += quiet.mean_counts[i] / blocks;
        total_n += quiet.mean_total_n / blocks;
        variance_n2 += quiet.sd_total_n * quiet.sd_total_n / blocks;
    }
    event.shift_n = total_n - zero_total_n_;
    for (std::size_t i = 0; i < zero_counts_.size(); ++i) {
        event.largest_value_shift_n =
            std::max(event.largest_value_shift_n,
                     std::abs((event.zero_counts[i] - zero_counts_[i]) * newtons_per_count_[i]));
    }
    event.noise_n = std::sqrt(variance_n2);
    return event;
}

std::optional<ZeroEvent> ZeroKeeper::close_block(std::uint64_t device_time_us) {
    const auto frames = static_cast<double>(block_frames_);
    Block block{block_sums_, block_mean_n_,
                block_frames_ > 1 ? std::sqrt(block_squares_n2_ / (frames - 1.0)) : 0.0};
    for (double& mean : block.mean_counts) mean /= frames;

    const double from_zero_n = std::abs(block.mean_total_n - zero_total_n_);
    const bool maybe_empty =
        from_zero_n <= (has_zero_ ? options_.empty_limit_n : options_.first_empty_limit_n);
    if (!maybe_empty) {
        left_empty_ = true;
        loaded_before_first_zero_ = loaded_before_first_zero_ || !has_zero_;
    }
    if (block.sd_total_n > options_.most_noise_n) {
        recent_.clear();
        refusal_ = maybe_empty ? ZeroRefusal::noisy : ZeroRefusal::loaded;
        return std::nullopt;
    }
    if (maybe_empty && has_zero_) empty_reading_n_ = block.mean_total_n - zero_total_n_;
    refusal_ = maybe_empty ? ZeroRefusal::too_short : ZeroRefusal::loaded;
    recent_.push_back(std::move(block));
    if (recent_.size() < static_cast<std::size_t>(options_.blocks)) return std::nullopt;

    const auto [lowest, highest] =
        std::minmax_element(recent_.begin(), recent_.end(),
                            [](const Block& a, const Block& b) { return a.mean_total_n < b.mean_total_n; });
    if (highest->mean_total_n - lowest->mean_total_n > options_.most_slope_n) {
        recent_.pop_front();
        if (maybe_empty) refusal_ = ZeroRefusal::sloping;
        return std::nullopt;
    }
    ZeroEvent event = zero_of_recent(device_time_us);
    recent_.clear();
    return settle(std::move(event), maybe_empty);
}

std::optional<ZeroEvent> ZeroKeeper::settle(ZeroEvent event, bool maybe_empty) {
    const double level_n = zero_total_n_ + event.shift_n;
    if (!has_zero_) {
        highest_n_ = lowest_ ? std::max(highest_n_, level_n) : level_n;
        if (!lowest_ || level_n < lowest_n_) {
            lowest_ = event;
            lowest_n_ = level_n;
        }
    }
    if (!maybe_empty) return std::nullopt;
    refusal_ = ZeroRefusal::none;
    seen_empty_us_ = event.device_time_us;
    const bool moved =
        std::max(std::abs(event.shift_n), event.largest_value_shift_n) >= options_.worth_a_zero_n;
    if (!left_empty_ && !asked_ && !moved) return std::nullopt;
    if (!has_zero_) {
        event.cause = ZeroCause::first;
    } else {
        event.cause = asked_ ? ZeroCause::asked : left_empty_ ? ZeroCause::left_plates : ZeroCause::drifted;
        event.since_last_s = static_cast<double>(event.device_time_us - zero_us_) * 1e-6;
    }
    zero_counts_ = event.zero_counts;
    zero_total_n_ = level_n;
    zero_us_ = event.device_time_us;
    empty_reading_n_ = 0.0;
    has_zero_ = true;
    left_empty_ = false;
    asked_ = false;
    return event;
}

ZeroAdvice ZeroKeeper::advice(std::uint64_t device_time_us, double body_weight_n) const {
    if (!has_zero_) return ZeroAdvice::none_yet;
    if (body_weight_n > 0.0 && std::abs(empty_reading_n_) > options_.ask_again_share * body_weight_n)
        return ZeroAdvice::drifted;
    const double age_s = static_cast<double>(device_time_us - seen_empty_us_) * 1e-6;
    return device_time_us > seen_empty_us_ && age_s > options_.ask_again_s ? ZeroAdvice::too_old
                                                                           : ZeroAdvice::fine;
}

std::optional<ZeroEvent> ZeroKeeper::lowest_quiet(double least_person_n) const {
    if (has_zero_ || !lowest_ || highest_n_ - lowest_n_ < least_person_n) return std::nullopt;
    return lowest_;
}

}  // namespace footing
