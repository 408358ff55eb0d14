// Books of earlier and later programs, and tables that are not those of a version.
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "tests/book/book_sample.h"
#include "viewer/book/book_schema.h"

using namespace footing;
using namespace footing::test;

namespace {

/// A book as the program of `version` left it, with a student, a wedge, a lesson and a shot.
void make_old_book(const std::string& path, std::size_t version) {
    Database database = need(Database::open(path, OpenAs::create_if_absent));
    for (std::size_t step = 0; step < version; ++step) need(database.run_script(book_schema_steps()[step]));
    need(database.run_script("PRAGMA user_version=" + std::to_string(version) +
                             "; PRAGMA application_id=" + std::to_string(book_application_id) + ";"));
    // Columns that every version has.
    need(database.run_script(
        "INSERT INTO student(name, name_key, hand, unit, consent, notes) "
        "VALUES('Robin','robin','left','m','yes','n');"
        "INSERT INTO wedge(student_id, name, name_key, loft_deg, bag) VALUES(1,'54','54',54.0,'in');"
        "INSERT INTO lesson(student_id, date, setup, note) VALUES(1,'2026-05-14','ball back','');"
        "INSERT INTO swing(lesson_id, number, origin, found_kind, wedge_id, length) "
        "VALUES(1, 1, 'typed', 'unknown', 1, 'half');"
        "INSERT INTO shot(swing_id, carry_m) VALUES(1, 48.5);"));
}

std::string schema_of(const std::string& path) {
    Database database = need(Database::open(path, OpenAs::existing));
    std::string schema;
    for (const Row& row :
         need(database.rows("SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY 1")))
        schema += row.text(0) + ": " + row.text(1) + "\n";
    return schema;
}

}  // namespace

TEST_CASE("a book of every earlier version becomes today's, with all that is in it") {
    const ScratchFolder scratch;
    need(Book::open(scratch / "new.book", OpenAs::create_if_absent));
    const std::string today = schema_of(scratch / "new.book");
    REQUIRE(book_schema_steps().size() >= 2);
    for (std::size_t version = 1; version <= book_schema_steps().size(); ++version) {
        CAPTURE(version);
        const std::string path = scratch / ("v" + std::to_string(version) + ".book");
        make_old_book(path, version);
        Book book = need(Book::open(path, OpenAs::existing));
        CHECK(schema_of(path) == today);
        CHECK(need(book.student("Robin")).unit == DistanceUnit::metres);
        const auto swings = need(book.swings_of_student(1));
        REQUIRE(swings.size() == 1);
        CHECK(*swings[0].shot->carry_m == 48.5);
        CHECK(swings[0].length == SwingLength::half);
        CHECK_FALSE(swings[0].finish.has_value());  // absent, never guessed
        CHECK(need(book.lesson(1)).lesson.setup == "ball back");
        CHECK(need(book.check()).empty());
    }
}

TEST_CASE("lines that an older program took are known to today's, with what it read") {
    const ScratchFolder scratch;
    const std::string path = scratch / "v2.book";
    make_old_book(path, 2);
    need(need(Database::open(path, OpenAs::existing))
             .run_script("INSERT INTO imported_row(student_id, row, copy, swing_id) VALUES(1, '80', 0, 1);"
                         "INSERT INTO csv_club(student_id, club_key, wedge_id) VALUES(1, 'sw', 1);"));
    Book book = need(Book::open(path, OpenAs::existing));
    const auto known = need(book.imported_line(1, "80", 0, 1));
    REQUIRE(known.has_value());
    CHECK(known->swing == 1);
    CHECK(known->carry_m == 48.5);
    CHECK_FALSE(need(book.imported_line(1, "80", 1, 1)).has_value());
    CHECK_FALSE(need(book.imported_line(1, "80", 0, 2)).has_value());  // another lesson's
    CHECK(need(book.imported_line(1, "80", 0, std::nullopt)).has_value());
    CHECK(need(book.club_called(1, "SW")) == 1);
}

TEST_CASE("lessons recorded before the book kept the finish are known as such, and filled in as one change") {
    const ScratchFolder scratch;
    const std::string path = scratch / "v4.book";
    make_old_book(path, 4);
    need(need(Database::open(path, OpenAs::existing))
             .run_script("INSERT INTO lesson(student_id, date, setup, note) VALUES(1,'2026-05-15','','');"
                         "INSERT INTO swing(lesson_id, number, origin, found_kind, from_s, to_s, strike_s, "
                         "address_share, coach_says, reason) VALUES"
                         "(2, 1, 'recording', 'shot', 10.0, 15.0, 12.0, 0.74, 'set_aside', 'wind'),"
                         "(2, 2, 'recording', 'shot', 30.0, 35.0, 32.0, 0.75, 'nothing', '');"));
    Book book = need(Book::open(path, OpenAs::existing));
    CHECK(need(book.lessons_without_finish()) == std::vector<std::int64_t>{2});  // not the typed one
    BookSwing found;
    found.from_s = 10.1, found.to_s = 14.9, found.strike_s = 12.01, found.address_share = 0.60;
    found.finish = BookFinish{true, 0.91, 0.01, 1.4, HoldEnd::not_seen, 0.004};
    std::size_t put = 0;
    need(book.in_transaction([&]() -> Outcome {
        put = need(book.put_finishes(2, {found}));
        return Done{};
    }));
    CHECK(put == 1);
    const auto swings = need(book.swings(2));
    REQUIRE(swings[0].finish.has_value());
    CHECK(swings[0].finish->came_to_rest);
    CHECK(swings[0].finish->share == 0.91);
    CHECK(swings[0].finish->u == 0.01);
    CHECK(swings[0].finish->held_s == 1.4);
    CHECK(swings[0].finish->held_end == HoldEnd::not_seen);
    CHECK(swings[0].finish->sway_m == 0.004);
    CHECK(swings[0].address_share == 0.74);  // all else stays
    CHECK(swings[0].from_s == 10.0);
    CHECK(swings[0].coach == CoachSays::set_aside);
    CHECK(swings[0].reason == "wind");
    CHECK_FALSE(swings[1].finish.has_value());
    CHECK(need(book.lessons_without_finish()).empty());
    need(book.undo());
    CHECK_FALSE(need(book.swings(2))[0].finish.has_value());
}

TEST_CASE("a book whose tables are not those of its version is damaged, and left as it is") {
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    for (const char* damage :
         {"PRAGMA user_version=-3", "PRAGMA user_version=0", "PRAGMA user_version=1", "PRAGMA user_version=2",
          "DROP TABLE shot", "ALTER TABLE swing RENAME COLUMN note TO remark"}) {
        CAPTURE(damage);
        std::filesystem::remove(path);
        make_old_book(path, book_schema_steps().size());
        need(need(Database::open(path, OpenAs::existing)).run_script(damage));
        const std::string before = read_file(path);
        for (const OpenAs how : {OpenAs::to_read, OpenAs::existing, OpenAs::create_if_absent}) {
            const auto opened = Book::open(path, how);
            REQUIRE_FALSE(opened.ok());
            CHECK(opened.problem().kind == ProblemKind::bad_input);
            CHECK(opened.problem().what.find("damaged") != std::string::npos);
            CHECK(opened.problem().remedy.find("backup") != std::string::npos);
        }
        CHECK(read_file(path) == before);
    }
    // While the book is open, the check sees it.
    Book book = new_book(scratch / "b.book");
    need(need(Database::open(scratch / "b.book", OpenAs::existing)).run_script("DROP TABLE shot"));
    const auto wrong = need(book.check());
    REQUIRE_FALSE(wrong.empty());
    CHECK(wrong.front().find("shot.") == 0);
}

TEST_CASE("a book that may only be read can be read, and says so when it is to be changed") {
    const ScratchFolder scratch;
    const std::string folder = scratch / "shared";
    const std::string path = folder + "/a # b?.book";
    std::filesystem::create_directory(folder);
    need(new_book(path).add_student(called("Robin"), Namesakes::refused));
    make_old_book(folder + "/old.book", 2);
    REQUIRE(::chmod(scratch.path().c_str(), 0755) == 0);
    REQUIRE(::chmod(folder.c_str(), 0555) == 0);
    for (const std::string& file : {path, folder + "/old.book"}) REQUIRE(::chmod(file.c_str(), 0444) == 0);
    const pid_t child = ::fork();
    if (child == 0) {
        // The rights of files say nothing to the superuser.
        if (::geteuid() == 0 && ::setuid(65534) != 0) ::_exit(99);
        int failed = 0;
        auto book = Book::open(path, OpenAs::to_read);
        if (!book || !book.value().students() || book.value().students().value().size() != 1) failed |= 1;
        if (book && (!book.value().check() || !book.value().check().value().empty())) failed |= 2;
        if (book && book.value().add_student(called("Kim"), Namesakes::refused)) failed |= 4;
        const auto to_change = Book::open(path, OpenAs::existing);
        if (to_change || to_change.problem().kind != ProblemKind::disk_failed) failed |= 8;
        const auto old = Book::open(folder + "/old.book", OpenAs::to_read);
        if (old || old.problem().kind != ProblemKind::disk_failed) failed |= 16;
        ::_exit(failed);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    REQUIRE(::chmod(folder.c_str(), 0755) == 0);
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(std::distance(std::filesystem::directory_iterator(folder), {}) == 2);
}

TEST_CASE("a book of a newer program is refused") {
    const ScratchFolder scratch;
    make_old_book(scratch / "a.book", book_schema_steps().size());
    need(need(Database::open(scratch / "a.book", OpenAs::existing)).run_script("PRAGMA user_version=999"));
    const auto opened = Book::open(scratch / "a.book", OpenAs::existing);
    REQUIRE_FALSE(opened.ok());
    CHECK(opened.problem().kind == ProblemKind::bad_input);
    CHECK(opened.problem().what.find("999") != std::string::npos);
}
