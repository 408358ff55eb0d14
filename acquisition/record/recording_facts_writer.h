#pragma once

#include "acquisition/record/h5_writer.h"
#include "acquisition/record/recording.h"

namespace footing {

/// Writes everything of a recording but /frames (recording_format.h says where). Failures stay in
/// file.outcome().
void write_facts(h5::FileWriter& file, const RecordingInfo& info);

/// "2026-11-25T10:20:44.123Z".
[[nodiscard]] std::string utc_text(std::int64_t utc_ns);

}  // namespace footing
