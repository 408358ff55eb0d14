#include "acquisition/import/c3d_bridged.h"

#include <algorithm>
#include <array>

namespace footing {

namespace {

constexpr std::size_t flags_at_once = 65536;

/// What is not measured on both sides is no gap between frames.
void keep_inner(std::vector<BridgedSpan>& spans, std::uint64_t samples) {
    if (!spans.empty() && spans.front().first == 0) spans.erase(spans.begin());
    if (!spans.empty() && spans.back().past == samples) spans.pop_back();
}

}  // namespace

Result<std::vector<BridgedSpan>> bridged_spans(const C3dFile& file) {
    const std::vector<std::string> labels = file.parameters().texts("ANALOG", "LABELS");
    const auto label = std::ranges::find(labels, "BRIDGED");
    const auto place = static_cast<std::size_t>(label - labels.begin());
    std::vector<BridgedSpan> spans;
    if (label == labels.end() || place >= file.channel_count()) return spans;
    const std::array<std::size_t, 1> channel{place};
    for (std::uint64_t first = 0; first < file.sample_count(); first += flags_at_once) {
        const auto values = file.read(first, flags_at_once, channel);
        if (!values) return values.problem();
        for (std::size_t i = 0; i < values.value().size(); ++i) {
            const double value = values.value()[i];
            if (value == 0.0) continue;
            if (value != 1.0) return std::vector<BridgedSpan>{};  // a channel of somebody else's
            const std::uint64_t sample = first + i;
            if (spans.empty() || spans.back().past != sample) spans.push_back({sample, sample});
            spans.back().past = sample + 1;
        }
    }
    keep_inner(spans, file.sample_count());
    return spans;
}

}  // namespace footing
