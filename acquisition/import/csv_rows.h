#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/work_watch.h"
#include "acquisition/import/csv_columns.h"
#include "acquisition/import/csv_text.h"

namespace footing {

/// One line of the table as numbers.
struct CsvRow {
    double time_s = 0.0;         ///< 0 for a grid
    std::vector<double> values;  ///< in the order of CsvColumns::values; NaN where a CoP is left empty
    std::uint16_t inputs = 0;
};

/// Reads the lines under the header as numbers and refuses what cannot be one.
class CsvRows {
  public:
    /// A table is read twice: to be checked, then to be recorded.
    enum class Reading { first, second };
    /// `watch` may be absent; it is told how far both readings are together.
    CsvRows(std::string_view text, const std::string& place, const CsvColumns& columns, Reading reading,
            WorkWatch* watch)
        : text_(text, place), columns_(columns), place_(place), reading_(reading), watch_(watch) {}

    /// Passes over the header; call once, first.
    [[nodiscard]] Result<CsvText::Next> skip_header() { return text_.next(); }

    /// Fails with bad_input: another number of fields than the header, no number, not finite, beyond any
    /// plate, a trigger other than 0 or 1, one of a foot's two CoP fields empty, or no longer wanted.
    [[nodiscard]] Result<CsvText::Next> next(CsvRow& row);

    [[nodiscard]] const CsvText& text() const { return text_; }

  private:
    [[nodiscard]] bool still_wanted();
    [[nodiscard]] Result<double> number(std::size_t field, std::string_view name) const;
    [[nodiscard]] Outcome check_cop_pairs(const CsvRow& row) const;

    CsvText text_;
    const CsvColumns& columns_;
    const std::string& place_;
    Reading reading_;
    WorkWatch* watch_;
    std::uint64_t lines_ = 0;
};

}  // namespace footing
