#pragma once

#include "analysis/report/figure.h"

namespace footing {

/// The four verdict marks with their words, in as many rows as the width asks for.
[[nodiscard]] Figure legend_figure(double width);

}  // namespace footing
