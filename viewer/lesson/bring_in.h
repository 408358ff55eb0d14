#pragma once

#include <filesystem>
#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"
#include "acquisition/frame/work_watch.h"

namespace footing {

/// What a file is by the end of its name.
enum class FileKind { recording, table, force_plates };
/// ".csv" (in any case) is a table, ".c3d" force plates; all else is taken for a recording.
[[nodiscard]] FileKind file_kind(const std::filesystem::path& file);

struct BroughtIn {
    std::filesystem::path recording;
    std::string words;  ///< one sentence of what was made
};

/// Makes a recording of a table or a C3D file, beside it and named after it, with a number where that name is
/// taken. `watch` is told how far it is; given up, nothing is left behind. Blocks. Fails as import_csv and
/// import_c3d do.
[[nodiscard]] Result<BroughtIn> bring_in(const std::filesystem::path& file, Hand hand, WorkWatch& watch);

}  // namespace footing
