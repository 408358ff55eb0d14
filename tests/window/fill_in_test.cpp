#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "tests/book/book_sample.h"
#include "tests/support/child_process.h"
#include "tests/support/wait_until.h"
#include "viewer/panels/lacking_carry.h"
#include "viewer/panels/view_action.h"
#include "viewer/window/book_keeper.h"

using namespace footing;
using namespace footing::test;

// A carry that lacks wedge or length, from the page of distances into the book and back.

namespace {

/// A student whose one lesson has a swing with a carry, and nothing said of it.
std::int64_t student_with_carry(const std::string& file) {
    Book book = new_book(file);
    const std::int64_t student = need(book.add_student(called("Robin Sample"), Namesakes::refused));
    BookSwing swing;
    swing.lesson = add_lesson(book, student, "2026-04-30");
    swing.shot.emplace();
    swing.shot->carry_m = 62.0;
    static_cast<void>(need(book.add_swing(swing)));
    return student;
}

}  // namespace

TEST_CASE(
    "wedge and length said on the page of distances stand in the book, and Ctrl Z takes them out again") {
    const ScratchFolder scratch;
    const std::string file = scratch / "a.book";
    const SystemClock clock;
    BookKeeper keeper(file, {}, clock, nullptr);
    ViewState state;
    state.book.emplace();
    state.book->student = student_with_carry(file);
    state.front = Front::book;
    const auto settled = [&] {
        static_cast<void>(keeper.step(state));
        return state.book->facts && state.book->facts->revision == state.book->revision;
    };
    const auto carry_out_all = [&](std::initializer_list<BookAction> actions) {
        for (const BookAction& action : actions) state = carry_out(std::move(state), action);
    };
    REQUIRE(becomes(settled));
    REQUIRE(state.book->facts->lacking.size() == 1);
    CHECK(state.book->facts->lacking[0].carry_m == 62.0);
    CHECK(state.book->facts->lacking[0].date == "2026-04-30");
    carry_out_all({OpenPage{BookPage::distances}, FillWedge{}, FillLength{}, FillLength{}, Confirm{}});
    CHECK(listed_lacking(state).empty());  // at once
    REQUIRE(becomes(settled));
    CHECK_FALSE(state.problem.has_value());
    CHECK(state.book->facts->lacking.empty());
    const auto kept = [&] {
        Book book = need(Book::open(file, OpenAs::to_read));
        return need(book.swings_of_student(*state.book->student)).at(0);
    };
    CHECK(kept().length == SwingLength::three_quarter);
    REQUIRE(kept().wedge);
    CHECK(kept().shot->carry_m == 62.0);
    carry_out_all({TakeBack{}});
    REQUIRE(becomes(settled));
    CHECK(state.book->facts->lacking.size() == 1);
    CHECK_FALSE(kept().wedge.has_value());
    CHECK_FALSE(kept().length.has_value());
    carry_out_all({DoAgain{}});
    REQUIRE(becomes(settled));
    CHECK(state.book->facts->lacking.empty());
    CHECK(kept().length == SwingLength::three_quarter);
}
