#pragma once

#include <string>
#include <string_view>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// Reads what a device says of itself (wire format, kind 1) or a layout file (the same JSON). Plates without
/// "cells" report force components. `place` names the sender or the file in the problem's text. Fails with
/// bad_input: no JSON, a field missing or of the wrong type, not finite, or beyond the bounds of
/// plate_layout.h. Fields it does not know are ignored.
[[nodiscard]] Result<DeviceDescription> parse_description(std::string_view json, std::string_view place);

/// The same as text; parse_description gives back an equal description. Lengths that were read as
/// millimetres come back bit for bit.
[[nodiscard]] std::string description_json(const DeviceDescription& description);

}  // namespace footing
