#pragma once

#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/problem.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/report_form.h"
#include "analysis/report/theme.h"
#include "viewer/panels/book_desk.h"
#include "viewer/panels/compare_desk.h"
#include "viewer/panels/lesson_desk.h"
#include "viewer/panels/mark_action.h"
#include "viewer/panels/overview.h"
#include "viewer/panels/screen_layout.h"
#include "viewer/panels/sounds.h"

namespace footing {

enum class Playing { paused, running };
enum class Looping { off, on };
enum class Overlay { none, keys, numbers, recent, ask_to_close };
/// What is in front: the swings of a lesson (under way or opened), the lesson book, or swings laid over each
/// other.
enum class Front { swings, book, compare };
enum class WindowLife { open, closing };

/// Speeds to play at, as multiples of real time (U3).
inline constexpr std::array<double, 6> play_speeds{0.05, 0.1, 0.25, 0.5, 1.0, 2.0};
inline constexpr std::size_t real_time_speed = 4;

/// What was said of the swings of a recording while it was made: carries, wedges, lengths.
struct SaidOfSwings {
    std::vector<SwingLabel> labels;  ///< one a swing of the lesson; none: nothing was said
    DistanceUnit unit = DistanceUnit::metres;
};

/// All that the window shows. Panels read it and return what the coach asked for (view_action.h); nothing
/// else is kept anywhere. `chosen` and `compared` are places in lesson->swings, not the numbers that people
/// see.
struct ViewState {
    std::shared_ptr<const LessonResult> lesson;  ///< absent: nothing is open
    std::shared_ptr<const Overview> overview;    ///< of the lesson; absent with it
    std::string opening;                         ///< the file that is being read now; empty: none
    double opening_part = 0.0;                   ///< of it, as far as is known
    std::vector<std::string> recent;             ///< recordings opened before, newest first
    std::size_t recent_row = 0;                  ///< the one that Enter opens
    std::optional<Problem> problem;              ///< why the last file did not open
    std::optional<std::size_t> chosen;
    std::optional<std::size_t> compared;
    double head_s = 0.0;  ///< what is shown large: seconds from the first frame
    Playing playing = Playing::paused;
    Looping looping = Looping::off;
    std::size_t speed = real_time_speed;  ///< place in play_speeds
    Theme theme = Theme::paper;
    std::size_t text_size = usual_text_size;  ///< place in text_sizes
    float text_room = text_sizes.back();      ///< the largest text, against the usual, that the window holds
    Sounds sounds = Sounds::on;
    Overlay overlay = Overlay::none;
    WindowLife life = WindowLife::open;
    std::optional<LessonDesk> desk;      ///< absent: no lesson is under way
    std::optional<BookDesk> book;        ///< absent: the window was opened without one
    std::optional<CompareDesk> compare;  ///< absent until swings are laid over each other
    MarksDesk marking;                   ///< of the recording that is open
    SaidOfSwings said;                   ///< of the recording that is open
    Front front = Front::swings;
    std::string report_wish;  ///< the report to write of what is open; empty: none
    ReportForm report_form = ReportForm::full;
    std::string notice;  ///< one sentence of something done; goes with the next key
    std::optional<std::size_t>
        list_top;  ///< first swing that the list shows; absent: the list follows the chosen one
};

/// A state that shows `lesson` from its first shot (else its first swing, else its start), head at impact
/// where known.
[[nodiscard]] ViewState show_lesson(std::shared_ptr<const LessonResult> lesson, ViewState before = {});

/// The same recording analysed anew: swings stay chosen by when they were, the head stays.
[[nodiscard]] ViewState show_again(std::shared_ptr<const LessonResult> lesson, ViewState before);

/// px of the screen for one px of the design, on a window that shows `state`.
[[nodiscard]] float scale_for(const ViewState& state, float width_px, float height_px, float density = 1.0F);

/// The swing on show, or nothing.
[[nodiscard]] const Swing* chosen_swing(const ViewState& state);
[[nodiscard]] const Swing* compared_swing(const ViewState& state);

/// What is played and what the trace shows: the chosen swing from a little before to a little after it;
/// without one, the ten seconds of the recording that the head is in.
[[nodiscard]] TimeSpan shown_span(const ViewState& state);

/// Where playing starts and ends: the chosen swing, else the whole recording.
[[nodiscard]] TimeSpan played_span(const ViewState& state);

/// The same moment of the compared swing, counted from its own zero.
[[nodiscard]] std::optional<double> compared_head_s(const ViewState& state);

/// Whether a lesson is being recorded, so that closing would end it.
[[nodiscard]] bool is_recording(const ViewState& state);

/// Whether a calibration is under way, so that closing would give it up.
[[nodiscard]] bool is_calibrating(const ViewState& state);

/// The sample nearest to an instant; nothing when the trace is empty.
[[nodiscard]] std::optional<std::size_t> nearest_sample(const LoadTrace& trace, double time_s);

/// Lead share of one sample in [0, 1]; `unknown` when the feet cannot be told apart or nobody stands there.
[[nodiscard]] double lead_share_at(const LessonResult& lesson, std::size_t sample);

/// Can the feet be told apart anywhere in this recording?
[[nodiscard]] bool feet_known(const ViewState& state);

}  // namespace footing
