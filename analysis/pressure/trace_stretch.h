#pragma once

#include <cstddef>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// Entries of a trace: the first, and one past the last.
struct TraceStretch {
    std::size_t begin = 0;
    std::size_t end = 0;

    [[nodiscard]] std::size_t size() const { return end - begin; }
};

/// The entry nearest to an instant (seconds from the first frame), the first or last one where it lies
/// outside. The trace is not empty.
[[nodiscard]] std::size_t entry_at(const LoadTrace& trace, double time_s);

/// The same as the begin or end of a stretch: 0 to trace.size().
[[nodiscard]] std::size_t edge_at(const LoadTrace& trace, double time_s);

/// From the entry nearest to one instant to that nearest to another, both within; at least one entry. Empty
/// for an empty trace.
[[nodiscard]] TraceStretch stretch_between(const LoadTrace& trace, double from_s, double to_s);

}  // namespace footing
