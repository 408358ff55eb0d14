#pragma once

#include <CLI/CLI.hpp>

namespace footing {

/// The word must be a finite number from `low` to `high`, both allowed; "nan" is none.
[[nodiscard]] CLI::Validator number_between(double low, double high);

/// The word must not be empty: a file needs a name.
[[nodiscard]] CLI::Validator file_name();

}  // namespace footing
