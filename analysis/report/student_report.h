#pragma once

#include <cstddef>
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/swing_length.h"
#include "analysis/distance/club_choice.h"
#include "analysis/progress/next_practice.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/report_form.h"
#include "analysis/report/report_words.h"
#include "analysis/swing/lesson_findings.h"
#include "analysis/swing/swing_set.h"

namespace footing {

/// A swing of the lessons that a student's report is about: what the rules read of it (the ratio of its tempo
/// follows from `tempo`), and what the coach says.
struct ReportedSwing : RuledSwing {
    std::size_t lesson = 0;   ///< place in StudentReport::lessons
    std::int64_t number = 0;  ///< within the lesson
    std::optional<Tempo> tempo;
    std::optional<double> rhythm_percent;  ///< match with the practice swings before it
    std::string wedge;                     ///< empty: not said
    std::optional<SwingLength> length;
    std::optional<double> carry_m;
    CoachSays coach = CoachSays::nothing;
    std::string note;
};

struct ReportedLesson {
    std::int64_t number = 0;
    std::string date;
    std::string setup;
    std::string note;
    std::vector<Fact> measured_by;  ///< plates, calibration, loss: a row each; empty without a recording
    std::string not_measured;       ///< why there is no recording, in a sentence; empty where there is one
};

/// The counted swings of a lesson laid over each other.
struct LaidSwings {
    std::size_t lesson = 0;  ///< place in StudentReport::lessons
    LessonResult measured;   ///< without its trace
    SwingSet set;            ///< has a mean
};

/// So many lessons of a report are drawn so, the newest of those with a recording.
inline constexpr std::size_t most_laid = 6;

/// Where a shot of the distance chart was made.
struct ChartedShot {
    std::string date;
    std::int64_t lesson = 0;  ///< its number in the book
    std::int64_t swing = 0;
};

/// Which recordings are drawn swing by swing.
enum class EachSwing { of_newest, of_all };

/// A recording of the report's lessons with all that its swings are drawn from.
struct MeasuredLesson {
    std::size_t lesson = 0;  ///< place in StudentReport::lessons
    LessonResult result;
};

/// What the distance card says.
enum class CardKind {
    steps,    ///< every 5 yards or metres: which club
    numbers,  ///< every wedge and length: how far
};

/// Everything that a student's report is drawn from, as plain data. Lessons oldest first.
struct StudentReport {
    std::string name;
    Hand hand = Hand::right;
    DistanceUnit unit = DistanceUnit::yards;
    std::string consent;  ///< to be recorded, in words
    std::string period;   ///< "Lesson of 2026-05-14", "Lessons from … to …"
    /// Where the book knows later lessons: the last day of these. Distances, card, progress and advice are
    /// then as they were on that day; empty: as they are today.
    std::string as_of;
    ReportForm form = ReportForm::full;
    double sure = usual_certainty;
    std::vector<ReportedLesson> lessons;
    std::vector<ReportedSwing> swings;     ///< lesson by lesson
    std::optional<LessonResult> measured;  ///< the newest of these lessons that has a recording
    std::size_t measured_lesson = 0;       ///< its place in `lessons`
    std::vector<MeasuredLesson> earlier;   ///< those before it, newest first, where all are to be drawn
    std::vector<LaidSwings> laid;  ///< of the newest lessons, oldest first; with `measured` among them

    DistanceChart chart;  ///< of all shots in the book
    std::map<std::int64_t, ChartedShot> charted;
    DistanceOptions limits;
    CardKind card_kind = CardKind::steps;
    std::vector<ProgressSeries> progress;  ///< over all lessons in the book
    std::vector<std::string> progress_dates;
    std::vector<std::string> weight_words;  ///< whether the weight explains the miss
    std::vector<Advice> advice;
};

/// The swings that a report speaks of, lesson by lesson: the shots that the coach did not set aside, or all
/// swings not set aside of a lesson with fewer than fewest_counted_shots such shots measured. One rule for
/// page one, the lessons in a row, the swings laid over each other, and progress_of().
[[nodiscard]] std::vector<const ReportedSwing*> counted_swings(const StudentReport& report);

/// What the rules say of these swings (analysis/swing/lesson_findings.h).
[[nodiscard]] LessonFindings findings_of(const std::vector<const ReportedSwing*>& swings, double sure);

/// What the newest lesson that tells enough asks to change, in words for the student; absent where none does.
[[nodiscard]] std::optional<std::vector<Advice>> changes_asked(const StudentReport& report);

/// The band that most of these swings were judged against.
[[nodiscard]] TargetBand usual_band(const std::vector<const ReportedSwing*>& swings);

/// "left" for a right-handed golfer.
[[nodiscard]] const char* lead_foot(Hand hand);

/// Whether the card for the bag has shots on it; else it is one to be filled in by hand.
[[nodiscard]] bool has_card(const StudentReport& report);
/// The distance card; empty where no wedge in the bag has a number. Every 5 of the student's unit, or every
/// 10 or 20 where that would be more rows than a card holds.
[[nodiscard]] std::vector<ClubChoice> card_of(const StudentReport& report);
inline constexpr std::size_t most_card_rows = 24;

}  // namespace footing
