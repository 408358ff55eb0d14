#pragma once

#include <string>

namespace footing {

/// Writes the language of its text and the wish to show its title into the catalog of a PDF that Cairo made
/// (ISO 32000-1, 14.9.2 and 12.2), which Cairo 1.16 cannot. The catalog must be the last object before the
/// cross-reference table, so that nothing but that table moves; a PDF of another make comes back as it was.
/// `language`: a tag of RFC 3066, such as "en".
[[nodiscard]] std::string with_language(std::string pdf, const std::string& language);

}  // namespace footing
