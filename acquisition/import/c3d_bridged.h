#pragma once

#include <cstdint>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/import/c3d_file.h"

namespace footing {

/// Samples [first, past) of a C3D file that were never measured.
struct BridgedSpan {
    std::uint64_t first = 0;
    std::uint64_t past = 0;
};

/// C3D has no word for a lost frame. An export of this program marks those that were bridged in a channel
/// BRIDGED, 1 there and 0 elsewhere; here it is read back, so that they are lost frames again and no measured
/// ones. Spans in order, each with a measured sample before and behind it; none where no such channel is, or
/// where it holds anything else. Fails with bad_input when the file cannot be read.
[[nodiscard]] Result<std::vector<BridgedSpan>> bridged_spans(const C3dFile& file);

}  // namespace footing
