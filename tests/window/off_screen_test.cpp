#include "viewer/window/off_screen.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <string>

#include "tests/support/window_screens.h"
#include "viewer/panels/fonts.h"
#include "viewer/panels/view_action.h"

using namespace footing;

namespace {

constexpr int fuzz = 6;                   // of 255: about 2 %, what drivers differ by
constexpr double pixels_allowed = 0.005;  // that differ by more

using sample::open_sample;

ViewState screen_named(const std::string& name, Theme theme) {
    for (sample::NamedScreen& screen : sample::all_screens(sample::Names::usual)) {
        if (screen.name != name) continue;
        screen.state.theme = theme;
        return screen.state;
    }
    FAIL("there is no screen called " << name);
    return {};
}

/// Part of the pixels that differ by more than the fuzz in any colour; 1 for pictures of different size.
double difference(const Picture& one, const Picture& other) {
    if (one.size != other.size || one.rgb.size() != other.rgb.size() || one.rgb.empty()) return 1.0;
    std::size_t differing = 0;
    for (std::size_t pixel = 0; pixel < one.rgb.size(); pixel += 3) {
        for (std::size_t colour = 0; colour < 3; ++colour) {
            if (std::abs(one.rgb[pixel + colour] - other.rgb[pixel + colour]) > fuzz) {
                ++differing;
                break;
            }
        }
    }
    return 3.0 * static_cast<double>(differing) / static_cast<double>(one.rgb.size());
}

/// The picture, or nothing on a computer without EGL, which is said.
std::optional<Picture> drawn(const ViewState& state, PixelSize size) {
    auto picture = draw_off_screen(state, size);
    if (picture) return std::move(picture).value();
    REQUIRE(picture.problem().kind == ProblemKind::device_failed);
    MESSAGE("skipped: " << sentence(picture.problem()));
    return std::nullopt;
}

/// Compares with tests/golden/NAME.png; a missing one fails. FOOTING_WRITE_GOLDEN=1 writes it anew, to be
/// looked at.
void check_golden(const ViewState& state, const std::string& name) {
    if (find_fonts().family != "Inter") {
        MESSAGE(
            "skipped: the golden pictures are set in Inter, which is not on this computer (Debian: "
            "fonts-inter)");
        return;
    }
    const auto picture = drawn(state, {960, 600});
    if (!picture) return;
    const std::string path = std::string(FOOTING_SOURCE_DIR) + "/tests/golden/" + name + ".png";
    if (std::getenv("FOOTING_WRITE_GOLDEN") != nullptr) REQUIRE(write_png(*picture, path).ok());
    const auto golden = read_png(path);
    REQUIRE_MESSAGE(golden.ok(), "no golden picture at " << path);
    const double part = difference(*picture, golden.value());
    if (part > pixels_allowed) {
        const auto kept = std::filesystem::temp_directory_path() / (name + "_now.png");
        static_cast<void>(write_png(*picture, kept.string()));
        MESSAGE("what was drawn is in " << kept.string());
    }
    CHECK(part <= pixels_allowed);
}

}  // namespace

TEST_CASE("the window's picture is the golden one, light") {
    check_golden(open_sample(), "window_light");
}

TEST_CASE("the window's picture is the golden one, dark, two swings compared") {
    ViewState state = carry_out(carry_out(open_sample(), KeepForComparison{}), ChooseSwing{6});
    state = carry_out(carry_out(state, MoveHead{state.head_s - 0.2}), ToggleTheme{});
    check_golden(state, "window_dark_compared");
}

TEST_CASE("the window's picture is the golden one, nothing open") {
    check_golden(ViewState{}, "window_empty");
}

TEST_CASE("the screens of a lesson and pages of the book are the golden ones") {
    struct Golden {
        const char* screen;
        Theme theme;
    };
    for (const Golden& golden : {Golden{"set_up_below", Theme::paper},
                                 {"set_up_inside", Theme::sun},
                                 {"lesson_not_ready", Theme::slate},
                                 {"lesson_replay", Theme::paper},
                                 {"compared_all", Theme::slate},
                                 {"book_students", Theme::paper},
                                 {"book_next lesson", Theme::slate},
                                 {"book_distances", Theme::sun},
                                 {"book_progress", Theme::paper},
                                 {"plates_heard", Theme::paper},
                                 {"plates_calibrating", Theme::sun}}) {
        CAPTURE(golden.screen);
        std::string file = std::string("window_") + golden.screen;
        std::ranges::replace(file, ' ', '_');
        check_golden(screen_named(golden.screen, golden.theme), file);
    }
}

TEST_CASE("drawing the same twice gives the same bytes, and a moved head other ones") {
    const auto once = drawn(open_sample(), {640, 400});
    if (!once) return;
    const auto again = drawn(open_sample(), {640, 400});
    const auto moved = drawn(carry_out(open_sample(), StepTime{0.3}), {640, 400});
    CHECK(once->rgb == again->rgb);
    CHECK(difference(*once, *moved) > 0.001);
}

TEST_CASE("the ground of the picture is the theme's paper, from corner to corner") {
    for (const Theme theme : {Theme::paper, Theme::slate}) {
        ViewState state;
        state.theme = theme;
        const auto picture = drawn(state, {333, 251});
        if (!picture) return;
        const Colour paper = colour_of(Ink::paper, theme);
        for (const std::size_t pixel : {std::size_t{0}, picture->rgb.size() / 3 - 1}) {
            CHECK(picture->rgb[3 * pixel] == paper.red);
            CHECK(picture->rgb[3 * pixel + 1] == paper.green);
            CHECK(picture->rgb[3 * pixel + 2] == paper.blue);
        }
    }
}

TEST_CASE("sizes without sense are refused, with a remedy") {
    for (const PixelSize size : {PixelSize{0, 100}, PixelSize{-5, 100}, PixelSize{100, 100'000}}) {
        const auto picture = draw_off_screen(ViewState{}, size);
        REQUIRE_FALSE(picture.ok());
        CHECK(picture.problem().kind == ProblemKind::command_line);
        CHECK_FALSE(picture.problem().remedy.empty());
    }
}
