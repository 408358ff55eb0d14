#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "tests/book/book_sample.h"
#include "viewer/book/book_place.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("a student comes back as written, whatever the name") {
    const ScratchFolder scratch;
    std::string long_name;
    for (int i = 0; i < 300; ++i) long_name += "ä";
    const std::vector<std::string> names{"Robin",
                                         "O'Brien; DROP TABLE student;--",
                                         "\"quoted\" % _ \\",
                                         "../../etc/passwd",
                                         "NUL",
                                         "=HYPERLINK(\"x\")",
                                         "<script>alert(1)</script>",
                                         "😀 golfer",
                                         "שלום",
                                         long_name};
    {
        Book book = new_book(scratch / "a.book");
        for (const std::string& name : names) {
            Student student = called(name);
            student.hand = Hand::left;
            student.weight_kg = 71.5;
            student.unit = DistanceUnit::metres;
            student.consent = Consent::given;
            student.consent_date = "2026-05-14";
            student.notes = name;
            need(book.add_student(student, Namesakes::refused));
        }
    }
    Book book = need(Book::open(scratch / "a.book", OpenAs::existing));
    for (const std::string& name : names) {
        const Student student = need(book.student(name));
        CHECK(student.name == name);
        CHECK(student.notes == name);
        CHECK(student.hand == Hand::left);
        CHECK(*student.weight_kg == 71.5);
        CHECK(student.unit == DistanceUnit::metres);
        CHECK(student.consent == Consent::given);
        CHECK(student.consent_date == "2026-05-14");
        CHECK(need(book.student("#" + std::to_string(student.id))).name == name);
    }
    CHECK(need(book.students()).size() == names.size());
    CHECK(need(book.students("%")).size() == 1);
    CHECK(need(book.students("robi")).size() == 1);
    CHECK(std::distance(std::filesystem::directory_iterator(scratch.path()), {}) <=
          3);  // no file named after anyone
    struct stat status {};
    REQUIRE(::stat((scratch / "a.book").c_str(), &status) == 0);
    CHECK((status.st_mode & 077) == 0);
}

TEST_CASE("namesakes are refused unless they are meant, and told apart by number") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto first = need(book.add_student(called("Zoë"), Namesakes::refused));
    // The same name with a combining accent, in capitals.
    const auto refused = book.add_student(called("ZOE\xCC\x88"), Namesakes::refused);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().kind == ProblemKind::command_line);
    CHECK(refused.problem().remedy.find("--namesake") != std::string::npos);
    CHECK(need(book.student("zoë")).id == first);
    const auto second = need(book.add_student(called("ZOË"), Namesakes::allowed));
    // As written is not enough: what is meant for one must not reach the other.
    CHECK_FALSE(book.student("ZOË").ok());
    const auto ambiguous = book.student("zoë");
    REQUIRE_FALSE(ambiguous.ok());
    CHECK(ambiguous.problem().what.find("#" + std::to_string(first)) != std::string::npos);
    CHECK(need(book.student("#" + std::to_string(first))).name == "Zoë");
    Student noted = need(book.student("#" + std::to_string(second)));
    noted.notes = "slow backswing";
    need(book.change_student(noted, Namesakes::refused));
    noted.name = "Zoë";
    CHECK_FALSE(book.change_student(noted, Namesakes::refused).ok());
    CHECK_FALSE(book.student("#99").ok());
    CHECK_FALSE(book.student("Nobody").ok());
    CHECK_FALSE(book.add_student(called("#1"), Namesakes::refused).ok());
}

TEST_CASE("names are tidied, not changed") {
    CHECK(need(tidy_text("  Robin\t", "name")) == "Robin");
    CHECK(need(tidy_text("a\nb", "name")) == "a b");
    CHECK_FALSE(tidy_text("   ", "name").ok());
    CHECK_FALSE(tidy_text(std::string(3000, 'x'), "name").ok());
    CHECK(need(tidy_text("\xFFx", "name")) == "\xEF\xBF\xBDx");
    CHECK(name_key("STRASSE") == name_key("straße"));
    CHECK(name_key("ﬁt") == name_key("FIT"));
    CHECK(name_key("Ro\xE2\x80\x8B"
                   "bin") == name_key("Robin"));  // a blank without width
}

TEST_CASE("removing a student removes all that is theirs, says what, and leaves nothing in the file") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto gone = need(book.add_student(called("Quetzalcoatl"), Namesakes::refused));
    const auto stays = need(book.add_student(called("Robin"), Namesakes::refused));
    for (const auto student : {gone, stays}) {
        const auto wedge = add_wedge(book, student, "54", 54.0);
        const auto lesson = add_lesson(book, student, "2026-05-14");
        need(book.in_transaction([&]() -> Outcome {
            need(book.add_swing(swing_of(lesson, wedge, SwingLength::half, 50.0)));
            BookSwing practice;
            practice.lesson = lesson;
            need(book.add_swing(practice));
            return Done{};
        }));
    }
    need(book.put_recording({"u-1", "/somewhere/a.h5", 1, "UTC", 60.0, Hand::right, "clean", "two plates"}));
    Lesson recorded;
    recorded.student = gone;
    recorded.date = "2026-05-15";
    recorded.recording_uuid = "u-1";
    need(book.in_transaction([&]() -> Outcome {
        need(book.add_lesson(recorded));
        return Done{};
    }));
    const Removed removed = need(book.remove_student(gone));
    CHECK(removed.name == "Quetzalcoatl");
    CHECK(removed.wedges == 1);
    CHECK(removed.lessons == 2);
    CHECK(removed.swings == 2);
    CHECK(removed.shots == 1);
    CHECK(removed.recordings == std::vector<std::string>{"/somewhere/a.h5"});
    CHECK(need(book.students()).size() == 1);
    CHECK(need(book.swings_of_student(stays)).size() == 2);
    CHECK(need(book.swings_of_student(gone)).empty());
    CHECK(need(book.recordings()).empty());
    CHECK(need(book.check()).empty());
    for (const char* file : {"a.book", "a.book-wal"}) {
        CHECK(read_file(scratch / file).find("Quetzalcoatl") == std::string::npos);
    }
    CHECK_FALSE(book.remove_student(gone).ok());
}

TEST_CASE("a wedge with swings stays; without, it goes") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto used = add_wedge(book, student, "54", 54.0);
    const auto unused = add_wedge(book, student, "60", 60.0);
    CHECK_FALSE(book.add_wedge({0, student, "54", std::nullopt, Bag::in}).ok());
    const auto lesson = add_lesson(book, student, "2026-05-14");
    need(book.in_transaction([&]() -> Outcome {
        need(book.add_swing(swing_of(lesson, used, SwingLength::half, 50.0)));
        return Done{};
    }));
    const Outcome refused = book.remove_wedge(used);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().remedy.find("--bag out") != std::string::npos);
    need(book.remove_wedge(unused));
    CHECK(need(book.wedges(student)).size() == 1);
    CHECK(need(book.wedge(student, "54")).loft_deg == 54.0);
    const auto missing = book.wedge(student, "46");
    REQUIRE_FALSE(missing.ok());
    CHECK(missing.problem().remedy == "there are: 54");
}

TEST_CASE("swings found again keep what the coach said; what is gone goes unless it matters") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto wedge = add_wedge(book, student, "54", 54.0);
    const auto lesson = add_lesson(book, student, "2026-05-14");
    const auto found_at = [](double strike_s, double share) {
        BookSwing swing;
        swing.from_s = strike_s - 3.0;
        swing.to_s = strike_s + 2.0;
        swing.strike_s = strike_s;
        swing.address_share = share;
        return swing;
    };
    const auto put = [&](const std::vector<BookSwing>& found) {
        need(book.in_transaction([&] { return book.put_found_swings(lesson, found); }));
    };
    put({found_at(10, 0.71), found_at(30, 0.72), found_at(50, 0.73), found_at(70, 0.74)});
    std::vector<BookSwing> swings = need(book.swings(lesson));
    REQUIRE(swings.size() == 4);
    swings[1].wedge = wedge;
    swings[1].shot = Shot{60.0, -2.0, Strike::thin};
    swings[3].note = "look at this one";
    need(book.in_transaction([&]() -> Outcome {
        need(book.change_swing(swings[1]));
        need(book.change_swing(swings[3]));
        BookSwing typed = swing_of(lesson, wedge, SwingLength::full, 80.0);
        need(book.add_swing(typed));
        return Done{};
    }));
    // Analysed again: one moved by 0.2 s, two are gone, a new one is there.
    put({found_at(10, 0.75), found_at(20, 0.70), found_at(30.2, 0.76)});
    swings = need(book.swings(lesson));
    REQUIRE(swings.size() == 5);
    CHECK(*swings[0].address_share == 0.75);
    CHECK(*swings[1].strike_s == 20);
    CHECK(*swings[2].strike_s == 30.2);
    CHECK(*swings[2].address_share == 0.76);
    CHECK(swings[2].wedge == wedge);
    REQUIRE(swings[2].shot.has_value());
    CHECK(*swings[2].shot->carry_m == 60.0);
    CHECK(*swings[2].shot->side_m == -2.0);
    CHECK(swings[2].shot->strike == Strike::thin);
    CHECK(swings[3].note == "look at this one");
    CHECK(swings[4].origin == SwingOrigin::typed);
    for (std::size_t i = 0; i < swings.size(); ++i)
        CHECK(swings[i].number == static_cast<std::int64_t>(i) + 1);
    // The same again changes nothing.
    put({found_at(10, 0.75), found_at(20, 0.70), found_at(30.2, 0.76)});
    CHECK(need(book.swings(lesson)).size() == 5);
}

TEST_CASE("swings keep the numbers that the recording's report shows, whatever is left out of it") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto wedge = add_wedge(book, student, "54", 54.0);
    const auto lesson = add_lesson(book, student, "2026-05-14");
    const auto put = [&](const std::vector<std::int64_t>& numbers) {
        std::vector<BookSwing> found;
        for (const std::int64_t number : numbers) {
            BookSwing swing;
            swing.number = number;
            swing.from_s = 20.0 * static_cast<double>(number);
            swing.to_s = *swing.from_s + 5.0;
            found.push_back(swing);
        }
        need(book.in_transaction([&] { return book.put_found_swings(lesson, found); }));
        std::vector<std::int64_t> kept;
        for (const BookSwing& swing : need(book.swings(lesson))) kept.push_back(swing.number);
        return kept;
    };
    using Numbers = std::vector<std::int64_t>;
    CHECK(put({1, 2, 3, 4}) == Numbers{1, 2, 3, 4});
    CHECK(put({1, 3, 4}) == Numbers{1, 3, 4});  // 2 is marked as not a swing
    need(book.add_swing(swing_of(lesson, wedge, SwingLength::full, 80.0)));
    CHECK(put({1, 2, 3, 4}) == Numbers{1, 2, 3, 4, 5});  // back again; the typed one stays behind
    const std::vector<BookSwing> swings = need(book.swings(lesson));
    CHECK(*swings[1].from_s == 40.0);
    CHECK(swings[4].origin == SwingOrigin::typed);
}

TEST_CASE("what is no lesson book is refused and left as it is") {
    const ScratchFolder scratch;
    write_file(scratch / "text.book", "hello, this is a text that is no database at all\n");
    write_file(scratch / "short.book", "x");
    REQUIRE(
        run_program(
            {"/usr/bin/python3", "-c",
             "import sqlite3,sys; c=sqlite3.connect(sys.argv[1]); c.execute('create table t(x)'); c.commit()",
             scratch / "other.book"})
            .exit_code == 0);
    for (const char* name : {"text.book", "short.book", "other.book"}) {
        CAPTURE(name);
        const std::string before = read_file(scratch / name);
        const auto opened = Book::open(scratch / name, OpenAs::create_if_absent);
        REQUIRE_FALSE(opened.ok());
        CHECK(opened.problem().kind == ProblemKind::bad_input);
        CHECK(read_file(scratch / name) == before);
    }
    CHECK_FALSE(Book::open(scratch / "missing.book", OpenAs::existing).ok());
    CHECK_FALSE(Book::open(scratch.path(), OpenAs::existing).ok());
    CHECK(Book::open(scratch / "no/such/folder.book", OpenAs::create_if_absent).problem().kind ==
          ProblemKind::disk_failed);
}

TEST_CASE("dates") {
    CHECK(day_of_date("1970-01-01") == 0);
    CHECK(day_of_date("2026-05-14") == 20587);  // date -d 2026-05-14 +%s, over 86400
    CHECK(date_of_day(20587) == "2026-05-14");
    CHECK(day_of_date("2024-02-29").has_value());
    for (const char* wrong : {"2026-02-29", "2026-13-01", "14.05.2026", "2026-5-14", "", "2026-05-1x"})
        CHECK_FALSE(day_of_date(wrong).has_value());
}
