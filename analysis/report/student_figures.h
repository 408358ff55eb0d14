#pragma once

#include "analysis/report/figure.h"
#include "analysis/report/student_report.h"

namespace footing {

/// The three pictures of page one, each about one thing (student_words.h). Made for 320 to 760 px width and
/// 150 to 260 px height. Without data: an empty figure (no shapes), for the page to leave out.

/// The two feet, the rule under them, and under the rule a mark for each swing that counts, hung where its
/// share at address was; the band is the upright stripe. Of more than most_single swings
/// in several lessons, a mark a lesson.
[[nodiscard]] Figure set_up_figure(const StudentReport& report, double width, double height);

/// A column a swing, time running down: the backswing hollow, the downswing full, met at the top.
[[nodiscard]] Figure rhythm_figure(const StudentReport& report, double width, double height);

/// A row a wedge: each length's mean carry with its number, and the spread as a bar.
[[nodiscard]] Figure wedges_figure(const StudentReport& report, double width, double height);

inline constexpr std::size_t most_single = 40;

/// Every wedge at every length: each shot a tick, those set aside hollow, the spread a bar, the mean a
/// diamond, and beside it how well it is known. As high as it needs to be.
[[nodiscard]] Figure distance_chart_figure(const StudentReport& report, double width);

/// A row a lesson: the mark of each swing at its share at address, on the band.
[[nodiscard]] Figure lessons_figure(const StudentReport& report, double width);

/// The card for the bag: 85.6 x 54 mm (ISO/IEC 7810, ID-1), its edge dashed for the scissors. What is no
/// number yet has a line to be filled in by hand.
[[nodiscard]] Figure card_figure(const StudentReport& report);
inline constexpr double card_width = 323.5;
inline constexpr double card_height = 204.1;

}  // namespace footing
