// What is taken back and made again, and the log of changes behind it.
#include <string>
#include <vector>

#include "tests/book/book_sample.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("changes are taken back, newest first, until a student was removed") {
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    Book book = new_book(path);
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto wedge = add_wedge(book, student, "54", 54.0);
    const auto lesson = add_lesson(book, student, "2026-05-14");
    for (const double carry_m : {70.0, 71.0, 72.0})
        need(book.add_swing(swing_of(lesson, wedge, SwingLength::full, carry_m)));
    BookSwing second = need(book.swing(lesson, 2));
    second.note = "thin";
    need(book.change_swing(second));
    const auto before = need(book.swings(lesson));
    need(book.remove_lesson(lesson));
    CHECK(need(book.swings_of_student(student)).empty());
    // Another program takes the removal back: lesson, swings and shots are there again, as they were.
    Book other = need(Book::open(path, OpenAs::existing));
    const auto undone = need(other.undo());
    CHECK(undone.change.rows.size() == 3);
    CHECK(undone.of ==
          std::vector<std::string>{"lesson " + std::to_string(lesson) + " of Robin (2026-05-14)"});
    const auto after = need(book.swings(lesson));
    REQUIRE(after.size() == 3);
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(after[i].id == before[i].id);
        CHECK(after[i].note == before[i].note);
        CHECK(after[i].shot->carry_m == before[i].shot->carry_m);
    }
    CHECK(need(book.check()).empty());
    need(book.undo());
    CHECK(need(book.swing(lesson, 2)).note.empty());
    need(book.undo());
    CHECK(need(book.swings(lesson)).size() == 2);
    // Back to nothing, then no further.
    while (book.undo().ok()) {
    }
    CHECK(need(book.students()).empty());
    const auto none = book.undo();
    REQUIRE_FALSE(none.ok());
    CHECK(none.problem().kind == ProblemKind::command_line);
    // A student that was removed is gone for good, from the log as well.
    const auto kim = need(book.add_student(called("Kim Kimberley"), Namesakes::refused));
    need(book.remove_student(kim));
    CHECK_FALSE(book.undo().ok());
    need(book.back_up_to(scratch / "copy.book"));
    for (const std::string& file : {path, scratch / "copy.book"})
        CHECK(read_file(file).find("Kimberley") == std::string::npos);
}

TEST_CASE("what was taken back is made again whole, or not at all where it no longer fits") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto wedge = add_wedge(book, student, "54", 54.0);
    const auto lesson = add_lesson(book, student, "2026-05-14");
    for (const double carry_m : {70.0, 71.0})
        need(book.add_swing(swing_of(lesson, wedge, SwingLength::full, carry_m)));
    need(book.remove_lesson(lesson));
    const auto removal = need(book.undo()).change.changes;
    REQUIRE(need(book.swings(lesson)).size() == 2);
    const auto made = need(book.make_again(removal));
    CHECK(made.change.rows.size() == 3);
    CHECK(need(book.swings_of_student(student)).empty());
    CHECK(need(book.check()).empty());
    CHECK_FALSE(book.make_again(removal).ok());  // nothing of it is there any more
    need(book.undo());                           // a change as any other
    REQUIRE(need(book.swings(lesson)).size() == 2);

    BookSwing second = need(book.swing(lesson, 2));
    second.note = "thin";
    need(book.change_swing(second));
    const auto thin = need(book.undo()).change.changes;
    second.note = "fat";
    need(book.change_swing(second));  // meanwhile
    const auto refused = book.make_again(thin);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().kind == ProblemKind::bad_input);
    CHECK(need(book.swing(lesson, 2)).note == "fat");
    CHECK_FALSE(book.make_again("no change at all").ok());
    CHECK_FALSE(book.make_again("").ok());

    // A student who was removed for good meanwhile does not come back.
    need(book.remove_swing(second.id));
    const auto swing_gone = need(book.undo()).change.changes;
    const auto added = need(book.add_swing(swing_of(lesson, wedge, SwingLength::full, 72.0)));
    static_cast<void>(added);
    const auto swing_added = need(book.undo()).change.changes;
    need(book.remove_student(student));
    CHECK_FALSE(book.make_again(swing_gone).ok());
    CHECK_FALSE(book.make_again(swing_added).ok());
    CHECK(need(book.students()).empty());
    CHECK(need(book.check()).empty());
}

TEST_CASE(
    "what was taken back comes again, newest first, by another program too, until something is changed") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    add_wedge(book, student, "54", 54.0);
    add_wedge(book, student, "58", 58.0);
    CHECK(book.redo().problem().kind == ProblemKind::command_line);  // nothing was taken back
    need(book.undo());
    need(book.undo());
    REQUIRE(need(book.wedges(student)).empty());
    {
        Book other = need(Book::open(scratch / "a.book", OpenAs::existing));
        const Undone made = need(other.redo());
        REQUIRE(made.change.rows.size() == 1);
        CHECK(made.change.rows.front().table == "wedge");
        CHECK(made.of == std::vector<std::string>{"Robin"});
    }
    REQUIRE(need(book.wedges(student)).size() == 1);
    CHECK(need(book.wedges(student)).front().name == "54");
    need(book.redo());
    CHECK(need(book.wedges(student)).size() == 2);
    CHECK_FALSE(book.redo().ok());
    // Made again, they are changes as any other.
    need(book.undo());
    CHECK(need(book.wedges(student)).size() == 1);
    // Something else ends it.
    add_wedge(book, student, "60", 60.0);
    CHECK(book.redo().problem().kind == ProblemKind::command_line);
    CHECK(need(book.wedges(student)).size() == 2);
    need(book.undo());
    need(book.remove_student(student));
    CHECK_FALSE(book.redo().ok());
    CHECK(need(book.check()).empty());
}

TEST_CASE("the change log keeps twenty, and what fails leaves none") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    for (int i = 0; i < 30; ++i) need(book.add_student(called("S" + std::to_string(i)), Namesakes::refused));
    CHECK_FALSE(book.add_student(called("s3"), Namesakes::refused).ok());
    int taken_back = 0;
    while (book.undo().ok()) ++taken_back;
    CHECK(taken_back == 20);
    CHECK(need(book.students()).size() == 10);
}
