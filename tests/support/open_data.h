#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace footing::test {

/// A file of the open data beside the repository (gunzipped where its name ends in .gz), or nothing where
/// those data are absent (a * at the start of the name stands for any letters); a test then says so with
/// MESSAGE and returns.
[[nodiscard]] std::optional<std::string> open_data(const std::string& path_below_data);

/// A table of text: rows by their header's names. Separator: tab or comma, by what the header holds.
using TableRow = std::map<std::string, std::string>;
[[nodiscard]] std::vector<TableRow> table_rows(const std::string& text);

}  // namespace footing::test
