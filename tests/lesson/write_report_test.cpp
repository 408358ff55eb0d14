#include <doctest/doctest.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <string>

#include "acquisition/record/safe_file.h"
#include "tests/support/child_process.h"
#include "tests/support/lesson_sample.h"
#include "viewer/lesson/write_report.h"

using namespace footing;

namespace {

std::size_t files_in(const std::string& folder) {
    std::size_t count = 0;
    for ([[maybe_unused]] const auto& entry : std::filesystem::directory_iterator(folder)) ++count;
    return count;
}

}  // namespace

TEST_CASE("the suffix chooses the report, in either case") {
    const test::ScratchFolder folder;
    const LessonResult lesson = sample::lesson_without_swings();
    REQUIRE(write_report(lesson, folder / "a.pdf").ok());
    REQUIRE(write_report(lesson, folder / "a.PDF").ok());
    REQUIRE(write_report(lesson, folder / "a.html").ok());
    REQUIRE(write_report(lesson, folder / "a.csv").ok());
    CHECK(test::read_file(folder / "a.pdf").substr(0, 5) == "%PDF-");
    CHECK(test::read_file(folder / "a.PDF") == test::read_file(folder / "a.pdf"));
    CHECK(test::read_file(folder / "a.html").substr(0, 15) == "<!DOCTYPE html>");
    CHECK(test::read_file(folder / "a.csv").substr(0, 13) == "file,student,");
    const Outcome odd = write_report(lesson, folder / "a.docx");
    REQUIRE_FALSE(odd.ok());
    CHECK(odd.problem().kind == ProblemKind::command_line);
    CHECK(files_in(folder.path()) == 5);  // and what the table's columns are
    CHECK(test::read_file(folder / "a.csv-metadata.json").find("\"a.csv\"") != std::string::npos);
}

TEST_CASE("an old file is replaced as a whole, and nothing else is left behind") {
    const test::ScratchFolder folder;
    test::write_file(folder / "report.csv", "old");
    REQUIRE(write_file_safely(folder / "report.csv", "new").ok());
    CHECK(test::read_file(folder / "report.csv") == "new");
    CHECK(files_in(folder.path()) == 1);
}

TEST_CASE(
    "what cannot be written is a disk problem that names the place, and leaves the old file and no litter") {
    const test::ScratchFolder folder;
    const Outcome nowhere = write_file_safely(folder / "no/such/folder/report.pdf", "x");
    REQUIRE_FALSE(nowhere.ok());
    CHECK(nowhere.problem().kind == ProblemKind::disk_failed);
    CHECK(nowhere.problem().place == folder / "no/such/folder/report.pdf");
    CHECK_FALSE(nowhere.problem().remedy.empty());

    std::filesystem::create_directory(folder / "report.pdf");
    const Outcome on_folder = write_file_safely(folder / "report.pdf", "x");
    REQUIRE_FALSE(on_folder.ok());
    CHECK(on_folder.problem().kind == ProblemKind::disk_failed);
    CHECK(files_in(folder.path()) == 1);

    // A full device: the kernel answers every write to /dev/full with ENOSPC, but nothing may be created
    // beside it.
    const Outcome full = write_file_safely("/dev/full/report.pdf", "x");
    REQUIRE_FALSE(full.ok());
    CHECK(full.problem().kind == ProblemKind::disk_failed);
}

TEST_CASE("a device or a pipe is written to and stays what it is") {
    // A pipe in a scratch folder stands for both: were it replaced, nothing of the machine would be lost.
    const test::ScratchFolder folder;
    const std::string pipe = folder / "numbers.json";
    REQUIRE(::mkfifo(pipe.c_str(), 0600) == 0);
    const int reader = ::open(pipe.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    REQUIRE(reader >= 0);
    REQUIRE(write_file_safely(pipe, "new").ok());
    char heard[4] = {};
    CHECK(::read(reader, heard, sizeof heard) == 3);
    CHECK(std::string(heard) == "new");
    ::close(reader);
    CHECK(std::filesystem::is_fifo(pipe));
    CHECK(files_in(folder.path()) == 1);
}
