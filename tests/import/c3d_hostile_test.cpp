// C3D files that are wrong, cut off or made to harm (R22): a clear message or fewer frames, never a crash.

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>
#include <filesystem>
#include <limits>
#include <random>
#include <string>
#include <vector>

#include "acquisition/import/c3d_import.h"
#include "acquisition/import/c3d_loads.h"
#include "acquisition/record/recording_reader.h"
#include "tests/import/c3d_stand.h"
#include "tests/support/child_process.h"

using namespace footing;
using namespace footing::test;

namespace {

C3dSample small_sample() {
    C3dSample file;
    const C3dStand stand;
    stand.record(file, stand.plate(2, 0, {1, 0, 0}), 0, 40);
    stand.record(file, stand.plate(3, 1, {0, 1, 0}), 1, 40);
    return file;
}

void save(const std::string& path, const std::vector<std::byte>& bytes) {
    write_file(path, std::string(reinterpret_cast<const char*>(bytes.data()), bytes.size()));
}

/// The refusal of a file with these bytes.
Problem refusal(const std::vector<std::byte>& bytes, const C3dImportOptions& options = {}) {
    const auto file = C3dFile::open(in_memory(bytes), "sample.c3d");
    if (!file) return file.problem();
    const auto loads = C3dLoads::open(file.value(), options);
    REQUIRE_FALSE(loads.ok());
    return loads.problem();
}

bool says(const Problem& problem, const std::string& words) {
    return sentence(problem).find(words) != std::string::npos;
}

std::uint64_t try_everything(const std::vector<std::byte>& bytes) {
    const auto file = C3dFile::open(in_memory(bytes), "sample.c3d");
    if (!file) return 0;
    const auto events = file.value().events();
    const auto loads = C3dLoads::open(file.value(), {});
    if (!loads) return events.size();
    const auto values = loads.value().read(0, 64);
    return 1 + (values.ok() ? values.value().size() : 0);
}

}  // namespace

TEST_CASE("what is missing or absurd is told in words") {
    C3dSample file = small_sample();
    SUBCASE("no plates") {
        file.plates.clear();
        CHECK(says(refusal(file.bytes()), "no force plates"));
    }
    SUBCASE("no channels") {
        file.channels.clear();
        CHECK(says(refusal(file.bytes()), "no analog channels"));
    }
    SUBCASE("another type") {
        for (auto& plate : file.plates) plate.type = 5;
        CHECK(says(refusal(file.bytes()), "of type 5"));
    }
    SUBCASE("corners that are no plate") {
        for (auto& plate : file.plates) plate.corners_m[2] = {1e10, 1e-30, 3.0};
        CHECK(says(refusal(file.bytes()), "corners"));
        for (auto& plate : file.plates) plate.corners_m[2] = {std::nan(""), 0.0, 0.0};
        CHECK(says(refusal(file.bytes()), "corners"));
        for (auto& plate : file.plates) plate.corners_m = {};
        CHECK(says(refusal(file.bytes()), "corners"));
    }
    SUBCASE("one plate stands upright") {
        const C3dVector at{0.5, 0.0, 0.0};
        file.plates[1].corners_m = corners_of(at, {0, 1, 0}, {0, 0, 1}, 0.46, 0.5);
        CHECK(says(refusal(file.bytes()), "one plane"));
    }
    SUBCASE("a channel that is not there") {
        file.channels.pop_back();
        C3dImportOptions options;
        options.plates = {{C3dPlateUse::Foot::left, 1}, {C3dPlateUse::Foot::right, 2}};
        const Problem problem = refusal(file.bytes(), options);
        CHECK(says(problem, "channels"));
        CHECK(says(problem, "force plate 2"));
    }
    SUBCASE("a plate that is not there") {
        C3dImportOptions options;
        options.plates = {{C3dPlateUse::Foot::left, 3}};
        CHECK(refusal(file.bytes(), options).kind == ProblemKind::command_line);
    }
    SUBCASE("three plates and no word which") {
        C3dStand stand;
        stand.middle_m = {2.0, 0.0, 0.0};
        stand.record(file, stand.plate(2, 0, {1, 0, 0}), 0, 40);
        CHECK(says(refusal(file.bytes()), "--plates"));
    }
    SUBCASE("a value that is no number, and where") {
        file.channels[2][17] = std::numeric_limits<double>::quiet_NaN();
        const Problem problem = refusal(file.bytes());
        CHECK(says(problem, "analog frame 18"));
        CHECK(says(problem, "force plate 1"));
    }
    SUBCASE("a load that no plate bears") {
        file.channels[2][17] = 1e9;
        CHECK(says(refusal(file.bytes()), "more than any plate bears"));
    }
    SUBCASE("an unknown unit of length") {
        file.length_unit = "ell";
        CHECK(says(refusal(file.bytes()), "unit"));
    }
    SUBCASE("not a C3D file") {
        CHECK(says(refusal(std::vector<std::byte>(2000)), "no C3D file"));
        CHECK(says(refusal({}), "too short"));
    }
}

TEST_CASE("a file with a missing end gives what it holds and says so") {
    const ScratchFolder scratch;
    std::vector<std::byte> bytes = small_sample().bytes();
    const std::size_t frame_bytes = (2 * 4 + 10 * 14) * 4;
    const std::size_t data = bytes.size() - 4 * frame_bytes - (512 - 4 * frame_bytes % 512) % 512;
    bytes.resize(data + 3 * frame_bytes + 100);
    save(scratch / "cut.c3d", bytes);
    const auto done = import_c3d(scratch / "cut.c3d", scratch / "cut.h5", {});
    REQUIRE_MESSAGE(done.ok(), sentence(done.problem()));
    auto reader = RecordingReader::open(scratch / "cut.h5");
    REQUIRE(reader.ok());
    CHECK(reader.value().info().frame_count == 30);
    CHECK(reader.value().info().outcome == RecordingOutcome::truncated);
    CHECK(reader.value().info().cause.find("1 of its 3-D frames") != std::string::npos);
}

TEST_CASE("events become notes; an impact sets the trigger") {
    const ScratchFolder scratch;
    C3dSample file = small_sample();
    file.first_frame = 1001;  // events count from the start of the trial, 10 s earlier
    file.events = {{10.020, "Impact", "General"}, {10.005, "Takeaway", "Left"}, {9.0, "Early", ""}};
    save(scratch / "swing.c3d", file.bytes());
    REQUIRE(import_c3d(scratch / "swing.c3d", scratch / "swing.h5", {}).ok());
    auto reader = RecordingReader::open(scratch / "swing.h5");
    REQUIRE(reader.ok());
    const auto& notes = reader.value().info().notes;
    const auto find = [&](const std::string& words) -> const RecordingNote* {
        for (const auto& note : notes) {
            if (note.text.find(words) != std::string::npos) return &note;
        }
        return nullptr;
    };
    REQUIRE(find("Impact"));
    CHECK(std::abs(find("Impact")->host_time_ns - 20'000'000) < 10'000);
    REQUIRE(find("Left Takeaway"));
    CHECK(std::abs(find("Left Takeaway")->host_time_ns - 5'000'000) < 10'000);
    CHECK(find("Early") == nullptr);
    CHECK(find("1 event of the file lies outside"));
    const auto block = reader.value().read(0, 40);
    REQUIRE(block.ok());
    for (std::size_t i = 0; i < 40; ++i) {
        CAPTURE(i);
        CHECK((block.value().stamps[i].inputs == trigger_bit) == (i >= 20 && i < 25));
    }
}

TEST_CASE("an existing recording is never overwritten") {
    const ScratchFolder scratch;
    save(scratch / "swing.c3d", small_sample().bytes());
    write_file(scratch / "there.h5", "mine");
    const auto done = import_c3d(scratch / "swing.c3d", scratch / "there.h5", {});
    REQUIRE_FALSE(done.ok());
    CHECK(read_file(scratch / "there.h5") == "mine");
}

TEST_CASE("no file, a folder, an empty file") {
    const ScratchFolder scratch;
    write_file(scratch / "empty.c3d", "");
    for (const std::string& path : {scratch / "none.c3d", scratch.path(), scratch / "empty.c3d"}) {
        const auto done = import_c3d(path, scratch / "out.h5", {});
        REQUIRE_FALSE(done.ok());
        CHECK(done.problem().kind == ProblemKind::bad_input);
    }
}

TEST_CASE("cut off at every byte, and with bytes changed: no crash, memory bounded") {
    const std::vector<std::byte> whole = small_sample().bytes();
    for (std::size_t length = 0; length < whole.size(); length += length < 3000 ? 1 : 97) {
        try_everything({whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length)});
    }
    std::mt19937_64 chance(7);
    std::uint64_t read = 0;
    for (int round = 0; round < 20000; ++round) {
        std::vector<std::byte> bytes = whole;
        const std::size_t changes = 1 + chance() % 6;
        for (std::size_t i = 0; i < changes; ++i) {
            // Half of them in header and parameters, where they do most harm.
            const std::size_t place = chance() % (chance() % 2 == 0 ? 2560 : bytes.size());
            bytes[place] = static_cast<std::byte>(chance() & 0xFFU);
        }
        read += try_everything(bytes) > 0 ? 1 : 0;
    }
    CHECK(read > 5000);  // most changes leave a file that still says something
}

TEST_CASE("reals of a VAX") {
    // The examples of libvaxdata (Baker, USGS Open-File Report 2005-1424; from memory): F_floating as a
    // little-endian 32-bit number.
    struct Example {
        float value;
        std::uint32_t bits;
    };
    for (const Example& example : {Example{1.0F, 0x00004080U},
                                   {-1.0F, 0x0000C080U},
                                   {3.5F, 0x00004160U},
                                   {-3.5F, 0x0000C160U},
                                   {3.14159F, 0x0FD04149U},
                                   {9.9999999e36F, 0xBDC27DF0U},
                                   {9.9999999e-38F, 0x1CEA0308U},
                                   {1.23456789F, 0x0653409EU}}) {
        std::vector<std::byte> bytes(4);
        for (unsigned i = 0; i < 4; ++i) bytes[i] = static_cast<std::byte>((example.bits >> (8 * i)) & 0xFFU);
        CHECK(C3dNumbers(bytes, C3dByteOrder::dec).real(0) == doctest::Approx(example.value).epsilon(2e-7));
    }
    const std::vector<std::byte> reserved{std::byte{0}, std::byte{0x80}, std::byte{0}, std::byte{0}};
    CHECK(std::isnan(C3dNumbers(reserved, C3dByteOrder::dec).real(0)));
    CHECK(C3dNumbers(std::vector<std::byte>(4), C3dByteOrder::dec).real(0) == 0.0F);
}
