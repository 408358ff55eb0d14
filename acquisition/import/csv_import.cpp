#include "acquisition/import/csv_import.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string_view>

#include "acquisition/frame/count_words.h"
#include "acquisition/import/csv_document.h"
#include "acquisition/import/last_change.h"
#include "acquisition/import/layout_file.h"
#include "acquisition/import/whole_file.h"
#include "acquisition/record/program_version.h"
#include "acquisition/record/recording_origin.h"
#include "acquisition/record/recording_writer.h"

namespace footing {

namespace {

constexpr std::uint64_t most_csv_bytes = std::uint64_t{4} << 30;

/// A file of another kind that is sometimes given for a table, by its first bytes.
std::optional<Problem> other_kind(std::string_view text, const std::string& place) {
    const auto refuse = [&](const char* what, const char* remedy) {
        return Problem{ProblemKind::bad_input, place, what, remedy};
    };
    if (text.starts_with("\x1F\x8B"))
        return refuse("the file is compressed", "unpack it and import what was in it");
    if (text.starts_with("\x89HDF\r\n"))
        return refuse("the file is a recording already", "analyse it as it is");
    if (text.starts_with("PK\x03\x04"))
        return refuse("the file is a workbook or an archive, not CSV", "save the table as CSV");
    return std::nullopt;
}

RecordingInfo facts_of(const CsvDocument& document, const std::filesystem::path& csv,
                       const CsvImportOptions& options) {
    RecordingInfo info;
    info.zone = "UTC";
    info.start.utc_ns = last_change_utc_ns(csv);
    info.end.steady_ns = std::llround(document.duration_s() * static_cast<double>(ns_per_s));
    info.end.utc_ns = info.start.utc_ns + info.end.steady_ns;
    info.hand = options.hand;
    info.program_version = program_version;
    info.origin = imported_origin(csv);
    info.device = document.device();
    info.losses.frames = document.frames();
    info.losses.lost = document.frames_missing();
    info.gaps = document.gaps();
    if (!info.gaps.empty()) {
        info.outcome = RecordingOutcome::lossy;
        info.cause = fmt::format("{} missing from the table, in {}",
                                 count_words(document.frames_missing(), "line is", "lines are"),
                                 count_words(info.gaps.size(), "gap", "gaps"));
    }
    info.notes.push_back(
        {0, "The table does not say when it was measured; the start is the file's date of last change."});
    for (const std::string& note : document.notes()) info.notes.push_back({0, note});
    for (const std::string& doubt : document.doubts()) info.notes.push_back({0, doubt});
    return info;
}

}  // namespace

Result<CsvImportSummary> import_csv(const std::filesystem::path& csv, const std::filesystem::path& recording,
                                    const CsvImportOptions& options) {
    std::optional<DeviceDescription> layout;
    if (options.layout) {
        auto read = read_layout_file(*options.layout);
        if (!read) return read.problem();
        layout = std::move(read).value();
    }
    const auto text = read_whole_file(csv, most_csv_bytes);
    if (!text) return text.problem();
    if (const auto other = other_kind(text.value(), csv.string())) return *other;
    const auto document = CsvDocument::check(text.value(), csv.string(), std::move(layout), options.watch,
                                             options.newtons_per_unit);
    if (!document) return document.problem();

    const RecordingInfo info = facts_of(document.value(), csv, options);
    auto writer = RecordingWriter::create(recording, info);
    if (!writer) return writer.problem();
    const Outcome written =
        document.value().each_block([&](const FrameBlock& block) { return writer.value().append(block); });
    if (!written) return written.problem();
    if (Outcome closed = writer.value().close(info); !closed) return closed.problem();
    return CsvImportSummary{
        document.value().frames(),         document.value().frames_missing(), info.gaps.size(),
        document.value().device().rate_hz, document.value().duration_s(),     document.value().notes(),
        document.value().doubts()};
}

}  // namespace footing
