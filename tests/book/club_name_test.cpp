// One rule for the names of clubs: what is one club in the window is the same at the command line.
#include "viewer/book/club_name.h"

#include <doctest/doctest.h>

#include <string>

#include "tests/book/book_sample.h"
#include "viewer/book/book_place.h"
#include "viewer/book/wedge_called.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("a number of degrees is one club however it is written, and nothing else is changed") {
    for (const char* written : {"54", "54°", "54 °", "54º", "54˚", "54.0", "54,0°", "54 deg", "54 Degrees",
                                "54-degree wedge", "54° wedge", "５４"})
        CHECK_MESSAGE(club_key(written) == "54", written);
    CHECK(club_key("54.5") == "54.5");
    CHECK(club_key("54,50°") == "54.5");
    for (const auto& [one, other] : {std::pair{"54", "56"},
                                     {"54", "5"},
                                     {"54 b", "54"},
                                     {"SW", "sand wedge"},
                                     {"54 Max", "54"},
                                     {"9 iron", "9"},
                                     {"°", ""}})
        CHECK_MESSAGE(club_key(one) != club_key(other), one);
    CHECK(club_key("Sand Wedge") == club_key("sand wedge"));
    CHECK(club_key("54 Max") == name_key("54 max"));
}

TEST_CASE("a wedge made in the window is the command line's, and keeps its name") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const std::int64_t student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto made = need(wedge_called(book, student, "54°"));  // as W in a lesson does
    REQUIRE(made);
    CHECK(need(book.wedge(student, "54")).id == *made);
    CHECK(need(book.wedge(student, "54")).name == "54°");
    CHECK(need(book.club_called(student, "54 deg")) == made);
    CHECK(need(wedge_called(book, student, "54.0")) == made);
    CHECK(need(book.wedges(student)).size() == 1);
    const auto twice = book.add_wedge({0, student, "54", 54.0, Bag::in});
    REQUIRE_FALSE(twice.ok());
    CHECK(twice.problem().what.find("already, as \"54°\"") != std::string::npos);
    // It can be given a loft, and another way to write it.
    need(book.change_wedge({*made, student, "54", 54.0, Bag::in}));
    CHECK(need(book.wedge(student, "54°")).name == "54");
    const std::int64_t other = add_wedge(book, student, "58", 58.0);
    CHECK_FALSE(book.change_wedge({other, student, "54°", 58.0, Bag::in}));
}

TEST_CASE("an older book with two of one club keeps both, each by the name that it has") {
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    Book book = new_book(path);
    const std::int64_t student = need(book.add_student(called("Robin"), Namesakes::refused));
    const std::int64_t plain = add_wedge(book, student, "54", 54.0);
    Database older = need(Database::open(path, OpenAs::existing));
    need(
        older.run_script("INSERT INTO wedge(student_id, name, name_key, bag) VALUES(1, '54°', '54°', 'in')"));
    CHECK(need(book.wedge(student, "54")).id == plain);
    const Wedge signed_one = need(book.wedge(student, "54°"));
    CHECK(signed_one.id != plain);
    // Taking one out of the bag needs no other name.
    need(book.change_wedge({signed_one.id, student, "54°", std::nullopt, Bag::out}));
    CHECK(need(book.wedge(student, "54°")).bag == Bag::out);
}
