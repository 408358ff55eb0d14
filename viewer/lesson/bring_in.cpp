#include "viewer/lesson/bring_in.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <utility>

#include "acquisition/import/c3d_import.h"
#include "acquisition/import/csv_import.h"
#include "acquisition/record/program_version.h"

namespace footing {

namespace {

std::filesystem::path free_name_beside(const std::filesystem::path& file) {
    std::error_code ignored;
    std::filesystem::path recording = file;
    recording.replace_extension(".h5");
    for (int again = 2; std::filesystem::exists(recording, ignored); ++again)
        recording.replace_filename(fmt::format("{}-{}.h5", file.stem().string(), again));
    return recording;
}

template <typename Summary>
Result<BroughtIn> made(const Result<Summary>& summary, const std::filesystem::path& recording, Hand hand) {
    if (!summary) return summary.problem();
    std::string words =
        fmt::format("Made {} of it, {:.1f} s, taken for a {}-handed golfer's", recording.filename().string(),
                    summary.value().duration_s, hand == Hand::right ? "right" : "left");
    for (const std::string& doubt : summary.value().doubts) words += ". But " + doubt;
    return BroughtIn{recording, std::move(words)};
}

}  // namespace

FileKind file_kind(const std::filesystem::path& file) {
    std::string suffix = file.extension().string();
    std::ranges::transform(suffix, suffix.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (suffix == ".csv") return FileKind::table;
    return suffix == ".c3d" ? FileKind::force_plates : FileKind::recording;
}

Result<BroughtIn> bring_in(const std::filesystem::path& file, Hand hand, WorkWatch& watch) {
    const std::filesystem::path recording = free_name_beside(file);
    if (file_kind(file) == FileKind::force_plates) {
        C3dImportOptions how;
        how.hand = hand;
        how.program_version = program_version;
        how.watch = &watch;
        return made(import_c3d(file, recording, how), recording, hand);
    }
    CsvImportOptions how;
    how.hand = hand;
    how.watch = &watch;
    return made(import_csv(file, recording, how), recording, hand);
}

}  // namespace footing
