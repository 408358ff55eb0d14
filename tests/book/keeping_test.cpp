// Two programs at once, kills, damage, full disks, backups.
#include <signal.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "tests/book/book_sample.h"
#include "tests/support/small_disk.h"

using namespace footing;
using namespace footing::test;

namespace {

unsigned mode_of(const std::string& path) {
    struct stat status {};
    REQUIRE(::stat(path.c_str(), &status) == 0);
    return status.st_mode & 0777U;
}

}  // namespace

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

TEST_CASE(
    "a swing that says what cannot be is told as damage, with what to do, and is mended by measuring it "
    "again") {
    const ScratchFolder scratch;
    const std::string path = scratch / "a.book";
    Book book = new_book(path);
    const auto student = need(book.add_student(called("Robin"), Namesakes::refused));
    const auto lesson = add_lesson(book, student, "2026-05-14");
    BookSwing measured;
    measured.lesson = lesson;
    measured.number = 1;
    measured.origin = SwingOrigin::recording;
    measured.from_s = 10.0, measured.to_s = 14.0, measured.strike_s = 12.0;
    measured.address_share = 0.75, measured.address_u = 0.01;
    measured.lowest_share = 0.70, measured.lowest_u = 0.01;
    measured.finish = BookFinish{true, 0.9, 0.01, 1.0, HoldEnd::left, 0.003};
    need(book.add_swing(measured));
    CHECK(need(book.check()).empty());
    for (const auto& [damage, told] :
         {std::pair("address_share = 9e999", "swing 1 of lesson 1 has a lead share at address of inf"),
          std::pair("address_share = -9e999", "a lead share at address of -inf"),
          std::pair("lowest_share = 37.5", "a lowest lead share of 37.5"),
          std::pair("address_u = -0.1", "an uncertainty of the lead share at address of -0.1"),
          std::pair("finish_share = 9e999", "a lead share at the finish of inf"),
          std::pair("backswing_s = 1e300", "a backswing of 1e+300")}) {
        CAPTURE(damage);
        need(need(Database::open(path, OpenAs::existing))
                 .run_script(std::string("UPDATE swing SET ") + damage));
        const auto refused = book.swings(lesson);
        REQUIRE_FALSE(refused.ok());
        CHECK(refused.problem().kind == ProblemKind::bad_input);
        CHECK(refused.problem().place == path);
        CHECK(refused.problem().what.find(std::string("the lesson book is damaged: ")) == 0);
        CHECK(refused.problem().what.find(told) != std::string::npos);
        CHECK(refused.problem().remedy.find("footing lessons analyse 1") != std::string::npos);
        CHECK_FALSE(book.swings_of_student(student).ok());
        const auto wrong = need(book.check());
        REQUIRE(wrong.size() == 1);
        CHECK(wrong.front().find(told) != std::string::npos);
        need(book.in_transaction([&] { return book.put_found_swings(lesson, {measured}); }));
        CHECK(need(book.swings(lesson)).front().address_share == 0.75);
        CHECK(need(book.check()).empty());
    }
}
