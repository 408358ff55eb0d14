#pragma once

#include <optional>
#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"
#include "analysis/report/text_table.h"
#include "analysis/statistics/repeatability.h"
#include "analysis/swing/swing_set.h"

namespace footing {

/// One lesson in a comparison: its swings of one kind, and what is said of them.
struct ComparedLesson {
    std::string file;
    std::vector<std::size_t> swing_indices;  ///< 1-based, of the swings in the set
    std::vector<std::size_t> all_indices;    ///< of all swings of the lesson, by place
    SwingSet set;
};
[[nodiscard]] ComparedLesson compared_lesson(const LessonResult& lesson, SetKind kind);

/// "6 shots", "1 practice swing", "8 swings of any kind".
[[nodiscard]] std::string set_size_words(const ComparedLesson& lesson);

/// Lessons with their swings of `kind`. `counted` is decided once for all of them, so that no shots are
/// compared with practice swings: the shots where every lesson has three or more of them, else all swings.
class LessonsToCompare {
  public:
    explicit LessonsToCompare(SetKind kind) : kind_(kind) {}
    /// The lesson is not kept.
    void add(const LessonResult& lesson);
    [[nodiscard]] const std::vector<ComparedLesson>& lessons() const;

  private:
    SetKind kind_;
    bool shots_everywhere_ = true;
    std::vector<ComparedLesson> lessons_;      // of the kind asked for; for `counted`, the shots
    std::vector<ComparedLesson> all_instead_;  // for `counted`: all swings
};

/// From one lesson to another, one entry a ComparedNumber; absent where either has fewer than two values.
struct LessonChange {
    std::size_t from = 0;  ///< places in the comparison
    std::size_t to = 0;
    std::vector<std::optional<Change>> numbers;
};

/// Each lesson to the next, and with three or more the first to the last (docs/formulas.md, F47).
[[nodiscard]] std::vector<LessonChange> lesson_changes(const std::vector<ComparedLesson>& lessons);

/// How alike repeats of a number are within lessons against between them, ICC(1,1); one entry a
/// ComparedNumber.
[[nodiscard]] std::vector<std::optional<double>> lesson_correlations(
    const std::vector<ComparedLesson>& lessons);

/// The same swings seen twice (by two devices, or read twice): first less second, swing by swing, one entry a
/// ComparedNumber; absent where the two do not hold the same count of swings or know fewer than two pairs.
[[nodiscard]] std::vector<std::optional<LimitsOfAgreement>> swing_agreements(const ComparedLesson& first,
                                                                             const ComparedLesson& second);

enum class Pairing { lessons, same_swings };
/// For a terminal of `widest` columns.
[[nodiscard]] std::string comparison_table(const std::vector<ComparedLesson>& lessons, Pairing pairing,
                                           std::size_t widest = TableRoom::no_limit);
/// `{kind ("shots", "practice", "all"), lessons: [{file, swings, numbers {name: {n, mean, sd, typical_error,
/// detectable_change, drifts_from_swing}}, curve {from_impact_s, landmarks_s, mean, sd, band_low, band_high,
/// next_low, next_high}, odd [{swing, p, distance, from_impact_s}]}], changes [{from, to, numbers {name:
/// {difference, detectable, verdict}}}], icc {name}, agreement {name: {pairs, bias, sd, low, high}}}`. Units
/// as in analyse
/// --json. What is not known is absent.
[[nodiscard]] std::string comparison_json(const std::vector<ComparedLesson>& lessons, Pairing pairing);

}  // namespace footing
