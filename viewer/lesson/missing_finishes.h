#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/book.h"

namespace footing {

struct FinishesRead {
    std::vector<std::int64_t> lessons;
    std::vector<std::string> not_read;  ///< lessons whose recording cannot be read, with the reason
};

/// Lessons that came into the book before it kept how swings end: what their recordings tell of it, where
/// these are still there. All else in the book stays. One change, to be taken back as one. Fails as Book
/// does.
[[nodiscard]] Result<FinishesRead> read_missing_finishes(Book& book);

}  // namespace footing
