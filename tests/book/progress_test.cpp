#include <doctest/doctest.h>

#include <algorithm>

#include "tests/book/book_sample.h"
#include "viewer/book/student_progress.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("progress goes by each lesson's own band") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto wedge = add_wedge(book, student, "54", 54.0);
    const auto lesson = add_lesson(book, student, "2026-05-14");
    for (int i = 0; i < 12; ++i) {
        BookSwing swing = swing_of(lesson, wedge, SwingLength::full, 70.0 + 0.5 * i);
        swing.address_share = 0.75 + 0.001 * i;
        swing.address_u = 0.002;
        need(book.add_swing(swing));
    }
    const StudentProgress usual = need(progress_of(book, "Robin", {}));
    CHECK(usual.newest.set_up.counts.of(Verdict::inside) == 12);

    Lesson changed = need(book.lesson(lesson)).lesson;
    changed.bands[static_cast<std::size_t>(SwingLength::full)] = TargetBand{0.80, 0.90};
    need(book.change_lesson(changed));
    const StudentProgress asked = need(progress_of(book, "Robin", {}));
    CHECK(asked.newest.set_up.counts.of(Verdict::inside) == 0);
    CHECK(asked.newest.set_up.counts.of(Verdict::below) == 12);
    const auto told = std::find_if(asked.advice.begin(), asked.advice.end(), [](const Advice& advice) {
        return advice.rule == PracticeRule::weight_outside;
    });
    CHECK(told != asked.advice.end());
    // Lists tell the same bands as the lesson alone.
    const auto listed = need(book.lessons(std::nullopt)).front().lesson;
    CHECK(listed.bands[static_cast<std::size_t>(SwingLength::full)]->low == 0.80);
    CHECK_FALSE(listed.bands[static_cast<std::size_t>(SwingLength::half)]);
}
