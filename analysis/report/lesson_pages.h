#pragma once

#include <span>
#include <string>
#include <vector>

#include "analysis/report/lesson_result.h"
#include "analysis/report/page_flow.h"
#include "analysis/report/report_words.h"

namespace footing {

/// Parts that the paper reports share: what goes onto a page below what is there already.

/// Of a heading and the space under it.
inline constexpr double heading_height = 48.0;

/// Names on the left, values on the right.
void draw_facts(PageFlow& flow, std::span<const Fact> facts);
[[nodiscard]] double facts_height(PageFlow& flow, std::span<const Fact> facts);

/// All swings at a glance with the legend under them, on one page as long as they are few enough; nothing
/// where no share is known.
void draw_overview(PageFlow& flow, const LessonResult& lesson);
/// The least that the marks and the first of its pictures need.
[[nodiscard]] double overview_height(const PageFlow& flow, const LessonResult& lesson);

/// A row a swing: shares with their uncertainty and verdict, tempo. Its head again on each page. Nothing
/// where no share is known.
void draw_swing_table(PageFlow& flow, const LessonResult& lesson);

/// The counted swings laid over each other, without those at the places left out; nothing for fewer than
/// three.
void draw_together(PageFlow& flow, const LessonResult& lesson, std::span<const std::size_t> left_out = {});

/// "Take care" with its heading, all on one page.
void draw_cautions(PageFlow& flow, const std::vector<std::string>& sentences);
[[nodiscard]] double cautions_height(const PageFlow& flow, const std::vector<std::string>& sentences);

}  // namespace footing
