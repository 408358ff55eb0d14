#include "viewer/window/window_memory.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "tests/support/child_process.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("a window begins as it was left") {
    const ScratchFolder scratch;
    const std::filesystem::path file = std::filesystem::path(scratch / "new folder") / "window.json";
    CHECK(read_window_memory(file) == WindowMemory{});
    ViewState state;
    state.theme = Theme::sun;
    state.text_size = 3;
    state.sounds = Sounds::off;
    state.speed = 1;
    state.looping = Looping::on;
    state.recent = {"/home/coach/b.h5", "/home/coach/bad \xFF byte.h5", "/home/coach/ä.h5"};
    REQUIRE(write_window_memory(file, memory_of(state, {1600, 900})).ok());
    const WindowMemory read = read_window_memory(file);
    CHECK(read.size == PixelSize{1600, 900});
    const ViewState begun = with_memory({}, read);
    CHECK(begun.theme == Theme::sun);
    CHECK(begun.text_size == 3);
    CHECK(begun.sounds == Sounds::off);
    CHECK(begun.speed == 1);
    CHECK(begun.looping == Looping::on);
    REQUIRE(begun.recent.size() == 3);
    CHECK(begun.recent[2] == "/home/coach/ä.h5");
    // For its owner only: it names people's recordings.
    const auto others = std::filesystem::perms::group_all | std::filesystem::perms::others_all;
    CHECK((std::filesystem::status(file).permissions() & others) == std::filesystem::perms::none);
}

TEST_CASE("what is damaged or from elsewhere leaves the window as designed") {
    const ScratchFolder scratch;
    for (const char* text :
         {"", "{", "[]", "null", "{\"format\": \"footing window\", \"version\": 2, \"theme\": \"dark\"}",
          "{\"format\": \"footing window\", \"version\": 1, \"theme\": 7, \"text_size\": 99, \"speed\": -1, "
          "\"width\": 3, \"height\": 1e9, \"recent\": [1, null, {}]}"}) {
        std::ofstream(scratch / "window.json") << text;
        CHECK(read_window_memory(scratch / "window.json") == WindowMemory{});
    }
}

TEST_CASE("where it cannot be kept, that is a problem with the disk") {
    const auto written = write_window_memory("/proc/no/window.json", {});
    REQUIRE_FALSE(written.ok());
    CHECK(written.problem().kind == ProblemKind::disk_failed);
}
