#pragma once

#include <cstddef>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// The samples of `trace` from `from_s` to `to_s`, with `later_s` added to every time first: for a trace that
/// began that long after the recording.
[[nodiscard]] LoadTrace trace_piece(const LoadTrace& trace, double later_s, double from_s, double to_s);

/// Puts the samples of `piece` that are later than all of `trace` behind them. Between the two there may be
/// time of which nothing is kept.
void append_piece(LoadTrace& trace, const LoadTrace& piece);

/// Takes away all but the first `samples`.
void cut_trace(LoadTrace& trace, std::size_t samples);

}  // namespace footing
