#pragma once

#include <cstdint>

namespace footing {

/// Time is injected. Intervals use the steady clock; wall time is only for people and file names.
class Clock {
  public:
    virtual ~Clock() = default;
    [[nodiscard]] virtual std::int64_t steady_ns() const = 0;
    [[nodiscard]] virtual std::int64_t utc_ns() const = 0;  ///< since 1970-01-01T00:00:00Z
};

/// The computer's clocks. Safe from any thread.
class SystemClock final : public Clock {
  public:
    [[nodiscard]] std::int64_t steady_ns() const override;
    [[nodiscard]] std::int64_t utc_ns() const override;
};

/// A clock that a test sets. Not synchronised: one thread at a time.
class FakeClock final : public Clock {
  public:
    [[nodiscard]] std::int64_t steady_ns() const override { return steady_ns_; }
    [[nodiscard]] std::int64_t utc_ns() const override { return utc_ns_; }
    void advance_ns(std::int64_t interval_ns) {
        steady_ns_ += interval_ns;
        utc_ns_ += interval_ns;
    }
    void set_utc_ns(std::int64_t utc_ns) { utc_ns_ = utc_ns; }

  private:
    std::int64_t steady_ns_ = 0;
    std::int64_t utc_ns_ = 0;
};

}  // namespace footing
