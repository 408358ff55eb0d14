#pragma once

#include <string>

namespace footing::test {

/// Drops a file onto the window of that title, as a file manager would: the drag-and-drop protocol of X
/// version 5 (freedesktop.org, "Drag-and-Drop Protocol for the X Window System"), with the file named by a
/// URI (RFC 8089). True when the window took it and said so; false where it does not within some seconds.
[[nodiscard]] bool drop_file(const std::string& display, const std::string& title, const std::string& file);

}  // namespace footing::test
