#include "viewer/panels/refusal.h"

#include <algorithm>

#include "viewer/panels/view_state.h"

namespace footing {

bool consent_is_asked(const ViewState& state) {
    const auto student = student_as_said(*state.book);
    if (!student) return state.book->student || !state.book->new_student.empty();
    if (student->consent == Consent::refused) return true;
    const bool taught = state.desk && state.desk->student && state.desk->student->id == student->id;
    if (taught) return state.desk->golfer == Golfer::person;
    return !std::ranges::all_of(chosen_plates(*state.book), [](const PlatesChoice& plates) {
        return plates.kind == PlatesChoice::Kind::simulated;
    });
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
