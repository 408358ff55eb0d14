#include "viewer/panels/label_subject.h"

#include <fmt/format.h>

#include <algorithm>

#include "viewer/panels/view_state.h"

namespace footing {

namespace {

std::optional<std::size_t> subject(const ViewState& state, Unsaid unsaid) {
    const LessonDesk& desk = *state.desk;
    const bool named = desk.asked || !desk.entry.empty() || desk.showing == Showing::replay;
    return named || unsaid == Unsaid::yes ? labelled_swing(state) : std::nullopt;
}

std::string subject_words(const ViewState& state, std::optional<std::size_t> place) {
    if (!place) return "the next swing";
    const std::string swing = fmt::format("swing {}", state.lesson->swings[*place].index);
    return holds_from_now_on(*state.desk, place) ? swing + " and the next" : swing + " only";
}

}  // namespace

std::optional<std::size_t> labelled_swing(const ViewState& state) {
    if (!state.desk || state.desk->labels.empty()) return std::nullopt;
    const LessonDesk& desk = *state.desk;
    if (!desk.entry.empty()) return desk.entry_swing;
    if (desk.asked) return desk.asked;
    const bool replayed = desk.showing == Showing::replay;
    if (replayed && state.chosen && *state.chosen < desk.labels.size()) return state.chosen;
    return desk.labels.size() - 1;
}

std::optional<std::size_t> swing_of_wedge(const ViewState& state) {
    return subject(state, state.desk->club_unsaid);
}

std::optional<std::size_t> swing_of_length(const ViewState& state) {
    return subject(state, state.desk->length_unsaid);
}

bool holds_from_now_on(const LessonDesk& desk, std::optional<std::size_t> place) {
    return !place || *place + 1 == desk.labels.size();
}

std::string wedge_and_length_words(const ViewState& state) {
    const std::string wedge = subject_words(state, swing_of_wedge(state));
    const std::string length = subject_words(state, swing_of_length(state));
    if (wedge == length) return "W and E: " + wedge;
    return fmt::format("W: {}  ·  E: {}", wedge, length);
}

bool carry_left_out(const SwingLabel& label) {
    return label.carry_m && (label.word == CoachWord::practice || label.word == CoachWord::not_a_swing);
}

bool lacks_wedge_or_length(const SwingLabel& label) {
    return label.carry_m && !carry_left_out(label) && (label.club.empty() || label.length.empty());
}

std::string carries_without_wedge_words(const ViewState& state) {
    const LessonDesk& desk = *state.desk;
    const std::vector<std::size_t> places = carries_without_wedge(desk);
    if (places.empty()) return "";
    constexpr std::size_t most_named = 4;
    std::string swings;
    for (std::size_t i = 0; i < std::min(places.size(), most_named); ++i)
        swings += fmt::format("{}{}", i == 0 ? "" : ", ", state.lesson->swings[places[i]].index);
    if (places.size() > most_named) swings += fmt::format(" and {} more", places.size() - most_named);
    const auto here = labelled_swing(state);
    const bool at_it = here && lacks_wedge_or_length(desk.labels[*here]) && swing_of_wedge(state) == here &&
                       swing_of_length(state) == here;
    const bool in_front =
        state.chosen && lacks_wedge_or_length(desk.labels[std::min(*state.chosen, desk.labels.size() - 1)]);
    const char* mend = "Enter, ↑ ↓ to it, then W and E";
    if (at_it) {
        mend = "W and E say them";
    } else if (desk.showing == Showing::replay) {
        mend = "↑ ↓ to it, then W and E";
    } else if (in_front) {
        mend = "Enter, then W and E";
    }
    return fmt::format("carry without wedge or length: swing {}  ·  {}", swings, mend);
}

std::vector<std::size_t> carries_without_wedge(const LessonDesk& desk) {
    std::vector<std::size_t> places;
    for (std::size_t place = 0; place < desk.labels.size(); ++place) {
        if (lacks_wedge_or_length(desk.labels[place])) places.push_back(place);
    }
    return places;
}

}  // namespace footing
