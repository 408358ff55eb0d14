#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "viewer/panels/screen_canvas.h"
#include "viewer/panels/view_action.h"
#include "viewer/panels/view_state.h"

namespace footing {

// The lesson book on the screen; all need state.book.

/// The whole of it: pages to turn to, the page in front, and its keys.
void draw_book(ScreenCanvas& canvas, const Box& window, const ViewState& state,
               std::vector<ViewAction>& asked);

void draw_students_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                        std::vector<ViewAction>& asked);
/// Who, on what, and what is still missing.
void draw_begin_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                     std::vector<ViewAction>& asked);
void draw_lessons_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                       std::vector<ViewAction>& asked);
/// Distance runs across; one row for each wedge and length, spread as a bar, each shot a tick, set-aside
/// shots hollow.
void draw_distances_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                         std::vector<ViewAction>& asked);
/// Carries that the chart has no place for, one at a time, to be given their wedge and length; no height
/// where there are none.
[[nodiscard]] float fill_in_height(const ScreenCanvas& canvas, const ViewState& state);
void draw_fill_in(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked);
/// What to practise next, whether the weight explains the miss, and each measure over the lessons.
void draw_progress_page(ScreenCanvas& canvas, const Box& box, const ViewState& state);

/// Plates while nobody is taught: numbers, health, quick check, calibration.
void draw_plates_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                      std::vector<ViewAction>& asked);

/// A list of which the row at `chosen` is marked and always in sight. `draw_row` draws one into its box.
void draw_rows(ScreenCanvas& canvas, Box box, std::size_t count, std::size_t chosen,
               const std::function<void(const Box& row, std::size_t place)>& draw_row,
               std::vector<ViewAction>& asked);

/// What an empty page is for: a heading and a paragraph, from the top of the box.
void draw_purpose(ScreenCanvas& canvas, Box box, const char* heading, const char* words);

}  // namespace footing
