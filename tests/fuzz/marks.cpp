// Files of the coach's marks of bad will: whatever the bytes, there are marks that can be, or a problem.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "viewer/lesson/marks_text.h"

namespace {

using namespace footing;

void require(bool holds) {
    if (!holds) std::abort();
}

const MarkedRecording recording{"fuzz", 60.0};

void check(const CoachMarks& marks) {
    for (std::size_t i = 0; i < marks.swings.size(); ++i) {
        const CoachMark& mark = marks.swings[i];
        require(mark.near_s >= 0.0 && mark.near_s <= recording.duration_s + 1.0);
        require(!out_of_order(mark));
        for (const auto& event_s : mark.event_s)
            require(!event_s || std::abs(*event_s - mark.near_s) <= 10.0);
        for (std::size_t k = 0; k < i; ++k)
            require(std::abs(marks.swings[k].near_s - mark.near_s) > same_swing_s);
    }
}

/// What was taken is written and taken again as it was.
void check_round_trip(const CoachMarks& marks) {
    const std::string text = marks_text(marks, recording.uuid);
    const auto again = parse_marks(text, recording, "again");
    require(again.ok() && marks_text(again.value(), recording.uuid) == text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    std::string text(reinterpret_cast<const char*>(data) + 1, size - 1);
    // Most inputs get the right head, so that the marks themselves are reached.
    if (data[0] % 4 != 0)
        text = R"({"format":"footing marks","version":1,"recording":"fuzz","swings":[)" + text + "]}";
    const auto marks = parse_marks(text, recording, "fuzz.marks.json");
    if (!marks) {
        require(marks.problem().kind == ProblemKind::bad_input && !marks.problem().what.empty());
        return 0;
    }
    check(marks.value());
    check_round_trip(marks.value());
    return 0;
}
