#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/result.h"
#include "analysis/distance/carry.h"
#include "viewer/book/shot_table_shape.h"

namespace footing {

/// One line of a distance device's table.
struct ShotRow {
    std::size_t line = 0;                 ///< 1-based, as an editor counts
    std::string row;                      ///< all of its fields: what tells it from other rows …
    std::int64_t copy = 0;                ///< … together with how many of the same stand before it
    std::optional<std::int64_t> day;      ///< days since 1970-01-01, local
    std::optional<double> second_of_day;  ///< local; absent where the table tells the day only
    std::string club;                     ///< as the device calls it
    double carry_m = 0.0;
    std::optional<double> side_m;  ///< to the right
};

/// A table with more lines is refused: it is no table of one lesson.
inline constexpr std::size_t most_shot_rows = 20000;

struct ShotTable {
    std::vector<ShotRow> rows;
    std::vector<std::string> not_read;  ///< lines that are no shots, with the reason
};

/// The header's fields joined by commas: what tells one shape of table from another. Fields may be separated
/// by commas, semicolons or tabs. Fails with bad_input: empty, no text.
[[nodiscard]] Result<std::string> shot_table_header(std::string_view text, const std::string& place);

/// Reads the table as the shape says. In a table separated by semicolons or tabs a number may have a decimal
/// comma. A side may end in L or R. Lines without a carry, with a date that cannot be read (also: a year of
/// two digits), or with more fields than the header are told, not guessed. Fails with bad_input: a column
/// that the header does not have or has twice, a broken quote, more than most_shot_rows lines.
[[nodiscard]] Result<ShotTable> read_shot_table(std::string_view text, const std::string& place,
                                                const ShotTableShape& shape,
                                                FarCarry far = FarCarry::asked_about);

}  // namespace footing
