#pragma once

namespace footing {

struct ViewState;

/// Whether the student must be asked: not for a golfer who is simulated, since nobody is recorded.
[[nodiscard]] bool consent_is_asked(const ViewState& state);

/// A no of the student who is being taught ends the recording at once, whoever wrote it into the book, and
/// the page that says so comes to the front; it stays until the answer is another one or somebody else is
/// chosen. After each change of the book.
void honour_refusal(ViewState& state);

}  // namespace footing
