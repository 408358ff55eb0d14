#pragma once

#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"
#include "analysis/swing/coach_marks.h"

namespace footing {

/// What the coach says that a caught swing was.
enum class CoachWord { not_said, shot, practice, not_a_swing };

/// What the coach says of one swing.
struct SwingLabel {
    CoachWord word = CoachWord::not_said;
    std::string club;               ///< as the coach names it: "54°"; may be empty
    std::string length;             ///< "half", "three-quarter", "full"; may be empty
    std::optional<double> carry_m;  ///< how far the ball flew
    friend bool operator==(const SwingLabel&, const SwingLabel&) = default;
};

/// The file beside a recording that keeps its labels.
[[nodiscard]] std::string labels_file(const std::string& recording);

/// Writes the labels of a lesson's swings, one a swing, told apart by when they were. Safely (R14). Fails
/// with disk_failed.
[[nodiscard]] Outcome write_labels(const std::string& recording, const std::vector<Swing>& swings,
                                   const std::vector<SwingLabel>& labels);

/// What the labels say of kinds, as marks of the closed recording: so that its analysis and reports follow
/// them.
[[nodiscard]] CoachMarks marks_of_labels(const std::vector<Swing>& swings,
                                         const std::vector<SwingLabel>& labels);

/// The labels of `swings`, one each, empty where none was kept for that moment. No file: all empty. Fails
/// with bad_input when the file is there and cannot be understood.
[[nodiscard]] Result<std::vector<SwingLabel>> read_labels(const std::string& recording,
                                                          const std::vector<Swing>& swings);

}  // namespace footing
