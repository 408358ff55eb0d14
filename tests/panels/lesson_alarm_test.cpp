#include <doctest/doctest.h>

#include <algorithm>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"

using namespace footing;
using bench::press;
using bench::ScreenBench;
using bench::shows;
using bench::type;
using sample::caught;
using sample::hear;
using sample::running;

// What the coach must see of a lesson that is not as it should be (U2, R9, R18).

TEST_CASE("a stall is told in red on every screen of a lesson: swings laid over each other, book, keys") {
    ScreenBench screen(1280, 720);
    LiveView live = caught(20.0, 3);
    live.progress.newest_age_s = 2.0;
    ViewState state = hear(hear({}, running(1.0)), live);
    CHECK(shows(screen.draw(type(state, U"v")), "STALLED"));
    CHECK(shows(screen.draw(type(state, U"?")), "STALLED"));
    CHECK(shows(screen.draw(type(state, U"n")), "STALLED"));
    CHECK(shows(screen.draw(carry_out(state, CloseWindow{})), "STALLED"));
    state.book.emplace();
    for (const BookPage page : book_pages)
        CHECK(shows(screen.draw(carry_out(state, BookAction{OpenPage{page}})), "STALLED"));
    CHECK_FALSE(shows(screen.draw(type(hear(state, caught(21.0, 3)), U"v")), "STALLED"));
}

TEST_CASE("a zero is not called young while the plates are silent") {
    LiveView live = running(1.0);
    live.zero_age_s = 20.0;
    live.progress.newest_age_s = 200.0;
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(hear({}, live));
    CHECK(shows(drawn, "zero from before the silence"));
    CHECK_FALSE(shows(drawn, "zero less than a minute old"));
}

TEST_CASE("while the plates are looked for, what is missing stands there in red words, consent too") {
    LiveView looking = running(0.0);
    looking.stage = LessonStage::looking_for_plates;
    ViewState state = hear({}, looking);
    state.desk->student = Student{};
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "no plates heard yet: nothing is recorded"));
    CHECK(shows(screen.draw(state), "not asked yet whether the lesson may be recorded: Ctrl 2"));
    state.desk->golfer = Golfer::simulated;
    CHECK_FALSE(shows(screen.draw(state), "may be recorded"));
    // The coach's size of text holds there too.
    const auto height = [&](std::size_t text_size) {
        ViewState sized = state;
        sized.text_size = text_size;
        const ScreenDrawn drawn = screen.draw(sized);
        const auto line = std::ranges::find_if(drawn.texts, [](const PlacedText& placed) {
            return placed.text.find("no plates heard yet") != std::string::npos;
        });
        REQUIRE(line != drawn.texts.end());
        return line->drawn.height();
    };
    CHECK(height(usual_text_size + 1) > 1.1F * height(usual_text_size));
    CHECK(height(0) < 0.9F * height(usual_text_size));
}

TEST_CASE("the line beside the proof is never cut: what is good gives way to what is missing") {
    for (const float width : {1280.0F, 1920.0F}) {
        ScreenBench screen(width, width * 9.0F / 16.0F);
        LiveView live = running(1.0);
        live.zero_age_s.reset();
        live.zero_advice = ZeroAdvice::none_yet;
        live.weight_n.reset();
        live.calibration_state = CalibrationState::nominal;
        ViewState state = hear({}, live);
        state.desk->student = Student{};
        const ScreenDrawn drawn = screen.draw(state);
        for (const PlacedText& placed : drawn.texts) {
            CAPTURE(placed.text);
            CHECK(placed.cut == Cut::whole);
        }
        CHECK(shows(drawn, "consent not asked"));
    }
}
