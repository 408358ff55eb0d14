#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "analysis/progress/next_practice.h"
#include "analysis/swing/lesson_findings.h"
#include "viewer/book/student_chart.h"

namespace footing {

/// What is asked of a student's lessons.
struct ProgressRequest {
    DistanceOptions limits;
    DistanceUnit unit = DistanceUnit::yards;  ///< of sentences
    std::optional<SwingLength> length;        ///< swings of this length only
    double sure = usual_certainty;            ///< of verdicts against the band
    std::string until;                        ///< lessons up to this date, included; empty: all
};

/// How a student has come along. A lesson in the series is a place in `lessons`.
struct StudentProgress {
    Student student;
    std::vector<LessonLine> lessons;  ///< oldest first
    std::array<ProgressSeries, 5> series;
    WeightEffects effects;
    LessonFindings newest;           ///< of newest_lesson
    std::int64_t newest_lesson = 0;  ///< the newest that tells enough; 0: none does
    std::vector<Advice> advice;
    std::vector<std::int64_t> without_finish;  ///< recorded, but in the book before it kept the finish

    [[nodiscard]] std::vector<std::string> dates() const;
};

/// Of the shots that the coach did not set aside; in a lesson with fewer than fewest_counted_shots of them
/// measured, of all its swings that he did not. Carries as the distance chart keeps them. Fails as Book does.
[[nodiscard]] Result<StudentProgress> progress_of(Book& book, const std::string& who,
                                                  const ProgressRequest& request);

/// Where the newest lesson came into the book before that kept how swings end: that nothing is said of it,
/// and what to do; else empty.
[[nodiscard]] std::string finish_not_known_words(const StudentProgress& progress);

}  // namespace footing
