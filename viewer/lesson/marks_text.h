#pragma once

#include <string>
#include <string_view>

#include "acquisition/frame/result.h"
#include "analysis/swing/coach_marks.h"

namespace footing {

/// The recording that marks belong to.
struct MarkedRecording {
    std::string uuid;
    double duration_s = 0.0;
};

/// Marks as text, and back: one JSON object {"format": "footing marks", "version": 1, "recording": the
/// recording's UUID, "trigger": "never misses" (where the coach said so), "swings": [{"near_s", "events"
/// {name: seconds}, "kind", "not_a_swing"}]}. Pure, so that it can be fuzzed. `place` names the text in a
/// problem; fails with bad_input where the text is no marks of this recording, of a later version, or
/// damaged: events out of order, beyond the recording or far from their swing, two marks of one swing.
[[nodiscard]] std::string marks_text(const CoachMarks& marks, const std::string& recording_uuid);
[[nodiscard]] Result<CoachMarks> parse_marks(std::string_view text, const MarkedRecording& recording,
                                             const std::string& place);

/// "impact must come after top, which is marked at 12.300 s".
[[nodiscard]] std::string order_words(const CoachMark& mark, const OutOfOrder& pair);

/// A problem with marks, with what to do about it.
[[nodiscard]] Problem unusable_marks(const std::string& place, const std::string& what);

}  // namespace footing
