#pragma once

#include <string>
#include <string_view>

namespace footing {

/// Text of another program as UTF-8. What is no UTF-8 throughout is taken for ISO 8859-1, whose 256
/// characters are the first 256 of Unicode; the dash, quotes and euro that Windows has in its second control
/// block too (code page 1252).
[[nodiscard]] std::string as_utf8(std::string_view text);

}  // namespace footing
