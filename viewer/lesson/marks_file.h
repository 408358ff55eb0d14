#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "analysis/swing/coach_marks.h"
#include "viewer/lesson/marks_text.h"

namespace footing {

/// The coach's marks lie beside the recording, which never changes: FILE.h5.marks.json (marks_text.h).
[[nodiscard]] std::string marks_path(const std::string& recording);

/// The UUID of a recording; fails with bad_input when it is none.
[[nodiscard]] Result<std::string> recording_uuid(const std::string& recording);

/// The marks beside a recording; none where there is no such file. Fails with bad_input as parse_marks does.
[[nodiscard]] Result<CoachMarks> read_marks(const std::string& recording);

/// Writes them, whole or not at all; where nothing is marked any more the file is taken away. Fails with
/// disk_failed, or bad_input when `recording` is none.
[[nodiscard]] Outcome write_marks(const std::string& recording, const CoachMarks& marks);

}  // namespace footing
