#include <doctest/doctest.h>

#include <cstdlib>
#include <filesystem>
#include <string>

#include "tests/support/window_screens.h"
#include "viewer/window/off_screen.h"

using namespace footing;

// Not a check: FOOTING_SCREENS=FOLDER draws every screen at the sizes that coaches have, in all three themes,
// to be looked at. ./start screens FOLDER does that.
TEST_CASE("every screen, drawn to be looked at") {
    const char* folder = std::getenv("FOOTING_SCREENS");
    if (folder == nullptr) return;
    struct Look {
        const char* name;
        PixelSize size;
        Theme theme;
        sample::Names names;
        std::size_t text_size = usual_text_size;
    };
    using enum sample::Names;
    for (const Look& look : {Look{"720_light", {1280, 720}, Theme::paper, usual},
                             Look{"720_long_dark", {1280, 720}, Theme::slate, very_long},
                             Look{"720_outdoors", {1280, 720}, Theme::sun, usual},
                             Look{"720_larger_text", {1280, 720}, Theme::paper, usual, usual_text_size + 1},
                             Look{"1080_light", {1920, 1080}, Theme::paper, usual},
                             Look{"1080_outdoors", {1920, 1080}, Theme::sun, usual},
                             Look{"1080_dark", {1920, 1080}, Theme::slate, usual},
                             Look{"2160_long_outdoors", {3840, 2160}, Theme::sun, very_long},
                             Look{"2160_dark", {3840, 2160}, Theme::slate, usual},
                             Look{"2160_long_light", {3840, 2160}, Theme::paper, very_long}}) {
        const std::filesystem::path into = std::filesystem::path(folder) / look.name;
        std::filesystem::create_directories(into);
        for (sample::NamedScreen& screen : sample::all_screens(look.names)) {
            screen.state.theme = look.theme;
            screen.state.text_size = look.text_size;
            const auto picture = draw_off_screen(screen.state, look.size);
            REQUIRE(picture.ok());
            REQUIRE(write_png(picture.value(), (into / (screen.name + ".png")).string()).ok());
        }
    }
}
