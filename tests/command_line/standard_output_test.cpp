#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"

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

TEST_CASE("a recording goes on when nothing can be said any more, and is closed whole") {
    const ScratchFolder folder;
    const auto send = [](const std::string& address) {
        CHECK(footing_says({"emulate", "--udp", address, "--fast", "20", "--swings", "1"}).exit_code == 0);
    };
    const auto check_whole = [&](const std::string& recording) {
        const ProgramOutput verified = footing_says({"verify", recording});
        CHECK_MESSAGE(verified.exit_code == 0, verified.err);
        CHECK(verified.out.find("all of it is as it was written") != std::string::npos);
        CHECK(read_file(recording + ".journal").empty());
    };
    SUBCASE("a terminal that takes no more") {
        const std::string address = here(free_udp_port());
        ChildProcess recorder(
            {FOOTING_PROGRAM, "record", "--udp", address, "--out", folder / "full.h5", "--idle", "1"},
            "/dev/full", "/dev/full");
        send(address);
        CHECK(recorder.wait() == 5);
        check_whole(folder / "full.h5");
    }
    SUBCASE("whoever read along has ended") {
        const std::string address = here(free_udp_port());
        const std::string line = std::string(FOOTING_PROGRAM) + " record --udp " + address + " --out " +
                                 (folder / "piped.h5") + " --idle 1 2>&1 | true";
        ChildProcess recorder({"/bin/sh", "-c", line});
        send(address);
        CHECK(recorder.wait() == 0);  // of the reader
        check_whole(folder / "piped.h5");
    }
}
