#pragma once

#include "analysis/report/canvas.h"

namespace footing {

/// How the words beside the figures of a report's pages are set.
namespace page_text {
inline constexpr TextStyle small{TextSize::small};
inline constexpr TextStyle small_quiet{TextSize::small, TextWeight::regular, Align::left, Ink::quiet};
inline constexpr TextStyle small_bold{TextSize::small, TextWeight::bold};
inline constexpr TextStyle text_bold{TextSize::text, TextWeight::bold};
}  // namespace page_text

}  // namespace footing
