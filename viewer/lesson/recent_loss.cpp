#include "viewer/lesson/recent_loss.h"

namespace footing {

namespace {

constexpr std::int64_t recent_ns = 5'000'000'000;

}  // namespace

double RecentLoss::take(std::int64_t now_ns, const LossCounters& so_far) {
    counts_.push_back({now_ns, so_far.frames, so_far.lost});
    // The oldest that is kept is the newest from before those seconds.
    while (counts_.size() > 2 && now_ns - counts_[1].at_ns >= recent_ns) counts_.pop_front();
    const Count& before = counts_.front();
    const auto lost = static_cast<double>(so_far.lost - before.lost);
    const auto due = static_cast<double>(so_far.frames - before.came) + lost;
    return due > 0.0 ? lost / due : 0.0;
}

}  // namespace footing
