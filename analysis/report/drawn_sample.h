#pragma once

#include <cstddef>
#include <optional>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// What a picture shows of one sampling instant: means over 25 ms around it (docs/formulas.md, F33), so that
/// the noise of a fast plate does not hide the line. Zero lag, symmetric; the swings' own numbers are never
/// computed from it.

/// Lead share, NaN when the feet cannot be told apart or (almost) nobody stands there.
[[nodiscard]] double drawn_share(const LessonResult& lesson, std::size_t sample);

/// Centre of pressure in the plate frame; absent where it is not known.
[[nodiscard]] std::optional<PointM> drawn_cop(const LoadTrace& trace, std::size_t sample);

}  // namespace footing
