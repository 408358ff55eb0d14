#pragma once

#include <string>

#include "viewer/book/book_records.h"

namespace footing {

/// A name for a line on a terminal: harmless, and cut when it is very long.
[[nodiscard]] std::string shown(const std::string& name);
/// The same for a whole sentence that has a name in it.
[[nodiscard]] std::string shown_long(const std::string& words);

/// What went with a student or a lesson, and what of it is left somewhere.
[[nodiscard]] std::string removed_words(const Removed& removed);

}  // namespace footing
