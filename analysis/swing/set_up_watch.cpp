#include "analysis/swing/set_up_watch.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "analysis/pressure/lead_share.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

/// Sway within this long is one value, not many (as for the address, docs/formulas.md, F30).
constexpr double watch_sway_alike_s = 0.4;

std::size_t at_least_one(double count) {
    return static_cast<std::size_t>(std::max(1.0, std::round(count)));
}

/// Highest less lowest of the values that are known; 0 when none is.
template <typename Blocks, typename Value>
double range_of(const Blocks& blocks, Value value) {
    double lowest = 0.0;
    double highest = 0.0;
    bool any = false;
    for (const auto& block : blocks) {
        const double now = value(block);
        if (!known(now)) continue;
        lowest = any ? std::min(lowest, now) : now;
        highest = any ? std::max(highest, now) : now;
        any = true;
    }
    return highest - lowest;
}

}  // namespace

SetUpWatch::SetUpWatch(double rate_hz, Hand hand, TargetBand band, SetUpOptions options)
    : hand_(hand),
      band_(band),
      options_(options),
      samples_a_block_(at_least_one(options.block_s * rate_hz)),
      blocks_kept_(at_least_one(options.mean_s * rate_hz /
                                static_cast<double>(at_least_one(options.block_s * rate_hz)))) {}

void SetUpWatch::take(const LoadSample& sample) {
    ++sums_.samples;
    sums_.total_n += sample.total_n;
    if (known(sample.left_n) && known(sample.right_n)) {
        sums_.lead_n += hand_ == Hand::right ? sample.left_n : sample.right_n;
        sums_.trail_n += hand_ == Hand::right ? sample.right_n : sample.left_n;
    } else {
        sums_.feet_known = false;
    }
    if (sample.cop) {
        const PointM at = to_stance_frame(*sample.cop, hand_);
        sums_.moment_x_n_m += sample.total_n * at.x_m;
        sums_.moment_y_n_m += sample.total_n * at.y_m;
        sums_.located_n += sample.total_n;
    }
    if (sums_.samples >= samples_a_block_) close_block();
}

void SetUpWatch::interrupt() {
    sums_ = {};
    blocks_.clear();
    reading_.still_for_s = 0.0;
    reading_.settled.reset();
}

void SetUpWatch::close_block() {
    Block block;
    block.total_n = sums_.total_n / static_cast<double>(sums_.samples);
    const double both_n = sums_.lead_n + sums_.trail_n;
    if (sums_.feet_known && block.total_n >= options_.least_person_n && both_n > 0.0)
        block.share = std::clamp(sums_.lead_n / both_n, 0.0, 1.0);
    if (sums_.located_n > 0.0) {
        block.cop_x_m = sums_.moment_x_n_m / sums_.located_n;
        block.cop_y_m = sums_.moment_y_n_m / sums_.located_n;
    }
    sums_ = {};
    if (blocks_.size() >= blocks_kept_) blocks_.pop_front();
    blocks_.push_back(block);
    look();
}

void SetUpWatch::look() {
    const Block& newest = blocks_.back();
    const std::optional<double> bob_before = reading_.bob_share;
    const double still_before_s = reading_.still_for_s;
    reading_ = {};
    reading_.total_n = newest.total_n;
    if (newest.total_n < options_.least_person_n) {
        blocks_.clear();
        return;
    }
    if (known(newest.share)) {
        reading_.share = newest.share;
        const double follow = options_.block_s / (options_.lean_s + options_.block_s);
        const double from = bob_before.value_or(newest.share);
        reading_.bob_share = from + follow * (newest.share - from);
    }
    if (known(newest.cop_x_m)) reading_.cop_m = PointM{newest.cop_x_m, newest.cop_y_m};
    reading_.stance = Stance::moving;
    if (blocks_.size() < blocks_kept_) return;
    reading_.sway_m = sway_m();
    const double load_range_n = range_of(blocks_, [](const Block& block) { return block.total_n; });
    const double share_range = range_of(blocks_, [](const Block& block) { return block.share; });
    if (load_range_n > options_.most_load_range * newest.total_n || share_range > options_.most_share_range)
        return;
    reading_.stance = Stance::still;
    reading_.still_for_s = still_before_s > 0.0 ? still_before_s + options_.block_s : options_.mean_s;
    if (known(newest.share)) reading_.settled = settled_share();
}

ShareValue SetUpWatch::settled_share() const {
    std::vector<double> shares;
    double total_n = 0.0;
    for (const Block& block : blocks_) {
        if (known(block.share)) shares.push_back(block.share);
        total_n += block.total_n;
    }
    const double share = mean(shares);
    const double spread = shares.size() > 1 ? standard_deviation(shares) : 0.0;
    const double independent = std::max(1.0, options_.mean_s / watch_sway_alike_s);
    const double mean_total_n = total_n / static_cast<double>(blocks_.size());
    const double by_gain = share * (1.0 - share) * std::sqrt(2.0) * options_.gain_u;
    const double by_zero = options_.zero_u_n / mean_total_n * std::hypot(share, 1.0 - share);
    const double systematic = std::hypot(by_gain, by_zero);
    const double u = std::hypot(spread / std::sqrt(independent), systematic);
    return {share, u, judge(share, u, band_, options_.sure)};
}

std::optional<double> SetUpWatch::sway_m() const {
    double x = 0.0;
    double y = 0.0;
    double count = 0.0;
    for (const Block& block : blocks_) {
        if (!known(block.cop_x_m)) continue;
        x += block.cop_x_m;
        y += block.cop_y_m;
        count += 1.0;
    }
    if (count < 2.0) return std::nullopt;
    double squares = 0.0;
    for (const Block& block : blocks_) {
        if (!known(block.cop_x_m)) continue;
        squares += std::pow(block.cop_x_m - x / count, 2) + std::pow(block.cop_y_m - y / count, 2);
    }
    return std::sqrt(squares / count);
}

}  // namespace footing
