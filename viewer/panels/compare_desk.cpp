#include "viewer/panels/compare_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "viewer/panels/view_state.h"

namespace footing {

namespace {

const SwingLabel* label_of(const ViewState& state, const ComparedSwing& swing) {
    const bool labelled = swing.lesson == 0 && state.desk && swing.place < state.desk->labels.size();
    return labelled ? &state.desk->labels[swing.place] : nullptr;
}

}  // namespace

std::array<const LessonResult*, 2> compared_lessons(const ViewState& state) {
    return {state.lesson.get(), state.compare ? state.compare->other.get() : nullptr};
}

std::vector<ComparedSwing> compared_list(const ViewState& state) {
    std::vector<ComparedSwing> list;
    const auto lessons = compared_lessons(state);
    for (std::size_t lesson = 0; lesson < lessons.size(); ++lesson) {
        for (std::size_t place = 0; lessons[lesson] && place < lessons[lesson]->swings.size(); ++place) {
            const ComparedSwing swing{lesson, place};
            const SwingLabel* label = label_of(state, swing);
            if (!label || label->word != CoachWord::not_a_swing) list.push_back(swing);
        }
    }
    return list;
}

bool is_picked(const CompareDesk& desk, const ComparedSwing& swing) {
    return std::ranges::find(desk.picked, swing) != desk.picked.end();
}

std::string compared_name(const ViewState& state, const ComparedSwing& swing) {
    const LessonResult& lesson = *compared_lessons(state)[swing.lesson];
    const std::string name = fmt::format("swing {}", lesson.swings[swing.place].index);
    return swing.lesson == 0 ? name : name + " of " + other_lesson_words(state);
}

SwingKind compared_kind(const ViewState& state, const ComparedSwing& swing) {
    if (const SwingLabel* label = label_of(state, swing)) {
        if (label->word == CoachWord::shot) return SwingKind::shot;
        if (label->word == CoachWord::practice) return SwingKind::practice;
    }
    return compared_lessons(state)[swing.lesson]->swings[swing.place].kind;
}

std::string other_lesson_words(const ViewState& state) {
    constexpr std::size_t day = 10;  // characters of "2026-11-25 10:20:44 +0100"
    constexpr std::size_t minute = 16;
    const LessonResult& lesson = *state.compare->other;
    const std::string& started = lesson.facts.started;
    const bool same_day = state.lesson->facts.started.substr(0, day) == started.substr(0, day);
    if (started.size() >= day) return started.substr(0, same_day ? minute : day);
    const std::size_t slash = lesson.facts.file.find_last_of('/');
    return slash == std::string::npos ? lesson.facts.file : lesson.facts.file.substr(slash + 1);
}

}  // namespace footing
