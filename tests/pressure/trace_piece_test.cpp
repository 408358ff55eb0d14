#include "analysis/pressure/trace_piece.h"

#include <doctest/doctest.h>

using namespace footing;

namespace {

LoadTrace ten_samples() {
    LoadTrace trace;
    trace.rate_hz = 10.0;
    for (int i = 0; i < 10; ++i) {
        trace.time_s.push_back(0.1 * i);
        for (auto* column : {&trace.total_n, &trace.left_n, &trace.right_n, &trace.cop_x_m, &trace.cop_y_m,
                             &trace.left_x_m, &trace.left_y_m, &trace.right_x_m, &trace.right_y_m})
            column->push_back(i);
        trace.trigger.push_back(0);
        trace.bridged.push_back(0);
    }
    return trace;
}

}  // namespace

TEST_CASE("a stretch keeps its samples and tells their times by the recording") {
    const LoadTrace stretch = trace_piece(ten_samples(), 100.0, 100.25, 100.65);
    REQUIRE(stretch.size() == 4);
    CHECK(stretch.time_s.front() == doctest::Approx(100.3));
    CHECK(stretch.total_n == std::vector<double>{3, 4, 5, 6});
    CHECK(stretch.trigger.size() == 4);
    CHECK(trace_piece(ten_samples(), 0.0, 5.0, 6.0).size() == 0);
}

TEST_CASE("what a mat shows is kept once an instant, stretch by stretch") {
    LoadTrace trace = ten_samples();
    trace.mat.resize(trace.size());
    LoadTrace all;
    append_piece(all, trace_piece(trace, 0.0, 0.05, 0.45));
    CHECK(all.mat.size() == all.size());
    append_piece(all, trace_piece(trace, 0.0, 0.35, 0.75));
    CHECK(all.mat.size() == all.size());
}

TEST_CASE("stretches that overlap are put together without a sample twice") {
    LoadTrace all;
    append_piece(all, trace_piece(ten_samples(), 0.0, 0.05, 0.45));
    append_piece(all, trace_piece(ten_samples(), 0.0, 0.35, 0.75));
    CHECK(all.rate_hz == 10.0);
    CHECK(all.total_n == std::vector<double>{1, 2, 3, 4, 5, 6, 7});
    CHECK(all.right_y_m.size() == all.size());
}
