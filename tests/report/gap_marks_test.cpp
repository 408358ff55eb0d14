#include "analysis/report/gap_marks.h"

#include <doctest/doctest.h>

#include <vector>

using namespace footing;

TEST_CASE("many short gaps are ticks with what lies between them free; a wide one is shaded") {
    std::vector<TimeSpan> gaps;
    for (int i = 0; i < 30; ++i) gaps.push_back({0.1 * i, 0.1 * i + 0.001});
    gaps.push_back({5.0, 5.5});
    const GapMarks marks = gap_marks(gaps, {0.0, 10.0}, 1000.0, 3.0);
    REQUIRE(marks.marks.size() == 31);
    CHECK(marks.short_gaps == 30);
    double ticked_px = 0.0;
    for (std::size_t i = 0; i < 30; ++i) {
        CHECK(marks.marks[i].look == GapLook::tick);
        ticked_px += marks.marks[i].to_px - marks.marks[i].from_px;
    }
    CHECK(ticked_px == doctest::Approx(30.0));
    CHECK(marks.marks[30].look == GapLook::shaded);
    CHECK(marks.marks[30].from_px == doctest::Approx(500.0));
    CHECK(marks.marks[30].to_px == doctest::Approx(550.0));
    CHECK(short_gap_words(marks.short_gaps) == "30 short gaps");
}

TEST_CASE("ticks that would touch are one, and only what is shown counts") {
    const std::vector<TimeSpan> gaps{{-1.0, -0.5}, {1.0, 1.001}, {1.015, 1.016}, {2.0, 2.001}, {11.0, 12.0}};
    const GapMarks marks = gap_marks(gaps, {0.0, 10.0}, 1000.0, 3.0);
    CHECK(marks.marks.size() == 2);
    CHECK(marks.short_gaps == 3);
    CHECK(gap_marks(gaps, {0.0, 0.0}, 1000.0, 3.0).marks.empty());
}
