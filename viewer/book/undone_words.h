#pragma once

#include <string>
#include <vector>

#include "viewer/book/book.h"

namespace footing {

/// What taking a change back did, a part each: "1 lesson there again", "12 swings there again".
[[nodiscard]] std::vector<std::string> undone_words(const UndoneChange& change);
/// The same of making it again.
[[nodiscard]] std::vector<std::string> made_again_words(const UndoneChange& change);

}  // namespace footing
