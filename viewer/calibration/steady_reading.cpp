#include "viewer/calibration/steady_reading.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace footing {

namespace {

constexpr std::uint64_t longest_hole_us = 300'000;

}  // namespace

SteadyReader::SteadyReader(std::vector<double> newtons_per_count, SteadyOptions options)
    : options_(options),
      newtons_per_count_(std::move(newtons_per_count)),
      sums_(newtons_per_count_.size(), 0.0) {}

void SteadyReader::restart() {
    blocks_.clear();
    frames_ = 0;
}

void SteadyReader::take(const FrameView& raw) {
    const std::uint64_t now_us = raw.stamp.device_time_us;
    const auto block_us = static_cast<std::uint64_t>(options_.block_s * 1e6);
    if (frames_ > 0 && (now_us < newest_us_ || now_us - newest_us_ > longest_hole_us)) restart();
    if (frames_ > 0 && now_us - block_start_us_ >= block_us) {
        close_block();
        frames_ = 0;
    }
    if (frames_ == 0) {
        block_start_us_ = now_us;
        std::fill(sums_.begin(), sums_.end(), 0.0);
        mean_n_ = 0.0;
        squares_n2_ = 0.0;
    }
    newest_us_ = now_us;
    double total_n = 0.0;
    std::visit(
        [&](const auto& values) {
            for (std::size_t i = 0; i < values.size(); ++i) {
                const auto counts = static_cast<double>(values[i]);
                sums_[i] += counts;
                total_n += counts * newtons_per_count_[i];
            }
        },
        raw.values);
    ++frames_;
    const double step = total_n - mean_n_;
    mean_n_ += step / static_cast<double>(frames_);
    squares_n2_ += step * (total_n - mean_n_);
}

void SteadyReader::close_block() {
    const auto frames = static_cast<double>(frames_);
    Block block{sums_, mean_n_, frames_ > 1 ? squares_n2_ / (frames - 1.0) : 0.0};
    for (double& value : block.counts) value /= frames;
    if (!has_first_level_) {
        first_level_n_ = block.mean_n;
        has_first_level_ = true;
    }
    blocks_.push_back(std::move(block));
    const auto most = static_cast<std::size_t>(std::lround(options_.hold_s / options_.block_s));
    while (blocks_.size() > most) blocks_.pop_front();
}

double SteadyReader::noise_n() const {
    double variance_n2 = 0.0;
    for (const Block& block : blocks_) variance_n2 += block.variance_n2 / static_cast<double>(blocks_.size());
    return std::sqrt(variance_n2);
}

double SteadyReader::slope_n() const {
    const std::size_t half = blocks_.size() / 2;
    if (half == 0) return 0.0;
    double first_n = 0.0;
    double second_n = 0.0;
    for (std::size_t i = 0; i < half; ++i) {
        first_n += blocks_[i].mean_n / static_cast<double>(half);
        second_n += blocks_[blocks_.size() - 1 - i].mean_n / static_cast<double>(half);
    }
    return second_n - first_n;
}

ReadingSteadiness SteadyReader::steadiness() const {
    const auto wanted = static_cast<std::size_t>(std::lround(options_.hold_s / options_.block_s));
    if (blocks_.empty()) return ReadingSteadiness::settling;
    const double load_n = std::abs(blocks_.back().mean_n - first_level_n_);
    const double most_noise_n = std::max(options_.most_noise_n, options_.most_noise_share * load_n);
    const double most_slope_n = std::max(options_.most_slope_n, options_.most_slope_share * load_n);
    if (noise_n() > most_noise_n) return ReadingSteadiness::noisy;
    if (std::abs(slope_n()) > most_slope_n) return ReadingSteadiness::sloping;
    return blocks_.size() < wanted ? ReadingSteadiness::settling : ReadingSteadiness::steady;
}

std::optional<SteadyReading> SteadyReader::reading() const {
    if (steadiness() != ReadingSteadiness::steady) return std::nullopt;
    SteadyReading reading;
    reading.device_time_us = newest_us_;
    reading.blocks = blocks_.size();
    reading.counts.assign(sums_.size(), 0.0);
    const auto count = static_cast<double>(blocks_.size());
    double mean_n = 0.0;
    for (const Block& block : blocks_) {
        for (std::size_t i = 0; i < sums_.size(); ++i) reading.counts[i] += block.counts[i] / count;
        mean_n += block.mean_n / count;
    }
    double squares_n2 = 0.0;
    for (const Block& block : blocks_) squares_n2 += (block.mean_n - mean_n) * (block.mean_n - mean_n);
    reading.noise_n = noise_n();
    reading.u_n = count > 1.0 ? std::sqrt(squares_n2 / (count - 1.0) / count) : reading.noise_n;
    return reading;
}

std::optional<std::vector<double>> SteadyReader::newest_counts() const {
    if (blocks_.empty()) return std::nullopt;
    return blocks_.back().counts;
}

double SteadyReader::newton(const std::vector<double>& counts) const {
    double total_n = 0.0;
    for (std::size_t i = 0; i < counts.size(); ++i) total_n += counts[i] * newtons_per_count_[i];
    return total_n;
}

}  // namespace footing
