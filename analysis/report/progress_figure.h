#pragma once

#include <span>
#include <string>

#include "analysis/progress/progress.h"
#include "analysis/report/figure.h"

namespace footing {

/// A student's lessons: a strip for each measure that is known of two lessons or more, lessons across by
/// their order. Dots are lessons; the tint is where lessons like the first ones are to be expected and the
/// bold line the moving average of a long row (docs/formulas.md, F58). `dates` by place of the lesson. As
/// high as it needs to be; without any strip it says so.
[[nodiscard]] Figure progress_figure(const std::string& title, std::span<const ProgressSeries> series,
                                     std::span<const std::string> dates, double width);

/// The same without a title, for a page that has one: its strips share the height, as far as that helps
/// the eye.
[[nodiscard]] Figure progress_figure(std::span<const ProgressSeries> series,
                                     std::span<const std::string> dates, double width, double height);

/// Whether any strip is there to draw.
[[nodiscard]] bool has_progress_figure(std::span<const ProgressSeries> series);

}  // namespace footing
