#pragma once

#include <optional>
#include <string>

namespace footing {

struct LessonDesk;
struct ViewState;

/// Whether the lesson is being recorded, in words (U2).
struct LessonProof {
    enum class State { good, alarm } state = State::good;
    std::string words;
};
[[nodiscard]] LessonProof lesson_proof(const LessonDesk& desk);

/// What stands on a red bar on whatever screen is in front; nothing while all is well, and without a lesson.
[[nodiscard]] std::optional<std::string> lesson_alarm(const ViewState& state);

}  // namespace footing
