#pragma once

#include <string>
#include <string_view>

#include "acquisition/frame/result.h"
#include "analysis/swing/coach_marks.h"

namespace footing {

/// The coach's marks lie beside the recording, which never changes: FILE.h5.marks.json, one JSON object
/// {"format": "footing marks", "version": 1, "recording": the recording's UUID, "swings": [{"near_s",
/// "events" {name: seconds}, "kind", "not_a_swing"}]}.
[[nodiscard]] std::string marks_path(const std::string& recording);

/// The recording that marks belong to.
struct MarkedRecording {
    std::string uuid;
    double duration_s = 0.0;
};

/// Marks as text, and back. `place` names the text in a problem; fails with bad_input where the text is no
/// marks of this recording, of a later version, or damaged: events out of order, beyond the recording or far
/// from their swing, two marks of one swing.
[[nodiscard]] std::string marks_text(const CoachMarks& marks, const std::string& recording_uuid);
[[nodiscard]] Result<CoachMarks> parse_marks(std::string_view text, const MarkedRecording& recording,
                                             const std::string& place);

/// "impact must come after top, which is marked at 12.300 s".
[[nodiscard]] std::string order_words(const CoachMark& mark, const OutOfOrder& pair);

/// The UUID of a recording; fails with bad_input when it is none.
[[nodiscard]] Result<std::string> recording_uuid(const std::string& recording);

/// The marks beside a recording; none where there is no such file. Fails with bad_input as parse_marks does.
[[nodiscard]] Result<CoachMarks> read_marks(const std::string& recording);

/// Writes them, whole or not at all; where nothing is marked any more the file is taken away. Fails with
/// disk_failed, or bad_input when `recording` is none.
[[nodiscard]] Outcome write_marks(const std::string& recording, const CoachMarks& marks);

}  // namespace footing
