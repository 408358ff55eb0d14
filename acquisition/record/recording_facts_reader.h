#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/record/h5_structure.h"
#include "acquisition/record/recording.h"
#include "acquisition/record/recording_format.h"

namespace footing {

/// Everything of a recording but the frames themselves. The structure must have passed check_format.
[[nodiscard]] Result<RecordingInfo> read_facts(const ReadOnlyFile& file, const h5::Structure& structure,
                                               const std::string& place);

/// The checksums of the chunks of one dataset of /frames; empty where the file has none.
[[nodiscard]] std::vector<std::uint32_t> read_checksums(const ReadOnlyFile& file,
                                                        const h5::Structure& structure,
                                                        const recording::DatasetFormat& format);

/// Whether the facts are those that the file's checksum of facts was taken of. True when it has none.
[[nodiscard]] bool facts_are_whole(const h5::Structure& structure, const RecordingInfo& info);

}  // namespace footing
