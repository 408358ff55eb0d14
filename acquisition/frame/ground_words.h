#pragma once

#include "acquisition/frame/plate_layout.h"

namespace footing {

/// What the golfer stands on, for sentences: "mat" or "plates".
[[nodiscard]] const char* ground_words(FrameKind kind);

}  // namespace footing
