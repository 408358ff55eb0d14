// The page of plates: which devices are one, listening, check and calibration.
#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "tests/panels/key_pressing.h"
#include "tests/panels/open_book.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"

using namespace footing;
using bench::enter;
using bench::facts_with;
using bench::open_book;
using bench::press;
using bench::ScreenBench;
using bench::shows;
using bench::type;
using sample::hear_plates;
using sample::heard_plates;

TEST_CASE("Space takes several devices as one; a simulated golfer is not joined") {
    ViewState state = open_book(facts_with(1), BookPage::begin);
    state = press(type(std::move(state), U" "), {.key = NamedKey::down});
    state = type(std::move(state), U" ");
    auto choice = lesson_choice(*state.book);
    REQUIRE(choice);
    REQUIRE(choice->plates.size() == 2);
    CHECK(choice->plates[1].address == "/dev/ttyACM0");
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "on these 2 devices"));
    state = type(press(std::move(state), {.key = NamedKey::down}), U" ");
    CHECK(state.book->joined.size() == 2);
    state = type(press(std::move(state), {.key = NamedKey::up}), U" ");
    CHECK(lesson_choice(*state.book)->plates.size() == 1);
}

TEST_CASE("the drawing numbers the cells as the words of a calibration do, from 1 on each plate") {
    PlatesView view = heard_plates();
    const auto numbers = [&] {
        const ViewState state = hear_plates(open_book(facts_with(1), BookPage::plates), view);
        std::vector<PlacedText> found;
        ScreenBench screen(1280, 720);
        for (const PlacedText& placed : screen.draw(state).texts) {
            if (placed.text.size() == 1 && placed.text[0] >= '1' && placed.text[0] <= '9')
                found.push_back(placed);
        }
        return found;
    };
    const std::vector<PlacedText> drawn = numbers();
    const std::vector<Plate>& plates = view.device.layout.plates;
    REQUIRE(drawn.size() == plates[0].cells.size() + plates[1].cells.size());
    for (std::size_t cell = 0; cell < drawn.size(); ++cell) {
        CHECK(drawn[cell].text == std::to_string(cell % 4 + 1));
        CHECK(drawn[cell].cut == Cut::whole);
    }
    // Cell 2 stands where the layout has it: towards the same side of cell 1 as on the ground.
    const PointM one = cell_position(plates[0], 0);
    const PointM two = cell_position(plates[0], 1);
    CHECK((drawn[1].drawn.left > drawn[0].drawn.left) == (two.x_m > one.x_m));
    CHECK((drawn[1].drawn.top < drawn[0].drawn.top) == (two.y_m > one.y_m));
}

TEST_CASE("several lines named at the start are one from the start") {
    BookFacts facts = facts_with(1);
    facts.plates_named = 2;
    CHECK(lesson_choice(*open_book(std::move(facts), BookPage::begin).book)->plates.size() == 2);
}

TEST_CASE("plates: Enter listens, what they send stands there, keys ask for check and calibration") {
    ViewState state = press(open_book(facts_with(1), BookPage::plates), enter);
    CHECK(state.book->bench.wish == PlatesWish::listen);
    state = hear_plates(std::move(state), heard_plates());
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(state);
    for (const char* words : {"75.0 kg", "56.2 kg", "1000 frames a second", "nothing lost",
                              "zeroed 3 min ago", "calibrated 2026-04-30"})
        CHECK(shows(drawn, words));
    CHECK(type(state, U"k").book->bench.wish == PlatesWish::check);
    state = type(std::move(state), U"10,20");
    CHECK(typed_masses(state.book->bench.typed) == std::vector<double>{10.0, 20.0});
    CHECK(type(state, U"c").book->bench.wish == PlatesWish::calibrate);
    CHECK(press(state, {.key = NamedKey::backspace}).book->bench.typed == "10,2");
    CHECK(press(state, {.key = NamedKey::down}).book->plates == state.book->plates);  // taken
    state = press(std::move(state), {.key = NamedKey::escape});
    CHECK(state.book->bench.typed.empty());
    CHECK(press(state, {.key = NamedKey::escape}).book->bench.wish == PlatesWish::stop);
    PlatesView working = heard_plates();
    working.task = PlatesTask::calibrating;
    working.steps = 12;
    working.instruction = "Put 20 kg over cell 1 of the left plate.";
    state = hear_plates(std::move(state), working);
    CHECK(shows(screen.draw(state), "step 1 of 12"));
    CHECK(press(state, enter).book->bench.wish == PlatesWish::accept);
    CHECK(press(state, {.key = NamedKey::escape}).book->bench.wish == PlatesWish::only_listen);
}

TEST_CASE("closing during a calibration asks first, as during a lesson") {
    PlatesView working = heard_plates();
    ViewState state = hear_plates(open_book(facts_with(1), BookPage::plates), working);
    CHECK(carry_out(state, CloseWindow{}).life == WindowLife::closing);  // only listening
    working.task = PlatesTask::calibrating;
    working.steps = 12;
    state = carry_out(hear_plates(std::move(state), working), CloseWindow{});
    CHECK(state.life == WindowLife::open);
    CHECK(state.overlay == Overlay::ask_to_close);
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(state), "A calibration is under way"));
    CHECK(shows(screen.draw(state), "The readings so far stay"));
    CHECK(press(state, {.key = NamedKey::escape}).overlay == Overlay::none);
    CHECK(press(state, enter).life == WindowLife::closing);
    CHECK(carry_out(state, CloseForSure{}).life == WindowLife::closing);  // a signal does not ask
}

TEST_CASE("masses are typed as growing numbers; anything else is none") {
    CHECK(typed_masses("5 10.5,20") == std::vector<double>{5.0, 10.5, 20.0});
    for (const char* nonsense : {"", " ", "20,10", "0", "1e9", "-3", "nan", "10,,x"})
        CHECK_FALSE(typed_masses(nonsense).has_value());
}

TEST_CASE("what is wrong with plates is told by words and shape") {
    PlatesView view = heard_plates();
    view.heard_rate_hz = 480.0;
    view.losses.lost = 12;
    view.newest_age_s = 0.1;
    view.calibration_state = CalibrationState::nominal;
    const std::vector<HealthLine> lines = plates_health(view);
    CHECK(std::count_if(lines.begin(), lines.end(), [](const HealthLine& line) {
              return line.state == HealthLine::State::look_at_it;
          }) == 3);
    view.newest_age_s = 5.0;
    CHECK(plates_health(view).front().words.find("no frame for 5 s") != std::string::npos);
}
