#include "viewer/panels/lacking_carry.h"

#include <algorithm>
#include <array>

#include "viewer/panels/book_edit.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

bool same_swing(const auto& a, const auto& b) {
    return a.lesson == b.lesson && a.swing == b.swing;
}

bool is_of_lesson_under_way(const ViewState& state, const LackingCarry& carry) {
    if (!state.desk || !state.desk->live || state.desk->live->uuid.empty()) return false;
    return std::ranges::any_of(state.book->facts->lessons, [&](const LessonLine& line) {
        return line.lesson.id == carry.lesson && line.lesson.recording_uuid == state.desk->live->uuid;
    });
}

/// What was said last of that swing here and is not read yet.
bool was_just_said(const BookDesk& book, const LackingCarry& carry) {
    const auto last = std::find_if(book.swings_to_write.rbegin(), book.swings_to_write.rend(),
                                   [&](const SwingToWrite& one) { return same_swing(one, carry); });
    return last != book.swings_to_write.rend() && is_complete(last->said);
}

void say(ViewState& state, std::string SwingSaid::*word, const auto& words) {
    const auto carry = lacking_in_hand(state);
    if (!carry) return;
    FillIn filled{carry->lesson, carry->swing, carry->said};
    filled.said.*word = word_after(words, filled.said.*word);
    state.book->fill_in = std::move(filled);
}

}  // namespace

bool is_complete(const SwingSaid& said) {
    return !said.club.empty() && !said.length.empty();
}

std::vector<LackingCarry> listed_lacking(const ViewState& state) {
    std::vector<LackingCarry> listed;
    if (!state.book->facts) return listed;
    for (const LackingCarry& carry : state.book->facts->lacking) {
        if (!was_just_said(*state.book, carry) && !is_of_lesson_under_way(state, carry))
            listed.push_back(carry);
    }
    return listed;
}

std::size_t lacking_in_lesson(const ViewState& state) {
    if (!state.book->facts) return 0;
    return static_cast<std::size_t>(std::ranges::count_if(
        state.book->facts->lacking,
        [&](const LackingCarry& carry) { return is_of_lesson_under_way(state, carry); }));
}

std::optional<LackingCarry> lacking_in_hand(const ViewState& state) {
    const std::vector<LackingCarry> listed = listed_lacking(state);
    if (state.book->row >= listed.size()) return std::nullopt;
    LackingCarry carry = listed[state.book->row];
    const std::optional<FillIn>& filled = state.book->fill_in;
    if (filled && same_swing(*filled, carry)) carry.said = filled->said;
    return carry;
}

void fill_wedge(ViewState& state) {
    if (const Student* student = chosen_student(*state.book))
        say(state, &SwingSaid::club, clubs_to_choose(*state.book, student->id));
}

void fill_length(ViewState& state) {
    // "Nothing said" is where it begins, and no answer.
    static constexpr std::array lengths{length_labels[1], length_labels[2], length_labels[3]};
    say(state, &SwingSaid::length, lengths);
}

void keep_filled(ViewState& state) {
    const auto carry = lacking_in_hand(state);
    if (!carry) return;
    if (!is_complete(carry->said)) {
        state.notice = carry->said.club.empty() ? "First the wedge: W goes through the student's."
                                                : "First the length of the swing: E goes through them.";
        return;
    }
    const std::vector<LackingCarry> listed = listed_lacking(state);
    keep_swing(*state.book, {carry->lesson, carry->swing, listed[state.book->row].said, carry->said});
    state.book->fill_in.reset();
    keep_row_in_list(state);
}

}  // namespace footing
