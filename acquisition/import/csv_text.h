#pragma once

#include <cstddef>
#include <deque>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/result.h"

namespace footing {

/// Longest line and most fields that are read; what exceeds them is no table of loads.
inline constexpr std::size_t most_csv_line_bytes = 1 << 20;
inline constexpr std::size_t most_csv_fields = 1024;

/// Comma-separated values by RFC 4180, line by line: fields may stand in double quotes, a doubled quote
/// stands for one; LF or CR LF ends a line; a byte-order mark before the first line and blank lines are
/// passed over. Pure: no file.
class CsvText {
  public:
    /// `text` must outlive this; `place` names the file in problems. Tables of other programs may have
    /// another separator between fields.
    CsvText(std::string_view text, std::string place, char separator = ',');

    enum class Next { line, end };
    /// Reads the next line that is not blank. Fails with bad_input: a quote that does not close, text after a
    /// closing quote, a line or a number of fields beyond the limits, bytes that no text has.
    [[nodiscard]] Result<Next> next();

    /// Of the line that was read last, without blanks around them; valid until the next call.
    [[nodiscard]] const std::vector<std::string_view>& fields() const { return fields_; }
    /// 1-based, as an editor counts.
    [[nodiscard]] std::size_t line() const { return line_; }

    /// How much of the text is read, from 0 to 1.
    [[nodiscard]] double part() const {
        return text_.empty() ? 1.0 : static_cast<double>(at_) / static_cast<double>(text_.size());
    }

    /// bad_input at the line that was read last; `column` may be empty.
    [[nodiscard]] Problem problem(std::string_view column, std::string what, std::string remedy) const;

  private:
    [[nodiscard]] bool is_blank(char letter) const;
    [[nodiscard]] Result<Next> read_line();
    [[nodiscard]] Outcome read_quoted(std::size_t line_end_limit);

    std::string_view text_;
    std::string place_;
    char separator_;
    std::size_t at_ = 0;
    std::size_t line_ = 0;
    std::size_t lines_ended_ = 0;
    std::vector<std::string_view> fields_;
    std::deque<std::string> unquoted_;
};

/// One number: decimal point, no grouping, finite. The text must be all of it.
[[nodiscard]] Result<double> parse_csv_number(std::string_view field);

}  // namespace footing
