#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"

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
