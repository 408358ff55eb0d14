#include <doctest/doctest.h>

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"
#include "tests/support/wait_until.h"

using namespace footing::test;

namespace {

/// One sentence that names the trouble and what to do, and nothing on standard output.
void check_told(const ProgramOutput& said, int exit_code) {
    CAPTURE(said.err);
    CHECK(said.exit_code == exit_code);
    CHECK(said.err.rfind("footing: ", 0) == 0);
    CHECK(said.err.find("; ") != std::string::npos);
    CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
    CHECK(said.out.empty());
}

/// Whether the program, begun as a child of the test's, has a handler of its own for this signal, or is over.
bool heeds_or_ended(pid_t program, int signal) {
    const std::string process = "/proc/" + std::to_string(program);
    std::error_code over;
    const auto runs = std::filesystem::read_symlink(process + "/exe", over);
    if (over) return true;
    if (!std::filesystem::equivalent(runs, FOOTING_PROGRAM, over)) return false;  // the test's, for a moment
    std::ifstream status(process + "/status");
    for (std::string word; status >> word;) {
        if (word == "State:" && status >> word && word == "Z") return true;
        if (word != "SigCgt:") continue;
        std::uint64_t caught = 0;
        status >> std::hex >> caught;
        return (caught >> (signal - 1) & 1) != 0;
    }
    return true;
}

}  // namespace

TEST_CASE("names that the system cannot look at are told by every verb that reads a recording") {
    const ScratchFolder scratch;
    const std::string ring = scratch / "ring.h5";
    std::filesystem::create_symlink("ring.h5", ring);
    const std::vector<std::vector<std::string>> readers{{"analyse"},
                                                        {"mark"},
                                                        {"compare"},
                                                        {"steadiness"},
                                                        {"verify"},
                                                        {"report", "--out", scratch / "r.pdf"},
                                                        {"view", "--screenshot", scratch / "s.png"},
                                                        {"export", "--out", scratch / "o.c3d"},
                                                        {"recover", "--out", scratch / "saved.h5"},
                                                        {"play", "--udp", "127.0.0.1:9"}};
    for (std::vector<std::string> words : readers) {
        CAPTURE(words.front());
        for (const std::string& file : {ring, std::string(5000, 'x'), scratch / "missing" + "/a.h5"}) {
            std::vector<std::string> with_file = words;
            with_file.insert(with_file.begin() + 1, file);
            check_told(footing_says(with_file), 3);
        }
        words.insert(words.begin() + 1, "");
        check_told(footing_says(words), 2);
    }
}

TEST_CASE("a word that is empty, or a number that is none, is refused wherever it stands") {
    const std::string recording = std::string(FOOTING_SOURCE_DIR) + "/recordings/left_handed_plates.h5";
    const ScratchFolder scratch;
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"mark", recording, "--kind", ""},
             {"analyse", recording, "--json", ""},
             {"report", recording, "--out", scratch / "r.png", "--swing", ""},
             {"view", recording, "--screenshot", scratch / "s.png", "--at", "nan"},
             {"view", recording, "--screenshot", scratch / "s.png", "--at", "inf"},
             {"import", recording, "--out", scratch / "a.h5", "--layout", ""}}) {
        CAPTURE(words.front());
        check_told(footing_says(words), 2);
    }
    CHECK(std::filesystem::is_empty(scratch.path()));
}

TEST_CASE("a recording of which nothing is left is not sent to be recovered") {
    const ScratchFolder scratch;
    std::string bytes = read_file(std::string(FOOTING_SOURCE_DIR) + "/recordings/left_handed_plates.h5");
    bytes[bytes.size() / 2] ^= 0x40;  // within the one chunk that holds all of its counts
    write_file(scratch / "flipped.h5", bytes);
    const auto verified = footing_says({"verify", scratch / "flipped.h5"});
    CHECK(verified.exit_code == 3);
    CHECK(verified.err.find("6764 of 6764 frames are damaged") != std::string::npos);
    CHECK(verified.err.find("look for a copy") != std::string::npos);
    check_told(footing_says({"recover", scratch / "flipped.h5", "--out", scratch / "saved.h5"}), 3);
}

TEST_CASE("a recording under way is told apart from one that was never closed") {
    const ScratchFolder scratch;
    const std::string address = here(free_udp_port());
    ChildProcess recorder({FOOTING_PROGRAM, "record", "--udp", address, "--out", scratch / "lesson.h5"});
    REQUIRE(footing_says({"emulate", "--udp", address, "--fast", "50", "--swings", "1"}).exit_code == 0);
    const auto analysed = footing_says({"analyse", scratch / "lesson.h5"});
    check_told(analysed, 3);
    CHECK(analysed.err.find("is being written by another program") != std::string::npos);
    recorder.send_signal(SIGINT);
    CHECK(recorder.wait() == 0);
}

TEST_CASE("an import that is asked to end is over, or was given up and leaves nothing half-made") {
    const ScratchFolder scratch;
    std::string csv = "time_s,left_n,right_n\n";
    for (int i = 0; i < 600000; ++i) csv += std::to_string(i) + "e-3,500,250\n";
    write_file(scratch / "long.csv", csv);
    ChildProcess import({FOOTING_PROGRAM, "import", scratch / "long.csv", "--out", scratch / "long.h5"});
    wait_until([&] { return heeds_or_ended(import.id(), SIGINT); });
    import.send_signal(SIGINT);
    const int exit_code = import.wait();
    CHECK((exit_code == 0 || exit_code == 3));
    CHECK(std::filesystem::exists(scratch / "long.h5") == (exit_code == 0));
    CHECK(std::distance(std::filesystem::directory_iterator(scratch.path()),
                        std::filesystem::directory_iterator()) == (exit_code == 0 ? 2 : 1));
}
