#include "viewer/command_line/band_option.h"

#include <charconv>

namespace footing {

Result<TargetBand> parse_band(const std::string& text) {
    const Problem wrong{ProblemKind::command_line, "--band",
                        "\"" + text + "\" is not a band of lead share in per cent",
                        "write two rising numbers from 0 to 100, such as 70:80"};
    const char* const end = text.data() + text.size();
    double low = 0.0;
    double high = 0.0;
    const auto first = std::from_chars(text.data(), end, low);
    if (first.ec != std::errc() || first.ptr == end || *first.ptr != ':') return wrong;
    const auto second = std::from_chars(first.ptr + 1, end, high);
    if (second.ec != std::errc() || second.ptr != end) return wrong;
    // Nobody stands with under 1 % on one foot: 0.7:0.8 are shares, not per cent.
    if (!(low >= 0.0 && low < high && high > 1.0 && high <= 100.0)) return wrong;
    return TargetBand{low / 100.0, high / 100.0};
}

}  // namespace footing
