#pragma once

#include <string>
#include <vector>

#include "viewer/panels/screen_canvas.h"
#include "viewer/panels/screen_layout.h"
#include "viewer/panels/view_action.h"
#include "viewer/panels/view_state.h"

namespace footing {

// The parts of the screen. Each draws `state` into its box and adds what the coach asked for to `asked`; none
// keeps anything. All are called between NewFrame and Render, inside the window that covers the screen.

/// Who, which recording, when; at the right how sound it is.
void draw_title(ScreenCanvas& canvas, const Box& box, const ViewState& state);

/// Feet, rule and trace on one axis, with the head. A press on the trace moves the head.
void draw_stage(ScreenCanvas& canvas, const Box& box, const ViewState& state, std::vector<ViewAction>& asked);

/// The share at the head, large, and what it means.
void draw_share(ScreenCanvas& canvas, const Box& box, const ViewState& state);

/// The numbers of the chosen swing; beside them those of the compared one.
void draw_numbers(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                  std::vector<ViewAction>& asked);
inline constexpr int number_rows = 7;

/// The swings to pick from; with control held, to compare.
void draw_swing_list(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                     std::vector<ViewAction>& asked);

/// Play, where the head is, speed, loop, keys.
void draw_transport(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                    std::vector<ViewAction>& asked);

/// The whole recording: load, swings, what was lost, the head. A press or a drag moves the head.
void draw_timeline(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                   std::vector<ViewAction>& asked);

/// The keys of the screen in front, over everything.
void draw_keys(ScreenCanvas& canvas, const Box& window, const ViewState& state,
               std::vector<ViewAction>& asked);

/// All teaching numbers of the chosen swing and what they mean, over everything; beside them those of the
/// compared one.
void draw_all_numbers(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                      std::vector<ViewAction>& asked);

/// The recordings opened before, over everything.
void draw_recent(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                 std::vector<ViewAction>& asked);

/// Which file is being read, how far that is, and how to give up.
void draw_reading(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked);

/// What stands on the screen while nothing is open: what it is for, and what to do next.
void draw_empty(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                std::vector<ViewAction>& asked);

/// Swings laid over each other, which of them are, and the keys; needs state.compare and state.lesson.
void draw_compare(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                  std::vector<ViewAction>& asked);

// The lesson under way; all need state.desk.

/// Student, wedge and length at the left; at the right the proof that it records, red by word and shape when
/// frames or disk stall (U2).
void draw_lesson_title(ScreenCanvas& canvas, const Box& box, const ViewState& state);

/// Says that a simulated golfer swings, as long as the lesson is one of it.
void draw_simulated(ScreenCanvas& canvas, const Box& box, const LessonDesk& desk);

/// The proof where it is an alarm, across the top of screens that have no such title.
void draw_lesson_alarm(ScreenCanvas& canvas, const Box& box, const std::string& words);

/// The share a third of the window high, what to do in a word or two, and the rule with its plumb line; while
/// nobody stands there, what is still missing.
void draw_set_up(ScreenCanvas& canvas, const Box& box, const ViewState& state);

/// The swing that the keys are about, the carry while it is typed, and the keys themselves.
void draw_label_strip(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                      std::vector<ViewAction>& asked);

/// Whether to end the recording or to give the calibration up, over everything.
void draw_ask_to_close(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                       std::vector<ViewAction>& asked);

/// Something that was done or cannot be: in as many lines as the box holds, smaller where it must be, and
/// what has no room even then loses its middle. Until the next key.
[[nodiscard]] float notice_height(const ScreenCanvas& canvas, float width, const ViewState& state);
void draw_notice(ScreenCanvas& canvas, const Box& box, const ViewState& state);

/// Why a file did not open, above a lesson that stays open.
[[nodiscard]] float problem_height(const ScreenCanvas& canvas, float width, const ViewState& state);
void draw_problem(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked);

}  // namespace footing
