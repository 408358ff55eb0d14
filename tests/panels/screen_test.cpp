#include "viewer/panels/screen.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <string>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "viewer/panels/keys.h"

using namespace footing;
using bench::ScreenBench;
using bench::shows;

namespace {

struct Size {
    float width;
    float height;
};
constexpr std::array<Size, 5> sizes{{{1280, 720}, {1920, 1080}, {2560, 1440}, {1024, 640}, {1080, 1920}}};

std::vector<Box> parts(const ScreenLayout& layout) {
    return {layout.title, layout.stage,     layout.figure,  layout.numbers,
            layout.list,  layout.transport, layout.timeline};
}

/// What a text covers with ink; accents and descenders that are not there leave room at both ends.
Box inked(const PlacedText& placed) {
    return placed.drawn.inset(0.0F, placed.drawn.height() * 0.14F);
}

/// Every text inside the window and inside the place its panel gives it, and no two on each other.
void check_texts(const ScreenDrawn& drawn) {
    for (const PlacedText& placed : drawn.texts) {
        CAPTURE(placed.text);
        CAPTURE(placed.panel);
        CHECK(placed.drawn.inside(drawn.layout.window));
        CHECK(placed.drawn.left >= placed.allowed.left - 1.0F);
        CHECK(placed.drawn.right <= placed.allowed.right + 1.0F);
    }
    for (std::size_t i = 0; i < drawn.texts.size(); ++i) {
        for (std::size_t j = i + 1; j < drawn.texts.size(); ++j) {
            const bool collide = inked(drawn.texts[i]).overlaps(inked(drawn.texts[j]));
            if (collide) {
                CAPTURE(drawn.texts[i].text);
                CAPTURE(drawn.texts[j].text);
                CHECK_FALSE(collide);
            }
        }
    }
}

/// Only free text, of which nobody knows how long it is, may be shortened.
void check_shortened(const ScreenDrawn& drawn) {
    for (const PlacedText& placed : drawn.texts) {
        CAPTURE(placed.text);
        if (placed.cut == Cut::shortened) CHECK(placed.panel == "title");
    }
}

std::vector<std::pair<std::string, ViewState>> states() {
    std::vector<std::pair<std::string, ViewState>> all;
    const auto add = [&](const std::string& name, LessonResult lesson) {
        all.emplace_back(name, show_lesson(bench::shared(std::move(lesson))));
    };
    add("eight swings", sample::lesson());
    add("left-handed", sample::lesson(Hand::left));
    add("with loss", sample::lesson_with_loss());
    add("no swings", sample::lesson_without_swings());
    add("feet not known", sample::lesson_of_unknowns());
    add("on a mat", sample::lesson_on_mat());
    all.emplace_back("compared",
                     carry_out(carry_out(all[0].second, KeepForComparison{}), ChooseNeighbour{4}));
    all.emplace_back("between swings", carry_out(all[0].second, ScrubTo{0.1}));
    all.emplace_back("at address", carry_out(all[0].second, GoToEvent{&SwingEvents::address}));
    all.emplace_back("nothing open", ViewState{});
    all.emplace_back("keys", carry_out(all[0].second, ToggleKeys{}));
    all.emplace_back("all numbers", carry_out(all[0].second, ToggleNumbers{}));
    all.emplace_back("all numbers on a mat", carry_out(all[5].second, ToggleNumbers{}));
    all.emplace_back("all numbers, compared", carry_out(all[6].second, ToggleNumbers{}));
    all.emplace_back("all numbers, between swings", carry_out(all[7].second, ToggleNumbers{}));
    ViewState reading;
    reading.opening = "lesson.h5";
    all.emplace_back("reading", reading);
    ViewState problem = all[0].second;
    problem.problem =
        Problem{ProblemKind::bad_input, "swings.csv", "this is not a recording", "import it first"};
    all.emplace_back("problem", problem);
    problem.lesson = nullptr;
    all.emplace_back("problem, nothing open", problem);
    return all;
}

}  // namespace

TEST_CASE("the parts of the screen stand apart and inside the window at every size") {
    for (const Size& size : sizes) {
        CAPTURE(size.width);
        const ScreenLayout layout =
            lay_out(size.width, size.height, screen_scale(size.width, size.height), 7);
        const std::vector<Box> boxes = parts(layout);
        for (std::size_t i = 0; i < boxes.size(); ++i) {
            CAPTURE(i);
            CHECK(boxes[i].inside(layout.window));
            CHECK(boxes[i].width() > 100.0F);
            CHECK(boxes[i].height() > 16.0F);
            for (std::size_t j = i + 1; j < boxes.size(); ++j) CHECK_FALSE(boxes[i].overlaps(boxes[j]));
        }
    }
}

TEST_CASE("at 1280 x 720 everything stands on a grid of 8 px") {
    const ScreenLayout layout = lay_out(1280, 720, 1.0F, 7);
    for (const Box& box : {layout.title, layout.stage, layout.figure, layout.transport, layout.timeline}) {
        CHECK(std::fmod(box.left, 8.0F) == 0.0F);
        CHECK(std::fmod(box.top, 8.0F) == 0.0F);
    }
}

TEST_CASE("no text is cut off, leaves its place or stands on another") {
    for (const Size& size : sizes) {
        ScreenBench screen(size.width, size.height);
        for (const auto& [name, state] : states()) {
            CAPTURE(size.width);
            CAPTURE(name);
            const ScreenDrawn drawn = screen.draw(state);
            CHECK_FALSE(drawn.texts.empty());
            check_texts(drawn);
            check_shortened(drawn);
        }
    }
}

TEST_CASE("text as large as a window of 1280 x 720 has room for stands as well") {
    ScreenBench screen(1280, 720, text_sizes.back());
    for (auto [name, state] : states()) {
        state.text_size = text_sizes.size() - 1;
        CAPTURE(name);
        const ScreenDrawn drawn = screen.draw(state);
        CHECK(drawn.layout.scale > 1.1F);
        check_texts(drawn);
        check_shortened(drawn);
    }
}

TEST_CASE("hostile names stay one line in their place") {
    for (const Size& size : {sizes[0], sizes[2]}) {
        ScreenBench screen(size.width, size.height);
        for (const std::string& name : sample::hostile_names()) {
            CAPTURE(name);
            const ScreenDrawn drawn = screen.draw(show_lesson(bench::shared(sample::hostile_lesson(name))));
            check_texts(drawn);
            check_shortened(drawn);
            for (const PlacedText& placed : drawn.texts) {
                CHECK(std::none_of(placed.text.begin(), placed.text.end(),
                                   [](char byte) { return static_cast<unsigned char>(byte) < 0x20U; }));
            }
            ViewState problem;
            problem.problem =
                Problem{ProblemKind::bad_input, name, "this is not a recording", "open another"};
            check_texts(screen.draw(problem));
        }
    }
}

TEST_CASE("the share at the head is the largest text on the screen") {
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(show_lesson(bench::shared(sample::lesson())));
    const auto largest = std::max_element(
        drawn.texts.begin(), drawn.texts.end(),
        [](const PlacedText& a, const PlacedText& b) { return a.drawn.height() < b.drawn.height(); });
    CHECK(largest->panel == "share");
    CHECK(largest->text == "83");  // swing 3 at impact, planned 0.826
}

TEST_CASE("at an event its verdict stands in words beside the share") {
    ScreenBench screen(1280, 720);
    ViewState state = show_lesson(bench::shared(sample::lesson()));
    CHECK(shows(screen.draw(state), "above the band"));
    state = carry_out(state, GoToEvent{&SwingEvents::address});
    CHECK(shows(screen.draw(state), "inside the band"));
    CHECK(shows(screen.draw(state), "at address"));
}

TEST_CASE("N shows all numbers of the chosen swing, who told its kind, and puts them away") {
    ScreenBench screen(1280, 720);
    LessonResult lesson = sample::lesson();
    lesson.swings[2].kind_source = KindSource::ripple;
    lesson.swings[2].numbers.cop_travel = CopTravel{0.213, 0.09, 0.04};
    ViewState state = show_lesson(bench::shared(lesson));
    CHECK_FALSE(shows(screen.draw(state), "21.3"));
    state = carry_out(state, *action_for({.character = U'n'}, state));
    const ScreenDrawn drawn = screen.draw(state);
    CHECK(shows(drawn, "shot, by the strike's ripple"));
    CHECK(shows(drawn, "21.3"));
    CHECK(shows(drawn, "path, range"));
    state = carry_out(state, *action_for({.character = U'n'}, state));
    CHECK(state.overlay == Overlay::none);
    CHECK(screen.click_text(state, "more  N").overlay == Overlay::numbers);
}

TEST_CASE("what is lost is told in the title, with numbers") {
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(show_lesson(bench::shared(sample::lesson_with_loss())));
    CHECK(shows(drawn, "recorded with loss"));
    CHECK(shows(drawn, "frames lost"));
    CHECK(shows(drawn, "3 damaged"));
}

TEST_CASE("plates that restarted are told in the title, though no frame is counted as lost") {
    ScreenBench screen(1280, 720);
    LessonResult lesson = sample::lesson();
    CHECK(shows(screen.draw(show_lesson(bench::shared(lesson))), "nothing lost"));
    lesson.facts.gaps = {{25.0, 29.6}};
    const ScreenDrawn drawn = screen.draw(show_lesson(bench::shared(lesson)));
    CHECK(shows(drawn, "the device restarted once, away for 4.6 s"));
    CHECK_FALSE(shows(drawn, "nothing lost"));
}

TEST_CASE("the empty screen says what to do next") {
    ScreenBench screen(1280, 720);
    const ScreenDrawn drawn = screen.draw(ViewState{});
    CHECK(shows(drawn, "footing view"));
    CHECK(shows(drawn, "footing record"));
    CHECK(shows(drawn, "Drop its file onto this window"));
}

TEST_CASE("without swings and without known feet the screen says so") {
    ScreenBench screen(1280, 720);
    CHECK(shows(screen.draw(show_lesson(bench::shared(sample::lesson_without_swings()))),
                "No swing was found"));
    const ScreenDrawn plate = screen.draw(show_lesson(bench::shared(sample::lesson_of_unknowns())));
    CHECK(shows(plate, "One plate under both feet"));
    CHECK(shows(plate, "centre of pressure, cm"));
}

TEST_CASE("an empty trace and events outside the recording are drawn without harm") {
    ScreenBench screen(1280, 720);
    LessonResult hollow = sample::lesson();
    hollow.trace = LoadTrace{};
    check_texts(screen.draw(show_lesson(bench::shared(hollow))));
    LessonResult nothing;
    screen.draw(show_lesson(bench::shared(nothing)));
    LessonResult late = sample::lesson();
    for (Swing& swing : late.swings) swing.events.impact->time_s += 1e6;
    screen.draw(show_lesson(bench::shared(late)));
}

TEST_CASE("two swings are two lines in one stripe") {
    ScreenBench screen(1280, 720);
    const ViewState one = show_lesson(bench::shared(sample::lesson()));
    const ViewState two = carry_out(carry_out(one, KeepForComparison{}), ChooseNeighbour{4});
    const ScreenDrawn drawn = screen.draw(two);
    CHECK(shows(drawn, "kept: swing 3"));
    CHECK(shows(drawn, "swing 7"));
}
