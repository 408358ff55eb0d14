#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/import/csv_text.h"

namespace footing {

/// The forms of table that import reads (header names are the contract; docs/csv_import.md).
enum class CsvForm {
    two_feet,  ///< time_s, left_n, right_n, and for each foot or none: left_cop_x_mm, left_cop_y_mm, …
    whole,     ///< time_s, total_n, cop_x_mm, cop_y_mm
    cells,     ///< time_s, cell_1 … cell_n, with a layout; of a grid: its elements, row by row
    grid,      ///< frame, row, col, value, with a layout: only the elements that are not zero
};

/// Which column of the file is which. Every form may have a column `trigger` but the grid.
struct CsvColumns {
    CsvForm form = CsvForm::two_feet;
    std::size_t fields_in_header = 0;
    std::vector<std::string> names;   ///< of the values below, in order
    std::vector<std::size_t> values;  ///< fields in the order of the form, without time and trigger
    std::optional<std::size_t> time;  ///< absent for a grid
    std::optional<std::size_t> trigger;
    bool has_left_cop = false;  ///< two_feet only
    bool has_right_cop = false;
    std::vector<std::string> unused;  ///< columns with names that mean nothing here
};

/// Reads the header, the line that `text` read last. `layout` is needed for cells and grid. Fails with
/// bad_input: a column missing, twice, of several forms, or not as many cells as the layout has.
[[nodiscard]] Result<CsvColumns> find_csv_columns(const CsvText& text,
                                                  const std::optional<DeviceDescription>& layout);

}  // namespace footing
