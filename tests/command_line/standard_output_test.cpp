#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "tests/support/child_process.h"

using namespace footing::test;

namespace {

/// What the program says on standard error when its standard output is a full disk, and its exit code.
ProgramOutput said_to_full_disk(std::vector<std::string> words) {
    const ScratchFolder folder;
    words.insert(words.begin(), FOOTING_PROGRAM);
    ChildProcess program(words, "/dev/full", folder / "errors");
    const int exit_code = program.wait();
    return {exit_code, "", read_file(folder / "errors")};
}

}  // namespace

TEST_CASE("what standard output cannot take is told, with the exit code of a full disk") {
    const std::string recording = std::string(FOOTING_SOURCE_DIR) + "/recordings/left_handed_plates.h5";
    for (const char* verb : {"analyse", "verify", "mark"}) {
        CAPTURE(verb);
        const ProgramOutput said = said_to_full_disk({verb, recording});
        CHECK(said.exit_code == 5);
        CHECK(said.err.find("standard output") != std::string::npos);
    }
}

TEST_CASE("help and version that cannot be written are told too") {
    std::vector<std::vector<std::string>> asked{{"--help"}, {"--version"}, {"students", "add", "--help"}};
    for (const char* verb : {"emulate", "record", "import", "analyse", "lesson", "view", "book", "choose"})
        asked.push_back({verb, "--help"});
    for (const std::vector<std::string>& words : asked) {
        CAPTURE(words.front());
        const ProgramOutput said = said_to_full_disk(words);
        CHECK(said.exit_code == 5);
        CHECK(said.err.find("standard output: not all of what was said could be written") !=
              std::string::npos);
    }
}
