#pragma once

#include <memory>
#include <variant>

#include "viewer/lesson/live_view.h"
#include "viewer/panels/lesson_desk.h"

namespace footing {

struct ViewState;

// What happens in a lesson under way, and what the coach may ask of it.

/// The lesson's thread has something new to show.
struct HearLesson {
    std::shared_ptr<const LiveView> live;
};
/// Of the swing on show, else of the newest one; the same word again takes it back.
struct SayWord {
    CoachWord word = CoachWord::shot;
};
/// Which swing these are said of: label_subject.h.
struct ChangeClub {};
struct ChangeLength {};
/// A character of the carry: a digit or the point.
struct TypeCarry {
    char character = '0';
};
struct EraseCarry {};
/// Keeps the carry that was typed, and asks for wedge and length where they were not said; when asked: leaves
/// it at what was said. Without either: turns between set-up and replay.
struct Enter {};
struct Undo {};
struct Redo {};
struct StopLesson {};

using LessonAction = std::variant<HearLesson, SayWord, ChangeClub, ChangeLength, TypeCarry, EraseCarry, Enter,
                                  Undo, Redo, StopLesson>;

/// The state after one of these; without a lesson under way nothing changes.
[[nodiscard]] ViewState carry_out_lesson(ViewState state, const LessonAction& action);

}  // namespace footing
