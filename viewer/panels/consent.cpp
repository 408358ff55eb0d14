#include "viewer/panels/consent.h"

#include <algorithm>

#include "viewer/panels/view_state.h"

namespace footing {

bool simulated_is_chosen(const BookDesk& book) {
    const std::vector<PlatesChoice> plates = chosen_plates(book);
    return !plates.empty() && std::ranges::all_of(plates, [](const PlatesChoice& one) {
        return one.kind == PlatesChoice::Kind::simulated;
    });
}

bool consent_is_asked(const ViewState& state) {
    const auto student = student_as_said(*state.book);
    if (student && student->consent == Consent::refused) return true;
    const bool taught =
        student && state.desk && state.desk->student && state.desk->student->id == student->id;
    if (taught) return state.desk->golfer == Golfer::person;
    if (!student && state.desk) return false;  // the lesson of somebody else
    return !simulated_is_chosen(*state.book);
}

Consent consent_said(const ViewState& state) {
    if (const auto student = student_as_said(*state.book)) return student->consent;
    const BookDesk& book = *state.book;
    const bool being_read = book.student || !book.new_student.empty();
    return being_read ? book.said_early.value_or(Consent::not_asked) : book.unnamed_consent;
}

std::string ask_consent_words(const ViewState& state) {
    const auto student = student_as_said(*state.book);
    return (student ? "May " + student->name : std::string("May whoever is taught")) +
           " be recorded? Y yes, N no. For a minor the guardians decide.";
}

bool may_begin(const ViewState& state) {
    if (state.desk || !lesson_choice(*state.book)) return false;
    return !consent_is_asked(state) || consent_said(state) == Consent::given;
}

void honour_refusal(ViewState& state) {
    BookDesk& book = *state.book;
    const auto said = student_as_said(book);
    if (book.refusal) {
        const bool changed = said && said->consent != Consent::refused;
        if (changed || book.student != book.refusal->student) book.refusal.reset();
    }
    if (!state.desk || !state.desk->student || !said || said->id != state.desk->student->id) return;
    state.desk->student = *said;
    if (said->consent != Consent::refused || state.desk->wish == LessonWish::stop) return;
    state.desk->wish = LessonWish::stop;
    book.refusal = Refusal{said->id, said->name, ""};
    state.overlay = Overlay::none;
    state.front = Front::book;
    book.page = BookPage::begin;
    book.row = book.plates;
}

}  // namespace footing
