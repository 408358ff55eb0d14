#include <doctest/doctest.h>

#include <algorithm>
#include <memory>
#include <string>
#include <utility>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/live_sample.h"

using namespace footing;
using bench::press;
using bench::ScreenBench;
using bench::shows;
using bench::type;

namespace {

/// Eight swings: two for practice, then six shots.
ViewState compared() {
    return type(show_lesson(bench::shared(sample::lesson())), U"v");
}

std::vector<std::size_t> places(const ViewState& state) {
    std::vector<std::size_t> all;
    for (const ComparedSwing& swing : state.compare->picked) all.push_back(swing.place);
    return all;
}

/// A comparison as a worker would make it of the picked swings.
std::shared_ptr<const Comparison> made_of(const ViewState& state) {
    auto comparison = std::make_shared<Comparison>();
    comparison->revision = state.compare->revision;
    std::vector<SwingToAlign> swings;
    const auto lessons = compared_lessons(state);
    for (const ComparedSwing& one : state.compare->picked) {
        const LessonResult& lesson = *lessons[one.lesson];
        swings.push_back({&lesson.trace, &lesson.swings[one.place], lesson.facts.hand, one.lesson});
        comparison->names.swings.push_back(compared_name(state, one));
    }
    comparison->names.groups = {"these swings", "the other lesson"};
    comparison->names.event = "impact";
    comparison->aligned = align_swings(swings, &SwingEvents::impact);
    return comparison;
}

}  // namespace

TEST_CASE("V lays the shots over each other; S, P, A and O pick others; Esc goes back") {
    ViewState state = compared();
    CHECK(state.front == Front::compare);
    CHECK(places(state) == std::vector<std::size_t>{2, 3, 4, 5, 6, 7});
    CHECK(places(type(state, U"p")) == std::vector<std::size_t>{0, 1});
    CHECK(places(type(state, U"a")).size() == 8);
    state.compare->row = 1;  // a practice swing: the shot after it is meant
    CHECK(places(type(state, U"o")) == std::vector<std::size_t>{0, 1, 2});
    state.compare->row = 4;
    CHECK(places(type(state, U"o")) == std::vector<std::size_t>{4});
    CHECK(press(state, {.key = NamedKey::escape}).front == Front::swings);
    CHECK(type(ViewState{}, U"v").front == Front::swings);  // nothing is open
}

TEST_CASE("Space takes the swing of the row in or out, and E goes through the events to align on") {
    ViewState state = compared();
    const std::size_t row = state.compare->row;
    const std::uint64_t revision = state.compare->revision;
    state = type(std::move(state), U" ");
    CHECK(state.compare->how == Picked::by_hand);
    CHECK(places(state).size() == 5);
    CHECK(state.compare->revision > revision);
    state = type(std::move(state), U" ");
    CHECK(places(state).size() == 6);
    CHECK(state.compare->row == row);
    CHECK(std::string(named_events[state.compare->event].name) == "impact");
    state = type(std::move(state), U"e");
    CHECK(std::string(named_events[state.compare->event].name) == "finish");
    for (std::size_t i = 0; i + 1 < named_events.size(); ++i) state = type(std::move(state), U"e");
    CHECK(std::string(named_events[state.compare->event].name) == "impact");
}

TEST_CASE("another lesson stands below in the list, its swings are picked alike, and it goes again") {
    ViewState state = compared();
    state = carry_out(std::move(state), CompareAction{CompareWith{"other.h5"}});
    CHECK(state.compare->other_file == "other.h5");
    LessonResult other = sample::lesson();
    other.facts.started = "2026-05-14 10:00:00";
    state = carry_out(std::move(state), CompareAction{HearOther{bench::shared(std::move(other))}});
    CHECK(places(state).size() == 12);
    CHECK(compared_list(state).size() == 16);
    CHECK(state.lesson->facts.started.starts_with("2026-05-14"));  // two lessons of one day
    CHECK(compared_name(state, {1, 2}) == "swing 3 of 2026-05-14 10:00");
    LessonResult earlier = sample::lesson();
    earlier.facts.started = "2026-05-07 10:00:00";
    CHECK(compared_name(carry_out(state, CompareAction{HearOther{bench::shared(std::move(earlier))}}),
                        {1, 2}) == "swing 3 of 2026-05-07");
    state = press(std::move(state), {.key = NamedKey::erase});
    CHECK(places(state).size() == 6);
    CHECK(state.compare->other_file.empty());
}

TEST_CASE("with no lesson open another one cannot be laid beside it, and that is said") {
    const ViewState state = carry_out({}, CompareAction{CompareWith{"other.h5"}});
    CHECK_FALSE(state.compare.has_value());
    CHECK(state.notice.find("Open a lesson first") != std::string::npos);
}

TEST_CASE("what the coach says in a lesson under way picks again: no swing is left out, a shot comes in") {
    ViewState state = sample::hear(sample::hear({}, sample::running(1.0)), sample::caught(20.0, 4));
    state = type(std::move(state), U"v");
    CHECK(places(state) == std::vector<std::size_t>{0, 1, 2, 3});  // two shots are too few: all
    state = carry_out(std::move(state), LessonAction{SayWord{CoachWord::not_a_swing}});
    CHECK(places(state) == std::vector<std::size_t>{0, 1, 2});
    state = sample::hear(std::move(state), sample::caught(60.0, 5));
    CHECK(state.front == Front::compare);  // the coach is looking
    CHECK(places(state) == std::vector<std::size_t>{0, 1, 2, 4});
    state = carry_out(std::move(state), LessonAction{Undo{}});
    CHECK(places(state).size() == 5);
}

TEST_CASE("O says which shot it took, from a practice swing too, and where none follows") {
    ScreenBench screen(1280, 720);
    ViewState state = compared();
    const std::vector<ComparedSwing> list = compared_list(state);
    const auto kind = [&](std::size_t row) { return compared_kind(state, list[row]); };
    std::size_t practice = 0;
    while (practice + 1 < list.size() &&
           !(kind(practice) == SwingKind::practice && kind(practice + 1) == SwingKind::shot))
        ++practice;
    REQUIRE(practice + 1 < list.size());
    state.compare->row = practice;
    state = type(std::move(state), U"o");
    const std::size_t shot = state.lesson->swings[practice + 1].index;
    CHECK(shows(screen.draw(state), "shot " + std::to_string(shot) + " against its practice swing"));
    LessonResult only_practice = *state.lesson;
    for (Swing& swing : only_practice.swings) swing.kind = SwingKind::practice;
    state.lesson = bench::shared(std::move(only_practice));
    CHECK(shows(screen.draw(type(std::move(state), U"o")), "no shot after these practice swings"));
}

TEST_CASE("another recording puts the comparison away") {
    const ViewState state = show_lesson(bench::shared(sample::lesson()), compared());
    CHECK_FALSE(state.compare.has_value());
    CHECK(state.front == Front::swings);
}

TEST_CASE("the picture, its words and its list stand in their places at any size") {
    ViewState state = type(compared(), U"a");
    LessonResult other = sample::lesson(Hand::left);
    state = carry_out(std::move(state), CompareAction{HearOther{bench::shared(std::move(other))}});
    state = type(std::move(state), U"a");
    ViewState waiting = state;
    state = carry_out(std::move(state), CompareAction{HearComparison{made_of(state)}});
    ViewState nobody = state;
    nobody.compare->picked.clear();
    for (const auto& [width, height] : {std::pair{1280.0F, 720.0F}, {1920.0F, 1080.0F}, {3840.0F, 2160.0F}}) {
        ScreenBench screen(width, height);
        const ScreenDrawn drawn = screen.draw(state);
        CHECK(shows(drawn, "16 swings, aligned on impact"));
        CHECK(shows(drawn, "mean of these swings"));
        CHECK(shows(drawn, "mean of the other lesson"));
        CHECK(shows(screen.draw(waiting), "Laying them over each other"));
        CHECK(shows(screen.draw(nobody), "None of the swings is picked"));
        for (const PlacedText& placed : drawn.texts) {
            CAPTURE(placed.text);
            CHECK(placed.drawn.inside(drawn.layout.window));
        }
    }
}

TEST_CASE("a click on a swing takes it in or out") {
    ScreenBench screen(1280, 720);
    ViewState state = compared();
    state.chosen = 0;
    const std::size_t before = places(state).size();
    state = screen.click_text(std::move(state), "practice");
    CHECK(places(state).size() != before);
}
