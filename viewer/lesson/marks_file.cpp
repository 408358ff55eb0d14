#include "viewer/lesson/marks_file.h"

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <system_error>

#include "acquisition/record/recording_reader.h"
#include "acquisition/record/safe_file.h"

namespace footing {

namespace {

constexpr std::uintmax_t largest_file = 4U << 20U;

Result<MarkedRecording> marked_recording(const std::string& recording) {
    Result<RecordingReader> reader = RecordingReader::open(recording);
    if (!reader) return reader.problem();
    MarkedRecording marked{reader.value().info().uuid, 0.0};
    const std::uint64_t frames = reader.value().frame_count();
    if (frames == 0) return marked;
    const Result<FrameBlock> first = reader.value().read(0, 1, HostTimes::left_out);
    if (!first) return first.problem();
    const Result<FrameBlock> last = reader.value().read(frames - 1, 1, HostTimes::left_out);
    if (!last) return last.problem();
    if (first.value().size() == 0 || last.value().size() == 0) return marked;
    marked.duration_s = 1e-6 * (static_cast<double>(last.value().stamps.front().device_time_us) -
                                static_cast<double>(first.value().stamps.front().device_time_us));
    return marked;
}

}  // namespace

Result<std::string> recording_uuid(const std::string& recording) {
    const Result<RecordingReader> reader = RecordingReader::open(recording);
    if (!reader) return reader.problem();
    return reader.value().info().uuid;
}

std::string marks_path(const std::string& recording) {
    return recording + ".marks.json";
}

Result<CoachMarks> read_marks(const std::string& recording) {
    const std::string path = marks_path(recording);
    std::error_code error;
    if (!std::filesystem::exists(path, error)) return CoachMarks{};
    if (!std::filesystem::is_regular_file(path, error) ||
        std::filesystem::file_size(path, error) > largest_file || error)
        return unusable_marks(path, "this is no file of the coach's marks");
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    if (!file.good() && !file.eof()) return unusable_marks(path, "the coach's marks cannot be read");
    const Result<MarkedRecording> marked = marked_recording(recording);
    if (!marked) return marked.problem();
    return parse_marks(text, marked.value(), path);
}

Outcome write_marks(const std::string& recording, const CoachMarks& marks) {
    const Result<std::string> uuid = recording_uuid(recording);
    if (!uuid) return uuid.problem();
    const std::string path = marks_path(recording);
    if (marks.empty()) {
        std::error_code error;
        std::filesystem::remove(path, error);
        if (error)
            return Problem{ProblemKind::disk_failed, path, "the last mark cannot be taken away",
                           "look whether you may change this folder"};
        return Done{};
    }
    return write_file_safely(path, marks_text(marks, uuid.value()));
}

}  // namespace footing
