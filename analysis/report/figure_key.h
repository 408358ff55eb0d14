#pragma once

#include <string>

#include "analysis/report/figure_kit.h"

namespace footing {

/// What the lines of a figure are, each beside a piece of it, in a row from the left edge.
class FigureKey {
  public:
    /// `y` is the height of the pieces' middle.
    FigureKey(FigureKit& kit, double y) : kit_(kit), y_(y) {}

    void stroke(const std::string& words, Ink ink, double width, LineStyle style = LineStyle::solid);
    /// The tint that shows where the true mean lies.
    void tint(const std::string& words);
    /// Room for a piece that is not drawn: the words say why.
    void no_piece(const std::string& words);

  private:
    FigureKit& kit_;
    double y_;
    double x_ = 8.0;
};

}  // namespace footing
