#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "viewer/book/book.h"

namespace footing {

/// The student's wedge of this name; a new one where there is none. No name: no wedge. Fails as Book does.
[[nodiscard]] Result<std::optional<std::int64_t>> wedge_called(Book& book, std::int64_t student,
                                                               const std::string& name);

}  // namespace footing
