// What strangers write into recordings, tables and file names never steers the terminal of the reader.
// Control characters: ECMA-48 (C0, C1); characters that turn the direction: Unicode TR 9.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "tests/record/samples.h"
#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"

using namespace footing;
using test::footing_says;
using test::ProgramOutput;

namespace {

const std::string hostile =
    "\x1b]0;pwn\x07\x1b[31mred\u009b2J\u202Egnp.exe\xff"
    "\n\rnext";

/// Nothing but printable characters of valid UTF-8, and line ends.
void check_harmless(const std::string& text) {
    CAPTURE(text);
    for (const char letter : text) CHECK((letter == '\n' || static_cast<unsigned char>(letter) >= 0x20));
    for (const char* bad : {"\x7f", "\xff", "\u009b", "\u202E", "\u2066"}) {
        CHECK(text.find(bad) == std::string::npos);
    }
}

void write_recording(const std::string& path, RecordingInfo info) {
    Result<RecordingWriter> writer = RecordingWriter::create(path, info);
    REQUIRE(writer.ok());
    REQUIRE(writer.value().append(samples::cell_frames(0, 100)).ok());
    const Outcome closed = writer.value().close(info);
    REQUIRE_MESSAGE(closed.ok(), (closed.ok() ? "" : closed.problem().what));
}

}  // namespace

TEST_CASE("verify and recover show a stranger's recording without its control characters") {
    const test::ScratchFolder folder;
    RecordingInfo info = samples::info_for(samples::two_plates());
    info.device.name = "plates " + hostile;
    info.cause = "cause " + hostile;
    info.origin = "origin " + hostile;
    info.zone = "zone" + hostile;
    info.outcome = RecordingOutcome::lossy;
    write_recording(folder / "a.h5", info);
    const ProgramOutput verified = footing_says({"verify", folder / "a.h5"});
    CHECK(verified.exit_code == 0);
    CHECK(verified.out.find("plates ") != std::string::npos);
    CHECK(verified.out.find("origin ") != std::string::npos);
    check_harmless(verified.out + verified.err);
    const ProgramOutput recovered = footing_says({"recover", folder / "a.h5", "--out", folder / "b.h5"});
    CHECK(recovered.exit_code == 0);
    CHECK(recovered.out.find("cause ") != std::string::npos);
    check_harmless(recovered.out + recovered.err);
}

TEST_CASE("journals, and recordings that are played, show no control characters either") {
    const test::ScratchFolder folder;
    RecordingInfo info = samples::info_for(samples::two_plates());
    info.device.name = "plates " + hostile.substr(0, hostile.size() - 7);
    info.origin = info.device.name;
    {
        Result<JournalWriter> writer = JournalWriter::create(folder / "a.h5.journal", info, 0);
        REQUIRE(writer.ok());
        const FrameBlock block = samples::cell_frames(0, 100);
        for (std::size_t i = 0; i < block.size(); ++i) REQUIRE(writer.value().append(block.frame(i), 0).ok());
        REQUIRE(writer.value().close(info).ok());
    }
    write_recording(folder / "a.h5", info);
    const std::string port = "127.0.0.1:" + std::to_string(test::free_udp_port());
    for (const std::vector<std::string>& call :
         std::vector<std::vector<std::string>>{{"verify", folder / "a.h5.journal"},
                                               {"recover", folder / "a.h5.journal", "--out", folder / "b.h5"},
                                               {"play", folder / "a.h5.journal", "--udp", port},
                                               {"play", folder / "a.h5", "--udp", port}}) {
        const ProgramOutput said = footing_says(call);
        CHECK_MESSAGE(said.exit_code == 0, said.err);
        CHECK((said.out + said.err).find("plates ") != std::string::npos);
        check_harmless(said.out + said.err);
    }
}

TEST_CASE("words of a recording are shown cut when they are long") {
    const test::ScratchFolder folder;
    RecordingInfo info = samples::info_for(samples::two_plates());
    info.device.name = std::string(60'000, 'n');
    info.cause = std::string(60'000, 'c');
    info.origin = std::string(60'000, 'o');
    write_recording(folder / "a.h5", info);
    const ProgramOutput said = footing_says({"verify", folder / "a.h5"});
    CHECK(said.out.size() < 2000);
    CHECK(said.out.find("1000 Hz") != std::string::npos);
}

TEST_CASE("errors name hostile files and words without their control characters") {
    const test::ScratchFolder folder;
    const std::string table = folder / "w.csv";
    test::write_file(table, "from_s,to_s,plate,kg\n0,1,left" + hostile.substr(0, 12) + ",5\n");
    const std::vector<std::vector<std::string>> calls{
        {"verify", folder / ("no" + hostile)},
        {"import", folder / ("no" + hostile + ".csv"), "--out", folder / "a.h5"},
        {"analyse", folder / ("no" + hostile)},
        {"emulate", "--udp", "127.0.0.1:9", "--weights", table},
        {"emulate", "--udp", "127.0.0.1:9", "--mat", hostile},
        {"record", "--udp", hostile, "--out", folder / "a.h5"},
        {hostile}};
    for (const std::vector<std::string>& call : calls) {
        const ProgramOutput said = footing_says(call);
        CHECK(said.exit_code != 0);
        CHECK(said.err.size() > 20);
        check_harmless(said.out + said.err);
    }
}

TEST_CASE("verify says where an import comes from, and of a grid without a name that it has none") {
    const test::ScratchFolder folder;
    test::write_file(folder / "g.json",
                     R"({"name": "", "serial": 0, "rate_hz": 50, "grid": {"rows": 2, "columns": 3,
                         "pitch_mm": [10, 10]}})");
    test::write_file(folder / "ex.csv",
                     "time_s,cell_1,cell_2,cell_3,cell_4,cell_5,cell_6\n0,1,2,3,4,5,6\n0.02,1,2,3,4,5,6\n");
    const ProgramOutput imported =
        footing_says({"import", folder / "ex.csv", "--layout", folder / "g.json", "--out", folder / "d.h5"});
    REQUIRE_MESSAGE(imported.exit_code == 0, imported.err);
    const ProgramOutput said = footing_says({"verify", folder / "d.h5"});
    CHECK_MESSAGE(said.out.find("from imported") == std::string::npos, said.out);
    CHECK(said.out.find("s imported from ex.csv, clean") != std::string::npos);
    CHECK(said.out.find(", imported from ex.csv\n") != std::string::npos);
    CHECK(said.out.find("device: without a name (serial number 0)") != std::string::npos);
}
