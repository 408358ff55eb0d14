#pragma once

#include <string>
#include <vector>

#include "analysis/report/student_report.h"

namespace footing {

/// One of the three things of page one: what it is about, its one number, and what it says.
struct PlainThing {
    std::string name;                    ///< "Your set-up weight"
    std::string number;                  ///< "74 %"; empty where it is not known
    std::vector<std::string> sentences;  ///< for the student, without a term that needs explaining
};

/// Sentences follow the rules of plain_words.h (1 for the set-up, 3 for the rhythm). Where too little is
/// known they say what is missing and how to come by it.
[[nodiscard]] PlainThing set_up_thing(const StudentReport& report);
[[nodiscard]] PlainThing rhythm_thing(const StudentReport& report);
[[nodiscard]] PlainThing distances_thing(const StudentReport& report);

/// What stands above the card, up to how it is cut out: "For your bag: ".
[[nodiscard]] std::string card_words(const StudentReport& report);

/// What to practise, a sentence each; one that says so where the numbers bear no advice.
[[nodiscard]] std::vector<std::string> practice_sentences(const StudentReport& report);

inline constexpr std::size_t most_wedge_name = 24;  ///< characters
/// The sentence with a capital where it begins with a small letter.
[[nodiscard]] std::string begun_large(const std::string& sentence);

/// "54 half"; the wedge's name cut where it is very long.
[[nodiscard]] std::string cell_words(const DistanceChart& chart, std::size_t cell);

/// The shots set aside, and those kept against the test: which, when, how far, why.
struct SetAsideShot {
    std::string club;
    std::string carry;
    std::string date;
    std::string where;  ///< "lesson 3, swing 5"
    std::string why;    ///< "set aside: …" or "kept: …"
};
[[nodiscard]] std::vector<SetAsideShot> shots_with_reason(const StudentReport& report);

/// What does not fit together in the chart, a sentence each; old numbers in one.
[[nodiscard]] std::vector<std::string> chart_sentences(const StudentReport& report);

/// What has changed over the lessons and whether the weight explains the miss, a sentence each.
[[nodiscard]] std::vector<std::string> progress_sentences(const StudentReport& report);

/// What the picture of progress shows, to stand above it.
[[nodiscard]] std::string progress_picture_words(const StudentReport& report);
/// Which lesson's recording the facts below are of. Needs a measured one.
[[nodiscard]] std::string recording_words(const StudentReport& report);
/// What lessons_figure() shows, to stand above it.
[[nodiscard]] std::string lessons_words();
/// "Lesson of 2026-05-14 · right-handed", and as of when the distances are where the book goes on.
[[nodiscard]] std::string period_words(const StudentReport& report);
/// Which of the lessons the swings drawn one by one are from. Needs a measured one.
[[nodiscard]] std::string each_swing_words(const StudentReport& report);
/// The same of a recording before the newest.
[[nodiscard]] std::string each_swing_words(const StudentReport& report, std::size_t lesson);
/// Places of a measured lesson's swings that the coach set aside: they are not laid over the others.
[[nodiscard]] std::vector<std::size_t> set_aside_places(const StudentReport& report, std::size_t lesson,
                                                        const LessonResult& measured);
/// "54 half · 62 yd · tempo 2.9 : 1", "practice swing · tempo 3.1 : 1": what stands beside a swing's number.
[[nodiscard]] std::string swing_line(const StudentReport& report, const ReportedSwing& swing);
/// The reported swing that a measured one of a lesson is; nullptr: none.
[[nodiscard]] const ReportedSwing* reported(const StudentReport& report, std::size_t lesson,
                                            const Swing& swing);

/// How the pictures are meant, for a student; and which numbers are estimates.
[[nodiscard]] std::vector<std::string> how_it_was_measured(const StudentReport& report);

/// What can hurt, and what may not be done without asking.
[[nodiscard]] std::vector<std::string> student_cautions(const StudentReport& report);

}  // namespace footing
