// Tables and layouts of bad will: whatever the bytes, the import gives frames of the promised shape or a
// problem.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "acquisition/import/csv_document.h"
#include "acquisition/import/layout_file.h"

namespace {

using namespace footing;

void require(bool holds) {
    if (!holds) std::abort();
}

void read_all(std::string_view text, std::optional<DeviceDescription> layout) {
    const auto checked = CsvDocument::check(text, "fuzz.csv", std::move(layout));
    if (!checked) {
        require(checked.problem().kind == ProblemKind::bad_input && !checked.problem().what.empty());
        return;
    }
    const CsvDocument& document = checked.value();
    std::uint64_t frames = 0;
    FrameStamp last;
    const Outcome done = document.each_block([&](const FrameBlock& block) -> Outcome {
        require(block.values_per_frame == values_per_frame(document.device().layout));
        std::visit([&](const auto& all) { require(all.size() == block.size() * block.values_per_frame); },
                   block.values);
        for (const FrameStamp& stamp : block.stamps) {
            if (frames++ > 0)
                require(stamp.counter > last.counter && stamp.device_time_us > last.device_time_us);
            last = stamp;
        }
        // A few lines can stand for an hour of empty frames; a fuzzer need not see them all.
        if (frames > 10000) return Problem{ProblemKind::bad_input, "", "enough", ""};
        return Done{};
    });
    require(!done || frames == document.frames());
}

DeviceDescription cells() {
    DeviceDescription layout;
    layout.newtons_per_count = 0.5;
    layout.layout.plates = {{"left", {}, {{-0.1, 0.0}, {0.1, 0.0}}}, {"right", {}, {{0.0, 0.0}}}};
    return layout;
}

DeviceDescription grid() {
    DeviceDescription layout;
    layout.rate_hz = 20.0;
    layout.layout.kind = FrameKind::grid;
    layout.layout.grid = Grid{3, 4, 0.01, 0.01, {}};
    return layout;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    if (size == 0) return 0;
    const std::string_view text(reinterpret_cast<const char*>(data) + 1, size - 1);
    switch (data[0] % 4) {
        case 0:
            read_all(text, std::nullopt);
            break;
        case 1:
            read_all(text, cells());
            break;
        case 2:
            read_all(text, grid());
            break;
        case 3:
            if (const auto layout = parse_layout(text, "fuzz.json"); !layout) {
                require(layout.problem().kind == ProblemKind::bad_input);
            }
            break;
    }
    return 0;
}
