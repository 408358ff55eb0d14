#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"
#include "analysis/swing/lesson_findings.h"

namespace footing {

/// What the numbers of a lesson say, in words for the coach. Every sentence follows from a rule of
/// lesson_findings.h, which the student's report and what to practise follow too; where the data do not bear
/// a sentence, there is none.
///
/// Counted are the shots; where there are fewer than three of them, all swings. Under three swings: only
/// `notes`. `notes` also name frames lost within a swing, and what makes every ± wider.
struct PlainWords {
    std::vector<std::string> keep;
    std::vector<std::string> change;
    std::vector<std::string> notes;
};

[[nodiscard]] PlainWords plain_words(const LessonResult& lesson);

/// The one figure of the lesson: of how many swings (counted as above) the set-up was inside the band.
struct Headline {
    std::size_t inside = 0;
    std::size_t counted = 0;
    std::string of_what;  ///< "shots set up inside the band, 70 to 80 %; 2 too close to call"
};

/// Absent when no swing has a share at address.
[[nodiscard]] std::optional<Headline> headline(const LessonResult& lesson);

/// That no swing was found; and where the other hand would have some, that the hand may be wrong.
[[nodiscard]] std::string no_swing_words(const LessonResult& lesson);

/// That the other hand would have clearly more swings, so that the hand may be wrong; empty where not.
[[nodiscard]] std::string other_hand_words(const LessonResult& lesson);

/// Where no swing has a share: why, in one line of its own; empty where one has.
[[nodiscard]] std::string no_share_words(const LessonResult& lesson);

/// Where the trigger spoke outside every swing, a line of its own; empty where it did not.
[[nodiscard]] std::string stray_strike_words(const LessonResult& lesson);

/// The swings that the words are about: the shots, or all swings where there are fewer than three shots.
[[nodiscard]] std::vector<const Swing*> counted_swings(const LessonResult& lesson);

}  // namespace footing
