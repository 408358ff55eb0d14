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

TEST_CASE("progress asks both rules of the finish, and says where the book knows nothing of it") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto wedge = add_wedge(book, student, "54", 54.0);
    const auto lesson = add_lesson(book, student, "2026-05-14");
    for (int i = 0; i < 6; ++i) {
        BookSwing swing = swing_of(lesson, wedge, SwingLength::full, 70.0 + i);
        swing.origin = SwingOrigin::recording;
        swing.address_share = 0.75;
        swing.address_u = 0.002;
        need(book.add_swing(swing));
    }
    const auto asks = [&](PracticeRule rule) {
        const StudentProgress progress = need(progress_of(book, "Robin", {}));
        return std::ranges::find(progress.advice, rule, &Advice::rule) != progress.advice.end();
    };
    StudentProgress progress = need(progress_of(book, "Robin", {}));
    CHECK(progress.without_finish == std::vector<std::int64_t>{lesson});
    CHECK(finish_not_known_words(progress).find("footing book index FOLDER") != std::string::npos);
    CHECK_FALSE(asks(PracticeRule::finish_not_held));
    CHECK_FALSE(asks(PracticeRule::weight_at_finish));

    const auto put = [&](const BookFinish& finish) {
        for (BookSwing swing : need(book.swings(lesson))) {
            swing.finish = finish;
            need(book.change_swing(swing));
        }
    };
    put({false, std::nullopt, std::nullopt, std::nullopt, std::nullopt, std::nullopt});
    CHECK(asks(PracticeRule::finish_not_held));
    CHECK_FALSE(asks(PracticeRule::weight_at_finish));
    progress = need(progress_of(book, "Robin", {}));
    CHECK(progress.without_finish.empty());
    CHECK(finish_not_known_words(progress).empty());
    put({true, 0.55, 0.01, 1.2, HoldEnd::left, 0.003});
    CHECK_FALSE(asks(PracticeRule::finish_not_held));
    CHECK(asks(PracticeRule::weight_at_finish));
    put({true, 0.92, 0.01, 1.2, HoldEnd::left, 0.003});  // weight fully on the lead foot is wanted
    CHECK_FALSE(asks(PracticeRule::weight_at_finish));
}
