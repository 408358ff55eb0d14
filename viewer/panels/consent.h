#pragma once

#include <string>

#include "viewer/book/book_records.h"

namespace footing {

struct BookDesk;
struct ViewState;

// Whether who swings may be recorded. All need state.book.

/// Whether the plates that are chosen are none: a simulated golfer.
[[nodiscard]] bool simulated_is_chosen(const BookDesk& book);
/// Whether somebody must be asked: not for a golfer who is simulated, since nobody is recorded.
[[nodiscard]] bool consent_is_asked(const ViewState& state);
/// What the chosen student answered, as the book has it or as it was said here; where nobody is chosen, what
/// whoever is taught did, for this one lesson.
[[nodiscard]] Consent consent_said(const ViewState& state);
/// "May Robin be recorded? Y yes, N no. A minor: the guardians decide."
[[nodiscard]] std::string ask_consent_words(const ViewState& state);
/// A lesson may begin: who is taught and on what is known, and nobody is recorded who was not asked.
[[nodiscard]] bool may_begin(const ViewState& state);

/// A no of the student who is being taught ends the recording at once, whoever wrote it into the book, and
/// the page that says so comes to the front; it stays until the answer is another one or somebody else is
/// chosen. After each change of the book.
void honour_refusal(ViewState& state);

}  // namespace footing
