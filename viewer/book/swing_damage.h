#pragma once

#include <string>

#include "viewer/book/book_records.h"

namespace footing {

/// What cannot be true of a swing of the book, which only a damaged file says: "a lead share at address of
/// inf"; empty where all of it can be. The limits are far beyond any swing, so that no sound book is refused.
[[nodiscard]] std::string impossible_words(const BookSwing& swing);

}  // namespace footing
