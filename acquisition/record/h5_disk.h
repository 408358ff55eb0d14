#pragma once

#include <cstdint>

namespace footing::h5 {

/// A handle of the HDF5 library to the settings with which a file is opened. The file then lies on the disk
/// as with the library's own driver, byte for byte, but what the disk refuses is kept from the library: it
/// never frees a file that it could not write out, and crashes over it when the program ends. From the first
/// refusal on nothing more reaches the disk, whatever is written is held in memory until the file is closed,
/// and the number of the first error stands in `disk_error` (0: none so far), which outlives the file. The
/// settings are for creating files only; the caller closes the handle (H5Pclose). Negative when out of
/// memory.
[[nodiscard]] std::int64_t settings_for_new_file(int& disk_error);

}  // namespace footing::h5
