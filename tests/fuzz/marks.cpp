// Marks of bad will: whatever the bytes, they are marks that hold what is promised of them, and read the same
// again when written, or a problem.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "viewer/lesson/marks_file.h"

namespace {

using namespace footing;

void require(bool holds) {
    if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const MarkedRecording recording{"an-id", 100.0};
    std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
    // A fuzzer does not guess the whole frame; half of the time it only writes the list of swings.
    if (data[0] % 2 == 0)
        text = R"({"format": "footing marks", "version": 1, "recording": "an-id", "swings": )" + text + "}";
    const auto marks = parse_marks(text, recording, "fuzz.marks.json");
    if (!marks) {
        require(marks.problem().kind == ProblemKind::bad_input && !marks.problem().what.empty());
        return 0;
    }
    for (const CoachMark& mark : marks.value().swings) {
        require(std::isfinite(mark.near_s) && !out_of_order(mark));
        for (const auto& time_s : mark.event_s)
            require(!time_s || (std::isfinite(*time_s) && *time_s < 102.0));
    }
    const std::string written = marks_text(marks.value(), recording.uuid);
    const auto again = parse_marks(written, recording, "again.marks.json");
    require(again.ok() && marks_text(again.value(), recording.uuid) == written);
    return 0;
}
