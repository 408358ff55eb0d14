#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "viewer/panels/book_desk.h"

namespace footing {

struct ViewState;

// Carries of the book that the distances leave out until wedge and length are said: on the page of distances
// W and E say them, as in a lesson.

/// Those that can be said there: without those that were just said, and without those of the lesson under
/// way, which has them in hand itself.
[[nodiscard]] std::vector<LackingCarry> listed_lacking(const ViewState& state);
/// How many are of the lesson under way.
[[nodiscard]] std::size_t lacking_in_lesson(const ViewState& state);
/// The one of the row, with what was said of it since; nothing: there is none.
[[nodiscard]] std::optional<LackingCarry> lacking_in_hand(const ViewState& state);
[[nodiscard]] bool is_complete(const SwingSaid& said);

/// W and E for the one of the row.
void fill_wedge(ViewState& state);
void fill_length(ViewState& state);
/// Enter: into the book, as one step of undo; or says what is still missing.
void keep_filled(ViewState& state);

}  // namespace footing
