#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <utility>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/window_screens.h"

using namespace footing;
using bench::press;
using bench::ScreenBench;
using bench::shows;

// What is told stands there in full, or keeps its ends: where a file is, how to take something back.

namespace {

std::string long_path() {
    return "/media/coach/" + std::string(140, 'f') +
           "/lessons of the second half of the year/2026-05-14_102044";
}

/// Texts of the message bar.
std::vector<PlacedText> told(const ScreenDrawn& drawn) {
    std::vector<PlacedText> lines;
    std::ranges::copy_if(drawn.texts, std::back_inserter(lines),
                         [](const PlacedText& placed) { return placed.panel == "notice"; });
    return lines;
}

}  // namespace

TEST_CASE("on every screen what is told can be read: its beginning, its end, and nothing leaves the bar") {
    const std::string begins = "The report is written: lesson.pdf";
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1920.0F, 1080.0F}}) {
        ScreenBench screen(width, height);
        for (sample::NamedScreen& one : sample::all_screens(sample::Names::usual)) {
            const bool other_bar = one.name == "lesson_asked" || one.name == "lesson_asked_set_up" ||
                                   one.name == "recording_reading";  // these stand there first
            if (other_bar) continue;
            one.state.notice =
                begins + ", and the student's: lesson.student.pdf. In the folder " + long_path();
            CAPTURE(one.name);
            const ScreenDrawn drawn = screen.draw(one.state);
            const std::vector<PlacedText> lines = told(drawn);
            REQUIRE_FALSE(lines.empty());
            CHECK(lines.front().text.starts_with(begins));
            CHECK(lines.back().text.ends_with("2026-05-14_102044"));
            for (const PlacedText& line : lines) {
                CHECK(line.cut == Cut::whole);
                CHECK(line.drawn.inside(line.allowed));
                CHECK(line.drawn.inside(drawn.layout.window));
            }
        }
    }
}

TEST_CASE("a notice of ordinary length stands there in full, at the usual size of text") {
    ScreenBench screen(1280, 720);
    ViewState state = bench::open_sample();
    state.notice =
        "The report is written: 2026-11-30_102044.pdf, and the student's: 2026-11-30_102044.student.pdf. In "
        "the "
        "folder /home/coach/.local/share/footing/lessons";
    std::string all;
    const std::vector<PlacedText> lines = told(screen.draw(state));
    for (const PlacedText& line : lines) all += (all.empty() ? "" : " ") + line.text;
    CHECK(all == state.notice);
    REQUIRE_FALSE(lines.empty());
    CHECK(lines.front().drawn.height() > 17.0F);  // 16 px, not 13
}

TEST_CASE("a path in a problem keeps the name of its file") {
    ScreenBench screen(1280, 720);
    ViewState state = bench::open_sample();
    state.problem = Problem{ProblemKind::bad_input, "/media/coach/" + std::string(300, 'f') + "/swings.csv",
                            "this is not a recording", "import it first"};
    CHECK(shows(screen.draw(state), "/swings.csv"));
}

TEST_CASE("each step of text says what it did, and why a window shows it no larger") {
    const KeyPress larger{.character = U'+', .modifier = Modifier::control};
    const KeyPress smaller{.character = U'-', .modifier = Modifier::control};
    ViewState state = bench::open_sample();
    state.text_room = room_for_text(1280, 720);
    CHECK(state.text_room > 1.1F);
    CHECK(state.text_room < 1.2F);
    state = press(std::move(state), larger);
    CHECK(state.notice.find("this window has room for") != std::string::npos);
    state.text_room = room_for_text(3840, 2160);
    state = press(std::move(state), larger);
    CHECK(state.notice == "Text at 145 % of its usual size.");
    state = press(std::move(state), larger);
    CHECK(state.notice.find("no larger") != std::string::npos);
    for (int i = 0; i < 6; ++i) state = press(std::move(state), smaller);
    CHECK(state.notice == "Text at 80 % of its usual size. It gets no smaller.");
    // What the faces are drawn for goes in steps of 1/16 (fit_fonts): one of them at least.
    CHECK(screen_scale(1280, 720, 1.0F, text_sizes[usual_text_size + 1]) >= 1.0F + 1.0F / 16.0F);
}
