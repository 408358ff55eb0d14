#include "viewer/panels/overview.h"

#include <algorithm>

namespace footing {

Overview make_overview(const LoadTrace& trace, std::size_t columns) {
    Overview overview;
    const std::size_t samples = trace.total_n.size();
    const std::size_t count = std::min(columns, samples);
    overview.columns.reserve(count);
    for (std::size_t column = 0; column < count; ++column) {
        const auto from = trace.total_n.begin() + static_cast<std::ptrdiff_t>(column * samples / count);
        const auto to = trace.total_n.begin() + static_cast<std::ptrdiff_t>((column + 1) * samples / count);
        const auto [least, greatest] = std::minmax_element(from, to);
        overview.columns.push_back({static_cast<float>(*least), static_cast<float>(*greatest)});
        overview.greatest_n = std::max(overview.greatest_n, overview.columns.back().greatest_n);
    }
    overview.samples_with_feet =
        static_cast<std::size_t>(std::count_if(trace.left_n.begin(), trace.left_n.end(), known));
    return overview;
}

}  // namespace footing
