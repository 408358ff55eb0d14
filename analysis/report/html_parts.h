#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <vector>

#include "analysis/report/figure.h"
#include "analysis/report/lesson_result.h"
#include "analysis/report/report_words.h"
#include "analysis/report/svg_painter.h"

namespace footing {

/// Parts that the HTML reports share. Free text goes in as it came and comes out escaped.

/// The page's own width and the phone's, px; each picture is drawn for both, and the style shows one.
inline constexpr double wide_px = 736.0;
inline constexpr double narrow_px = 344.0;

/// Up to and with <main>: language, title, a content-security policy that forbids scripts and requests,
/// style.
[[nodiscard]] std::string html_head(const std::string& title);
[[nodiscard]] std::string html_foot();

/// A picture in both widths; `draw` makes a figure of the width it is given.
template <typename Draw>
std::string html_picture(const Draw& draw) {
    return "<div class=\"wide\">" + svg_of(draw(wide_px), Theme::print, SvgPlace::within_html) + "</div>\n" +
           "<div class=\"narrow\">" + svg_of(draw(narrow_px), Theme::print, SvgPlace::within_html) +
           "</div>\n";
}

[[nodiscard]] std::string html_section(const std::string& name, const std::string& content);
[[nodiscard]] std::string html_list(const std::vector<std::string>& sentences);
[[nodiscard]] std::string html_facts(const std::vector<Fact>& facts);
enum class CellText { on_one_line, wrapped };
/// A table whose rows begin with their header; wide ones scroll by themselves, by keyboard too.
[[nodiscard]] std::string html_table(const std::string& caption, const std::vector<std::string>& names,
                                     const std::vector<std::vector<std::string>>& rows,
                                     CellText cells = CellText::on_one_line);
/// All swings at a glance.
[[nodiscard]] std::string html_overview(const LessonResult& lesson);
/// Shares with their uncertainty and verdict, and tempo: a row a swing; nothing where no share is known.
[[nodiscard]] std::string html_swing_table(const LessonResult& lesson);
/// The counted swings laid over each other, without those at the places left out; nothing for fewer than
/// three.
[[nodiscard]] std::string html_together(const LessonResult& lesson,
                                        std::span<const std::size_t> left_out = {});

}  // namespace footing
