#pragma once

#include <cstddef>

#include "viewer/book/book_records.h"

namespace footing {

struct BookDesk;
struct SwingEdit;
struct ViewState;

// What the coach changes in the open book: each is one step of undo (U5). All need state.book.

/// Rows of the list of the page in front.
[[nodiscard]] std::size_t rows_of_page(const ViewState& state);
/// What cannot be chosen any more is let go.
void keep_row_in_list(ViewState& state);

/// Wedge and length of a swing in the book.
void keep_swing(BookDesk& book, const SwingEdit& edit);

/// The student or the lesson of the row.
void put_into_bin(ViewState& state);
/// Of the chosen student, as from today; where nobody is chosen, of whoever is taught without a name.
void say_consent(ViewState& state, Consent consent);
/// The chosen student plays the other way; has carries told in the other unit. Not while being taught.
void change_hand(ViewState& state);
void change_unit(ViewState& state);

/// The last change of this window; where there is none, asks for the newest change of the book itself.
void take_back(ViewState& state);
void do_again(ViewState& state);

}  // namespace footing
