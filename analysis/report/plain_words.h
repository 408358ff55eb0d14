#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"

namespace footing {

/// What the numbers of a lesson say, in words for the student. Every sentence follows from a stated rule;
/// where the data do not bear a sentence, there is none. The limits are common practice of coaching, no
/// source.
///
/// Counted are the shots; where there are fewer than three of them, all swings. Under three swings: only
/// `notes`.
///
/// 1. Address: inside the band in at least two of three: keep. Below (or above) in more than half: change.
///    Otherwise, too close to call in more than half: a note. Otherwise: a note that it varies.
///    Impact: surely not under the band's lower edge in at least two of three: keep (a swing that turns over
///    the lead leg may end up with more on it than the set-up had). Below in more than half: change.
///    Otherwise a note.
/// 2. Lowest share: surely under 50 % (value + 2u < 50 %) in any swing: change, with how many. In none
/// possibly under
///    50 % (value - 2u >= 50 % in all): keep.
/// 3. Tempo: spread (standard deviation over mean of the ratio) at most 10 %: keep; over 20 %: change;
/// between: a note.
/// 4. Finish: came to rest in all: keep; in fewer than two of three: change. Its weight surely
///    not under the band's lower edge in all (fully on the lead foot is what is wanted): keep. Below in more
///    than half: change.
/// 5. Frames lost within a swing: a note that names the swings.
struct PlainWords {
    std::vector<std::string> keep;
    std::vector<std::string> change;
    std::vector<std::string> notes;
};

inline constexpr std::size_t fewest_swings = 3;

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
