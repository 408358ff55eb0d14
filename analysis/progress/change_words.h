#pragma once

#include <string>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/progress/next_practice.h"
#include "analysis/swing/lesson_findings.h"

namespace footing {

/// What a lesson's swings ask to change, in one sentence for the coach. `of_lesson` stands behind the swings
/// where it is not plain whose they are: " of the newest lesson".
[[nodiscard]] std::string change_words(const LessonFindings& findings, AskedChange change,
                                       const std::string& of_lesson = "");

/// The same for the student, whose feet are the left and the right one, without a term that needs explaining.
[[nodiscard]] std::string change_words_for_student(const LessonFindings& findings, AskedChange change,
                                                   Hand hand, const std::string& of_lesson = "");

/// All that there is to change, as advice; for the student, only the first says of which lesson.
[[nodiscard]] std::vector<Advice> advice_of_lesson(const LessonFindings& findings,
                                                   const std::string& of_lesson);
[[nodiscard]] std::vector<Advice> advice_for_student(const LessonFindings& findings, Hand hand,
                                                     const std::string& of_lesson);

/// "5 of 6 shots".
[[nodiscard]] std::string of_swings(std::size_t some, std::size_t all, const LessonFindings& findings);

/// "backswing to downswing was 2.9 : 1 on average, from …"; `of_lesson` follows how many swings it is of.
[[nodiscard]] std::string tempo_facts_words(const LessonFindings& findings,
                                            const std::string& of_lesson = "");

}  // namespace footing
