#pragma once

#include <cstddef>
#include <memory>
#include <variant>

#include "viewer/panels/book_desk.h"

namespace footing {

struct ViewState;

// What happens at the open book, and what the coach may ask of it.

/// The worker has read what was asked for.
struct HearBook {
    std::shared_ptr<const BookFacts> facts;
};
/// The book to the front, or back to what was there before.
struct ShowBook {};
struct HideBook {};
struct TurnToPage {
    BookPage page = BookPage::students;
};
/// The book to the front at this page.
struct OpenPage {
    BookPage page = BookPage::students;
};
struct TurnPage {
    int step = 1;
};
/// A character of a name, to look for it or to make it.
struct TypeName {
    char32_t character = U'a';
};
struct EraseName {};
struct MoveRow {
    int step = 1;
};
struct PickRow {
    std::size_t row = 0;  ///< the same again confirms
};
/// Chooses the student, begins the lesson, or opens the recording: whatever the page is for.
struct Confirm {};
struct ToBin {};
/// Takes the plates of the row together with others as one, or leaves them out again.
struct JoinRow {};
/// Whether the chosen student may be recorded, as from today.
struct SayConsent {
    Consent consent = Consent::given;
};
/// The chosen student plays the other way; has carries told in the other unit. Not while being taught.
struct ChangeHand {};
struct ChangeUnit {};
/// On the page of distances, of a carry that lacks them; Confirm keeps them.
struct FillWedge {};
struct FillLength {};
/// Takes back what was changed last in this window; where nothing was, the newest change of the book itself.
struct TakeBack {};
/// Does again what was taken back last in this window.
struct DoAgain {};

/// The listening thread has something new; absent: it has ended.
struct HearPlates {
    std::shared_ptr<const PlatesView> view;
};
struct AskPlates {
    PlatesWish wish = PlatesWish::listen;
};
/// Masses over each cell, or a known weight somewhere on each plate.
struct ChangeMethod {};

using BookAction =
    std::variant<HearBook, ShowBook, HideBook, TurnToPage, OpenPage, TurnPage, TypeName, EraseName, MoveRow,
                 PickRow, Confirm, ToBin, JoinRow, SayConsent, ChangeHand, ChangeUnit, FillWedge, FillLength,
                 TakeBack, DoAgain, HearPlates, AskPlates, ChangeMethod>;

/// The state after one of these; without a book nothing changes.
[[nodiscard]] ViewState carry_out_book(ViewState state, const BookAction& action);

}  // namespace footing
