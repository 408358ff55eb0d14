#pragma once

#include <atomic>
#include <string>

#include "acquisition/frame/problem.h"

namespace footing {

/// Between a long piece of work on one thread and whoever waits for it on another: how far it has come, and
/// whether it is still wanted (U6).
class WorkWatch {
  public:
    /// Of the worker, often: what part is done, from 0 to 1. False once the work is no longer wanted.
    [[nodiscard]] bool go_on(double part) {
        part_.store(from_ + (to_ - from_) * part, std::memory_order_relaxed);
        return !given_up_.load(std::memory_order_relaxed);
    }
    /// Of the worker: what it does next is this stretch of the whole, so that parts go on from the work
    /// before.
    void begin_stretch(double from, double to) {
        from_ = from;
        to_ = to;
    }
    /// Of whoever waits.
    void give_up() { given_up_.store(true, std::memory_order_relaxed); }
    [[nodiscard]] double part() const { return part_.load(std::memory_order_relaxed); }

  private:
    double from_ = 0.0;  ///< both of the worker
    double to_ = 1.0;
    std::atomic<double> part_{0.0};
    std::atomic<bool> given_up_{false};
};

/// What work that was given up ends with; whoever gave it up has no need to see it.
[[nodiscard]] inline Problem given_up(const std::string& place) {
    return {ProblemKind::bad_input, place, "was given up on before it was done", "begin again"};
}

}  // namespace footing
