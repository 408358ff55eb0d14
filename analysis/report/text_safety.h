#pragma once

#include <string>
#include <string_view>

#include "acquisition/frame/clean_text.h"

namespace footing {

/// Free text of people, devices and files, made harmless for one place each. Numbers never need any of it.

/// clean_text() for a line made of parts with " · " between them: where a part is of a script that runs to
/// the left, a left-to-right mark before each " · " keeps the parts after it in their order (Unicode TR 9,
/// rule W2: digits after Arabic letters would otherwise run to the left with them).
[[nodiscard]] std::string clean_parts(std::string_view text);

/// For HTML and XML, text and double-quoted attributes alike: & < > " ' as references, after clean_text().
[[nodiscard]] std::string escaped(std::string_view text);

/// One field of free text for CSV: RFC 4180 quoting; a text that a spreadsheet could take for a formula (it
/// begins with = + - @ or a tab or a line end) gets an apostrophe in front.
[[nodiscard]] std::string csv_text(std::string_view text);

}  // namespace footing
