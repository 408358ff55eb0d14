#include "viewer/panels/overview.h"

#include <doctest/doctest.h>

#include "tests/support/lesson_sample.h"

using namespace footing;

namespace {

LoadTrace ramp(std::size_t samples) {
    LoadTrace trace;
    for (std::size_t i = 0; i < samples; ++i) {
        trace.time_s.push_back(static_cast<double>(i));
        trace.total_n.push_back(static_cast<double>(i));
        trace.left_n.push_back(i % 2 == 0 ? 1.0 : unknown);
    }
    return trace;
}

}  // namespace

TEST_CASE("each column holds the least and the greatest of its part") {
    const Overview overview = make_overview(ramp(1000), 10);
    REQUIRE(overview.columns.size() == 10);
    for (std::size_t i = 0; i < 10; ++i) {
        CHECK(overview.columns[i].least_n == static_cast<float>(100 * i));
        CHECK(overview.columns[i].greatest_n == static_cast<float>(100 * i + 99));
    }
    CHECK(overview.greatest_n == 999.0F);
    CHECK(overview.samples_with_feet == 500);
}

TEST_CASE("a single spike is never lost between columns") {
    LoadTrace trace = ramp(100'003);
    for (double& load : trace.total_n) load = 1.0;
    trace.total_n[77'777] = 500.0;
    CHECK(make_overview(trace, 1000).greatest_n == 500.0F);
}

TEST_CASE("a short trace has as many columns as samples, an empty one none") {
    CHECK(make_overview(ramp(3), 10).columns.size() == 3);
    CHECK(make_overview(LoadTrace{}, 10).columns.empty());
}
