#pragma once

#include <string>
#include <vector>

#include "viewer/command_line/arguments.h"

namespace footing {

/// The word must be a finite number from `low` to `high`, both allowed; "nan" is none.
[[nodiscard]] Check number_between(double low, double high);

/// The word must be a whole number from 1 on, as the book numbers what it holds.
[[nodiscard]] Check number_of_book();

/// The word must be one of these.
[[nodiscard]] Check one_of(const std::vector<std::string>& words);

}  // namespace footing
