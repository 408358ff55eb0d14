#pragma once

#include <string>

#include "analysis/report/figure.h"

namespace footing {

/// The four verdict marks with their words, in as many rows as the width asks for.
[[nodiscard]] Figure legend_figure(double width);

/// Why a mark above the band is no fault at the finish; to stand beside the marks.
[[nodiscard]] std::string finish_mark_words();

}  // namespace footing
