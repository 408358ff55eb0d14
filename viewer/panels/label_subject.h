#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "viewer/lesson/swing_label.h"

namespace footing {

struct LessonDesk;
struct ViewState;

// Which swing a key of the coach is about. One rule: the swing that the strip names. W and E are said of the
// swings to come as well, unless it is an older one; and only of those to come where the newest swing has
// what it needs and its replay is gone.

/// The swing that words of the coach are about now: a place in lesson->swings.
[[nodiscard]] std::optional<std::size_t> labelled_swing(const ViewState& state);

/// The swing that W is about now; nothing: only those to come.
[[nodiscard]] std::optional<std::size_t> swing_of_wedge(const ViewState& state);
/// The same for E.
[[nodiscard]] std::optional<std::size_t> swing_of_length(const ViewState& state);
/// Whether what is said of that swing holds for those to come.
[[nodiscard]] bool holds_from_now_on(const LessonDesk& desk, std::optional<std::size_t> place);

/// What W and E are about, for people: "W and E: swing 5 and the next".
[[nodiscard]] std::string wedge_and_length_words(const ViewState& state);

/// A carry that the distances leave out since the coach calls the swing practice, or none.
[[nodiscard]] bool carry_left_out(const SwingLabel& label);
/// A carry that the distances cannot take: its wedge or its length was not said, and it was no practice.
[[nodiscard]] bool lacks_wedge_or_length(const SwingLabel& label);
/// The swings with such a carry: places in lesson->swings.
[[nodiscard]] std::vector<std::size_t> carries_without_wedge(const LessonDesk& desk);
/// Which these are, and the keys that mend it from where the coach is: "carry without wedge or length: swing
/// 3 · W and E say them". Empty: none.
[[nodiscard]] std::string carries_without_wedge_words(const ViewState& state);

}  // namespace footing
