#include <doctest/doctest.h>

#include "analysis/report/figure_scale.h"
#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"

using namespace footing;
using bench::open_sample;
using bench::press;
using bench::ScreenBench;

namespace {

/// Many swings, more than the list can show at once.
ViewState open_long_lesson() {
    std::vector<sample::SwingPlan> plans;
    for (int i = 0; i < 8; ++i) {
        for (const auto& plan : sample::eight_swings()) plans.push_back(plan);
    }
    return show_lesson(bench::shared(sample::lesson_of(plans)));
}

const PlacedText* row_of(const ScreenDrawn& drawn, const std::string& number) {
    for (const PlacedText& placed : drawn.texts) {
        if (placed.panel == "list" && placed.text == number) return &placed;
    }
    return nullptr;
}

}  // namespace

TEST_CASE("a press on a swing in the list chooses it") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const ScreenDrawn drawn = screen.draw(state);
    const PlacedText* row = row_of(drawn, "4");
    REQUIRE(row != nullptr);
    state = screen.click(state, row->drawn.left + 100.0F, row->drawn.middle_y());
    CHECK(state.chosen == 3);
    CHECK_FALSE(state.compared.has_value());
}

TEST_CASE("with control held a press compares, and a second press lets go") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const ScreenDrawn drawn = screen.draw(state);
    const PlacedText* row = row_of(drawn, "5");
    REQUIRE(row != nullptr);
    ImGui::GetIO().KeyCtrl = true;
    state = screen.click(state, row->drawn.left + 100.0F, row->drawn.middle_y());
    CHECK(state.chosen == 2);
    CHECK(state.compared == 4);
    state = screen.click(state, row->drawn.left + 100.0F, row->drawn.middle_y());
    CHECK_FALSE(state.compared.has_value());
}

TEST_CASE("the list follows the chosen swing, and the wheel moves it") {
    ScreenBench screen(1280, 720);
    ViewState state = open_long_lesson();
    CHECK(row_of(screen.draw(state), "60") == nullptr);
    ViewState last = carry_out(state, ChooseSwing{59});
    CHECK(row_of(screen.draw(last), "60") != nullptr);
    const Box list = screen.draw(state).layout.list;
    state = screen.wheel(state, list.middle_x(), list.middle_y(), -4.0F);
    CHECK(state.chosen == 2);
    CHECK(row_of(screen.draw(state), "3") == nullptr);
    CHECK(row_of(screen.draw(state), "10") != nullptr);
    state = screen.wheel(state, list.middle_x(), list.middle_y(), 100.0F);
    CHECK(row_of(screen.draw(state), "1") != nullptr);
    state = screen.wheel(state, list.middle_x(), list.middle_y(), -1000.0F);
    CHECK(row_of(screen.draw(state), "64") != nullptr);
}

TEST_CASE("a press in the list does not make the list jump") {
    ScreenBench screen(1280, 720);
    ViewState state = carry_out(open_long_lesson(), ChooseSwing{30});
    const ScreenDrawn before = screen.draw(state);
    const PlacedText* row = row_of(before, "33");
    REQUIRE(row != nullptr);
    const Box place = row->drawn;
    state = screen.click(state, place.left + 60.0F, place.middle_y());
    CHECK(state.chosen == 32);
    const ScreenDrawn after = screen.draw(state);
    REQUIRE(row_of(after, "33") != nullptr);
    CHECK(row_of(after, "33")->drawn.top == doctest::Approx(place.top));
}

TEST_CASE("a press on the timeline moves the head there") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const Box line = screen.draw(state).layout.timeline;
    state = screen.click(state, line.left + 0.5F * line.width(), line.middle_y());
    CHECK(state.head_s == doctest::Approx(0.5 * state.lesson->duration_s).epsilon(0.01));
}

TEST_CASE("a drag along the timeline scrubs, and past its end stays at the end") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const Box line = screen.draw(state).layout.timeline;
    state = screen.drag(state, {line.left + 10.0F, line.middle_y()},
                        {line.left + 0.25F * line.width(), line.middle_y()});
    CHECK(state.head_s == doctest::Approx(0.25 * state.lesson->duration_s).epsilon(0.01));
    state = screen.drag(state, {line.middle_x(), line.middle_y()}, {line.right + 500.0F, line.middle_y()});
    CHECK(state.head_s == doctest::Approx(state.lesson->duration_s));
}

TEST_CASE("a press on the trace moves the head to the time at that height, and time runs down") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    const Box stage = screen.draw(state).layout.stage;
    const TimeSpan span = played_span(state);
    const ViewState upper = screen.click(state, stage.middle_x(), stage.bottom - 0.5F * stage.height());
    const ViewState lower = screen.click(state, stage.middle_x(), stage.bottom - 0.1F * stage.height());
    CHECK(upper.head_s < lower.head_s);
    CHECK(upper.head_s > span.from_s);
    CHECK(lower.head_s < span.to_s);
    CHECK(upper.chosen == state.chosen);
}

TEST_CASE("the words under the trace do what they say") {
    ScreenBench screen(1280, 720);
    ViewState state = open_sample();
    CHECK(screen.click_text(state, "loop is off").looping == Looping::on);
    CHECK(screen.click_text(state, "dark").theme == Theme::slate);
    CHECK(screen.click_text(state, "slower").speed == real_time_speed - 1);
    CHECK(screen.click_text(state, "faster").speed == real_time_speed + 1);
    CHECK(screen.click_text(state, "keep to compare").compared == state.chosen);
    CHECK(screen.click_text(state, "keys").overlay == Overlay::keys);
    const Box bar = screen.draw(state).layout.transport;
    CHECK(screen.click(state, bar.left + bar.height() / 2.0F, bar.middle_y()).playing == Playing::running);
}

TEST_CASE("a press anywhere puts the list of keys away") {
    ScreenBench screen(1280, 720);
    const ViewState state = carry_out(open_sample(), ToggleKeys{});
    CHECK(screen.click(state, 40.0F, 400.0F).overlay == Overlay::none);
}

TEST_CASE("a pointer that only looks changes nothing") {
    ScreenBench screen(1280, 720);
    const ViewState state = open_sample();
    for (float y = 0.0F; y < 720.0F; y += 24.0F) {
        for (float x = 0.0F; x < 1280.0F; x += 64.0F) {
            ImGui::GetIO().MousePos = {x, y};
            CHECK(screen.draw(state).asked.empty());
        }
    }
}
