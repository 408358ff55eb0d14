#pragma once

#include "analysis/swing/swing_numbers.h"

namespace footing {

/// For tables, JSON and the book: left, not_seen.
[[nodiscard]] inline const char* hold_end_name(HoldEnd end) {
    return end == HoldEnd::left ? "left" : "not_seen";
}

}  // namespace footing
