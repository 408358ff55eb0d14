#pragma once

#include <filesystem>
#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// Where the book is unless the coach says otherwise: "footing/lessons.book" in the user's data folder
/// ($XDG_DATA_HOME, else ~/.local/share; XDG Base Directory Specification). Makes the folder, readable by the
/// user only. Fails with disk_failed.
[[nodiscard]] Result<std::filesystem::path> usual_book_place();

/// Free text as it goes into the book: valid UTF-8 in canonical composition (NFC), without control
/// characters, without blanks at the ends. Fails with command_line: nothing left, or more than `most_bytes`;
/// `what` names it.
[[nodiscard]] Result<std::string> tidy_text(const std::string& text, const std::string& what,
                                            std::size_t most_bytes = 2000);

/// By what names are compared: the same for upper and lower case and for every way to write an accent.
[[nodiscard]] std::string name_key(const std::string& name);

}  // namespace footing
