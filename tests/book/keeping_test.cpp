// Schema versions, two programs at once, kills, damage, backups.
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "tests/book/book_sample.h"
#include "tests/support/small_disk.h"
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

unsigned mode_of(const std::string& path) {
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    return status.st_mode & 0777U;
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

TEST_CASE("an empty file is no book, and becomes one only for who begins a book") {
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    write_file(path, "");
    REQUIRE(::chmod(path.c_str(), 0644) == 0);
    for (const OpenAs how : {OpenAs::to_read, OpenAs::existing}) {
        const auto opened = Book::open(path, how);
        REQUIRE_FALSE(opened.ok());
        CHECK(opened.problem().kind == ProblemKind::bad_input);
        CHECK(read_file(path).empty());
    }
    need(Book::open(path, OpenAs::create_if_absent));
    CHECK(mode_of(path) == 0600);
    need(Book::open(path, OpenAs::to_read));
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

TEST_CASE("who removes a student is told when another program keeps the log from being emptied") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const auto first = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto second = need(book.add_student(called("Kim"), Namesakes::refused));
    CHECK(need(book.remove_student(first)).log == RemovedLog::emptied);
    Database reader = need(Database::open(scratch / "a.book", OpenAs::existing));
    need(reader.run_script("BEGIN"));
    need(reader.rows("SELECT * FROM student"));
    CHECK(need(book.remove_student(second)).log == RemovedLog::in_use);
}

TEST_CASE("a transaction within another is a part of it") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    const Outcome done = book.in_transaction([&]() -> Outcome {
        need(book.add_student(called("Robin"), Namesakes::refused));
        return Problem{ProblemKind::bad_input, "", "something else went wrong", ""};
    });
    CHECK_FALSE(done.ok());
    CHECK(need(book.students()).empty());
}

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

TEST_CASE("a book of a newer program is refused") {
    const ScratchFolder scratch;
    make_old_book(scratch / "a.book", book_schema_steps().size());
    need(need(Database::open(scratch / "a.book", OpenAs::existing)).run_script("PRAGMA user_version=999"));
    const auto opened = Book::open(scratch / "a.book", OpenAs::existing);
    REQUIRE_FALSE(opened.ok());
    CHECK(opened.problem().kind == ProblemKind::bad_input);
    CHECK(opened.problem().what.find("999") != std::string::npos);
}

TEST_CASE("programs that open and write one book at the same time all get what they wrote") {
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    constexpr int programs = 4;
    constexpr int students_each = 10;
    std::vector<pid_t> children;
    for (int program = 0; program < programs; ++program) {
        const pid_t child = ::fork();
        if (child == 0) {
            // The book does not exist yet: they also race to make it.
            auto book = Book::open(path, OpenAs::create_if_absent);
            int failed = book.ok() ? 0 : 1;
            for (int i = 0; failed == 0 && i < students_each; ++i) {
                const std::string name = "S" + std::to_string(program) + "-" + std::to_string(i);
                if (!book.value().add_student(called(name), Namesakes::refused)) failed = 1;
            }
            ::_exit(failed);
        }
        children.push_back(child);
    }
    for (const pid_t child : children) {
        int status = 0;
        ::waitpid(child, &status, 0);
        CHECK(WIFEXITED(status));
        CHECK(WEXITSTATUS(status) == 0);
    }
    Book book = need(Book::open(path, OpenAs::existing));
    CHECK(need(book.students()).size() == programs * students_each);
    CHECK(need(book.check()).empty());
}

TEST_CASE("killed at any instant, a book is sound and lacks at most the edit in hand") {
    // Two hundred kills; what docs/measurements.md tells.
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    std::int64_t student = 0;
    std::int64_t wedge = 0;
    std::int64_t lesson = 0;
    {
        Book book = new_book(path);
        student = need(book.add_student(called("Robin"), Namesakes::refused));
        wedge = add_wedge(book, student, "54", 54.0);
        lesson = add_lesson(book, student, "2026-05-14");
    }
    std::mt19937 random(3);
    std::uniform_int_distribution<int> life_us(200, 40000);
    std::int64_t known = 0;
    std::int64_t edits = 0;
    for (int kill = 0; kill < 200; ++kill) {
        int told[2];
        REQUIRE(::pipe(told) == 0);
        const pid_t child = ::fork();
        if (child == 0) {
            ::close(told[0]);
            auto book = Book::open(path, OpenAs::existing);
            while (book.ok()) {
                // One edit: a swing with its shot, and a word about the one before.
                const Outcome done = book.value().in_transaction([&]() -> Outcome {
                    const auto added =
                        book.value().add_swing(swing_of(lesson, wedge, SwingLength::full, 70.0));
                    if (!added) return added.problem();
                    return Done{};
                });
                const char word = 'x';
                if (!done || ::write(told[1], &word, 1) != 1) break;
            }
            ::_exit(1);
        }
        ::close(told[1]);
        std::this_thread::sleep_for(std::chrono::microseconds(life_us(random)));
        ::kill(child, SIGKILL);
        ::waitpid(child, nullptr, 0);
        std::int64_t acknowledged = 0;
        char word = 0;
        while (::read(told[0], &word, 1) == 1) ++acknowledged;
        ::close(told[0]);
        Book book = need(Book::open(path, OpenAs::existing));
        const std::vector<BookSwing> swings = need(book.swings(lesson));
        const auto kept = static_cast<std::int64_t>(swings.size()) - known;
        REQUIRE(kept >= acknowledged);
        REQUIRE(kept <= acknowledged + 1);
        if (!swings.empty()) REQUIRE(swings.back().shot.has_value());  // never half an edit
        REQUIRE(need(book.check()).empty());
        known = static_cast<std::int64_t>(swings.size());
        edits += kept;
    }
    MESSAGE("edits between 200 kills: " << edits);
    CHECK(edits > 0);
}

TEST_CASE("a backup is whole, sound and never replaces a file") {
    const ScratchFolder scratch;
    Book book = new_book(scratch / "a.book");
    need(book.add_student(called("Robin"), Namesakes::refused));
    need(book.back_up_to(scratch / "copy.book"));
    need(book.add_student(called("Kim"), Namesakes::refused));
    CHECK(need(need(Book::open(scratch / "copy.book", OpenAs::existing)).students()).size() == 1);
    CHECK(mode_of(scratch / "copy.book") == 0600);
    write_file(scratch / "more.book.unfinished", "a stranger's");
    need(book.back_up_to(scratch / "more.book"));
    CHECK(read_file(scratch / "more.book.unfinished") == "a stranger's");
    std::filesystem::remove(scratch / "more.book.unfinished");
    const std::string before = read_file(scratch / "copy.book");
    const Outcome again = book.back_up_to(scratch / "copy.book");
    REQUIRE_FALSE(again.ok());
    CHECK(again.problem().kind == ProblemKind::command_line);
    CHECK(read_file(scratch / "copy.book") == before);
    CHECK_FALSE(book.back_up_to(scratch / "no/such/copy.book").ok());
    for (const auto& entry : std::filesystem::directory_iterator(scratch.path()))
        CHECK(entry.path().extension() != ".tmp");
}

TEST_CASE("damage is found, and no damaged book crashes the program") {
    const ScratchFolder scratch;
    {
        Book book = new_book(scratch / "a.book");
        const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
        const auto wedge = add_wedge(book, student, "54", 54.0);
        const auto lesson = add_lesson(book, student, "2026-05-14");
        need(book.in_transaction([&]() -> Outcome {
            for (int i = 0; i < 200; ++i)
                need(book.add_swing(swing_of(lesson, wedge, SwingLength::half, 50.0)));
            return Done{};
        }));
        need(book.back_up_to(scratch / "whole.book"));
    }
    const std::string whole = read_file(scratch / "whole.book");
    std::mt19937 random(17);
    std::size_t told = 0;
    constexpr int mutations = 150;
    for (int i = 0; i < mutations; ++i) {
        std::string bytes = whole;
        if (i % 5 == 0) bytes.resize(random() % bytes.size());
        for (int flips = 0; flips < 8 && !bytes.empty(); ++flips)
            bytes[random() % bytes.size()] = static_cast<char>(random());
        const std::string path = scratch / "damaged.book";
        for (const char* suffix : {"", "-wal", "-shm"}) std::filesystem::remove(path + suffix);
        write_file(path, bytes);
        auto book = Book::open(path, OpenAs::existing);
        if (!book) {
            ++told;
            continue;
        }
        const auto students = book.value().students();
        const auto swings = book.value().swings_of_student(1);
        const auto wrong = book.value().check();
        if (!students || !swings || !wrong || !wrong.value().empty()) ++told;
    }
    CHECK(told > mutations / 4);
}

TEST_CASE("a book on a full disk can be read, and what a killed program left in its log is read too") {
    const SmallDisk disk("1m");
    if (!disk.exists()) {
        MESSAGE("skipped: mounting a small disk is not allowed here");
        return;
    }
    const std::string path = (disk / "lessons.book").string();
    {
        Book book = need(Book::open(path, OpenAs::create_if_absent));
        need(book.add_student(called("Robin"), Namesakes::refused));
    }
    const auto fill = [&] {
        std::ofstream rest(disk / "rest", std::ios::binary | std::ios::app);
        while (rest.put('x').flush()) continue;
    };
    const auto names = [&] {
        std::string all;
        Book book = need(Book::open(path, OpenAs::to_read));
        for (const StudentLine& line : need(book.students())) all += line.student.name + ".";
        return all;
    };
    SUBCASE("left in peace") {
        fill();
        CHECK(names() == "Robin.");
    }
    SUBCASE("left by a program that was killed") {
        const pid_t child = ::fork();
        if (child == 0) {
            auto book = Book::open(path, OpenAs::existing);
            const bool added = book && book.value().add_student(called("Vale"), Namesakes::refused);
            ::kill(::getpid(), added ? SIGKILL : SIGTERM);
        }
        int ended = 0;
        ::waitpid(child, &ended, 0);
        REQUIRE(WTERMSIG(ended) == SIGKILL);
        REQUIRE(std::filesystem::file_size(path + "-wal") > 0);
        std::filesystem::remove(path + "-shm");  // as after the computer went down
        fill();
        CHECK(names() == "Robin.Vale.");
    }
    // Nothing can be written, and that is said.
    auto book = Book::open(path, OpenAs::existing);
    const Result<std::int64_t> added = book ? book.value().add_student(called("Kim"), Namesakes::refused)
                                            : Result<std::int64_t>(book.problem());
    REQUIRE_FALSE(added);
    CHECK(added.problem().what == "the disk is full");
}
