#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>
#include <vector>

#include "acquisition/import/csv_import.h"
#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"

// The recordings that come with the program (recordings/README.md says what is in them).

using namespace footing;

namespace {

const std::filesystem::path samples = std::filesystem::path(FOOTING_SOURCE_DIR) / "recordings";

}  // namespace

TEST_CASE("the sample table imports, and its share is the one written beside it") {
    const test::ScratchFolder folder;
    const auto summary = import_csv(samples / "half_swings.csv", folder / "swings.h5", {});
    if (!summary) FAIL(sentence(summary.problem()));
    CHECK(summary.value().frames == 4649);
    CHECK(summary.value().rate_hz == 100.0);
    CHECK(summary.value().gaps == 0);
    CHECK(summary.value().notes.empty());
    auto reader = RecordingReader::open(folder / "swings.h5");
    REQUIRE(reader.ok());
    const auto block = reader.value().read(0, 4649);
    REQUIRE(block.ok());
    const auto& values = std::get<std::vector<double>>(block.value().values);
    const auto mean_share = [&](double from_s, double to_s) {
        double sum = 0.0;
        int count = 0;
        for (auto i = static_cast<std::size_t>(from_s * 100.0); i < static_cast<std::size_t>(to_s * 100.0);
             ++i, ++count) {
            sum += values[i * 12 + 2] / (values[i * 12 + 2] + values[i * 12 + 8]);
        }
        return sum / count;
    };
    // Address: half a second, ending 0.1 s before the takeaway at 24.06 and 38.31 s.
    CHECK(std::abs(mean_share(23.46, 23.96) - 0.740) < 0.001);
    CHECK(std::abs(mean_share(37.71, 38.21) - 0.742) < 0.001);
    std::vector<double> strikes;
    for (std::size_t i = 0; i < 4649; ++i) {
        if (block.value().stamps[i].inputs & trigger_bit) strikes.push_back(static_cast<double>(i) / 100.0);
    }
    REQUIRE(strikes.size() == 2);
    CHECK(std::abs(strikes[0] - 25.00) < 0.011);
    CHECK(std::abs(strikes[1] - 39.28) < 0.011);
}

TEST_CASE("the sample recordings open and are whole") {
    struct Sample {
        const char* name;
        std::uint64_t frames;
        FrameKind kind;
        Hand hand;
    };
    for (const Sample& sample : {Sample{"left_handed_plates.h5", 6764, FrameKind::cells, Hand::left},
                                 Sample{"mat.h5", 2034, FrameKind::grid, Hand::right}}) {
        CAPTURE(sample.name);
        auto reader = RecordingReader::open(samples / sample.name);
        if (!reader) FAIL(sentence(reader.problem()));
        CHECK(reader.value().frame_count() == sample.frames);
        CHECK(reader.value().info().device.layout.kind == sample.kind);
        CHECK(reader.value().info().hand == sample.hand);
        CHECK(reader.value().info().gaps.empty());
        const RecordingCheck check = reader.value().check();
        CHECK(check.damaged.empty());
    }
}
