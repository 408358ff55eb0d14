#pragma once

#include <string>
#include <vector>

#include "analysis/distance/carry.h"
#include "analysis/report/figure.h"

namespace footing {

struct BookDesk;

/// A paragraph of what the page of progress says beside its figure, in order: what to practise, and whether
/// the weight explains the miss.
struct ProgressLine {
    enum class About { advice, other } about = About::other;
    std::string words;
    TextSize size = TextSize::text;
    TextWeight weight = TextWeight::regular;
    Ink ink = Ink::ink;
};

/// Of the chosen student; none where there is no lesson.
[[nodiscard]] std::vector<ProgressLine> progress_lines(const BookDesk& book);

}  // namespace footing
