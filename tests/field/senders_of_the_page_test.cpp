#include <doctest/doctest.h>
#include <unistd.h>

#include <cmath>
#include <numbers>

#include "acquisition/record/recording_reader.h"
#include "tests/support/child_process.h"
#include "tests/support/page_block.h"
#include "viewer/lesson/read_loads.h"

// The complete senders on docs/device_protocol.md, beside the program that records them, as the page says.

using namespace footing;
using namespace footing::test;

namespace {

/// Records two seconds of a sender, which it starts, and compares what was recorded with what was sent.
void check_recorded(const std::vector<std::string>& sender_words, const ScratchFolder& folder) {
    const int port = free_udp_port();
    std::vector<std::string> words = sender_words;
    words.insert(words.end(), {"127.0.0.1", std::to_string(port), "20"});
    const ChildProcess sender(words);
    const ProgramOutput record = run_program(
        {FOOTING_PROGRAM, "record", "--udp", here(port), "--out", folder / "a.h5", "--seconds", "2"});
    REQUIRE_MESSAGE(record.exit_code == 0, record.err);
    const auto loads = read_loads(folder / "a.h5");
    REQUIRE_MESSAGE(loads.ok(), sentence(loads.problem()));
    const LoadTrace& trace = loads.value().trace;
    REQUIRE(trace.size() >= 2000);
    CHECK(loads.value().facts.losses.lost == 0);
    CHECK(loads.value().facts.losses.damaged == 0);
    auto reader = RecordingReader::open(folder / "a.h5");
    REQUIRE(reader.ok());
    const auto first = reader.value().read(0, 1);
    REQUIRE(first.ok());
    // Both senders count from zero and stand with 0.5 + 0.2 sin(pi t) of 800 N on the left foot.
    for (std::size_t i = 0; i < trace.size(); ++i) {
        const double sent_s =
            static_cast<double>(first.value().stamps.front().counter) / 1000.0 + trace.time_s[i];
        const double left = 0.5 + 0.2 * std::sin(std::numbers::pi * sent_s);
        REQUIRE(trace.total_n[i] == doctest::Approx(800.0).epsilon(1e-5));
        REQUIRE(trace.left_n[i] == doctest::Approx(800.0 * left).epsilon(1e-5));
        REQUIRE(trace.right_n[i] == doctest::Approx(800.0 * (1.0 - left)).epsilon(1e-5));
    }
}

}  // namespace

TEST_CASE("the sender in Python on the protocol's page is recorded, and its shares are those it sent") {
    if (::access("/usr/bin/python3", X_OK) != 0) {
        MESSAGE("skipped: no python3 here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "sender.py", block_of_page("docs/device_protocol.md", "python"));
    check_recorded({"/usr/bin/python3", folder / "sender.py"}, folder);
}

TEST_CASE("the sender in C on the protocol's page is recorded, and its shares are those it sent") {
    if (::access("/usr/bin/cc", X_OK) != 0) {
        MESSAGE("skipped: no C compiler here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "sender.c", block_of_page("docs/device_protocol.md", "c"));
    const ProgramOutput built =
        run_program({"/usr/bin/cc", "-std=c99", "-Wall", "-Wextra", "-Werror", "-pedantic",
                     folder / "sender.c", "-o", folder / "sender", "-lm"});
    REQUIRE_MESSAGE(built.exit_code == 0, built.err);
    check_recorded({folder / "sender"}, folder);
}
