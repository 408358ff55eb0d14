#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "tests/window/x_desk.h"
#include "tests/window/x_drop.h"

using namespace footing::test;

TEST_CASE("a file that is dropped onto the window opens, and a table becomes a recording first") {
    const auto desk = XDesk::set_up();
    if (!desk) return;
    const Screen& screen = desk->screen();
    const std::string recordings = std::string(FOOTING_SOURCE_DIR) + "/recordings/";
    // A name as people give them: a space, and letters beyond ASCII.
    const std::string table = desk->file("half swings, größer.csv");
    std::filesystem::copy_file(recordings + "half_swings.csv", table);
    const std::string recording = desk->file("a lesson.h5");
    std::filesystem::copy_file(recordings + "left_handed_plates.h5", recording);

    const auto program = desk->open({"view"});
    REQUIRE(screen.becomes([&] { return desk->has_window("Footing$"); }));
    CHECK_FALSE(drop_file(desk->display(), "no window of that name", recording));
    CHECK(drop_file(desk->display(), "Footing", recording));
    CHECK(screen.becomes([&] { return desk->has_window(".*a lesson.h5 - Footing"); }));
    CHECK(drop_file(desk->display(), "", table));
    CHECK(screen.becomes([&] { return desk->has_window(".*half swings, größer.h5 - Footing"); }));
    CHECK(std::filesystem::exists(desk->file("half swings, größer.h5")));
    CHECK(desk->type_key("ctrl+q"));
    CHECK(program->wait() == 0);
}
