#pragma once

#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"

namespace footing {

/// The words that the paper and the HTML report share, so that they cannot say different things. Free text in
/// it is as it came; painters make it harmless for their own place.

struct Fact {
    std::string name;
    std::string value;
};

/// "the device restarted once, away for 4.6 s": gaps of which no frame is counted as lost, since a device
/// that restarts cannot say how many it left out. Empty where there is none.
[[nodiscard]] std::string restart_words(const LessonFacts& facts);

/// The student's name, or the file, without its folders, where there is none.
[[nodiscard]] std::string report_title(const LessonResult& lesson);

/// Who, when, with what, how well: one row each, "not known" where it is not.
[[nodiscard]] std::vector<Fact> lesson_facts(const LessonResult& lesson);

/// "shot, by the trigger"; "unknown" where nothing told.
[[nodiscard]] std::string kind_words(const Swing& swing);

/// Where shots are told from other swings.
enum class ShotsTold { by_recording, by_book };
/// What a report calls a shot, and which swings it speaks of, in a sentence.
[[nodiscard]] std::string shot_words(ShotsTold told);

/// "impact was measured or marked in 3 swings and estimated from the load in 4 swings, as the strikes of 3
/// swings teach": how the impacts of a recording are known.
[[nodiscard]] std::string impact_words(const std::vector<Swing>& swings);

/// "Swing 3 · shot".
[[nodiscard]] std::string swing_title(const Swing& swing);

/// The numbers of one swing that its figure does not carry; only what is known.
[[nodiscard]] std::vector<Fact> swing_facts(const Swing& swing, Hand hand);

/// How the pictures and numbers are meant, one paragraph each.
[[nodiscard]] std::vector<std::string> how_to_read(const LessonResult& lesson);

/// What can hurt, one paragraph each.
[[nodiscard]] const std::vector<std::string>& cautions();

/// The lesson's own start as ISO 8601 ("2026-05-14T10:20:44+02:00"); "1970-01-01T00:00:00Z" where it is not
/// known.
[[nodiscard]] std::string iso_start(const LessonResult& lesson);

}  // namespace footing
