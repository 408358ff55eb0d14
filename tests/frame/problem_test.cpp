#include "acquisition/frame/problem.h"

#include <doctest/doctest.h>

#include "acquisition/frame/result.h"

using namespace footing;

TEST_CASE("a problem is told as one sentence: where, what, what to do") {
    CHECK(sentence({ProblemKind::bad_input, "a.csv, line 3", "\"x\" is not a number", "write 12.5"}) ==
          "a.csv, line 3: \"x\" is not a number; write 12.5");
    CHECK(sentence({ProblemKind::disk_failed, "", "the disk is full", ""}) == "the disk is full");
}

TEST_CASE("a sentence holds nothing that steers a terminal") {
    CHECK(sentence({ProblemKind::bad_input, "a\x1b[31m.csv", "\"\u202Ex\"", "mend\nit"}) ==
          "a [31m.csv: \"x\"; mend it");
}

TEST_CASE("exit codes are those of the command line's contract") {
    CHECK(exit_code(ProblemKind::command_line) == 2);
    CHECK(exit_code(ProblemKind::bad_input) == 3);
    CHECK(exit_code(ProblemKind::device_failed) == 4);
    CHECK(exit_code(ProblemKind::disk_failed) == 5);
}

TEST_CASE("a result holds a value or a problem") {
    const Result<int> good = 4;
    const Result<int> bad = Problem{ProblemKind::bad_input, "", "no", ""};
    CHECK(good.ok());
    CHECK(good.value() == 4);
    CHECK_FALSE(bad.ok());
    CHECK(bad.problem().what == "no");
}
