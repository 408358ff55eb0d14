#include "viewer/window/compare_keeper.h"

#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <utility>

#include "tests/support/lesson_sample.h"
#include "tests/support/wait_until.h"
#include "viewer/panels/view_action.h"

using namespace footing;
using namespace footing::test;

TEST_CASE("swings are laid over each other on a thread of their own, with the other lesson read there") {
    ViewState state = show_lesson(std::make_shared<const LessonResult>(sample::lesson()));
    state = carry_out(std::move(state), CompareAction{ShowCompare{}});
    CompareKeeper keeper(
        [](const std::string& path, WorkWatch&) -> Result<LessonResult> {
            if (path == "bad.h5") return Problem{ProblemKind::bad_input, path, "is no recording", "another"};
            return sample::lesson(Hand::left);
        },
        nullptr);
    const auto settled = [&] {
        return becomes([&] {
            static_cast<void>(keeper.step(state));
            return state.compare->comparison &&
                   state.compare->comparison->revision == state.compare->revision;
        });
    };
    REQUIRE(settled());
    CHECK(state.compare->comparison->aligned.curves.size() == 6);
    CHECK(state.compare->comparison->names.groups[1].empty());
    state = carry_out(std::move(state), CompareAction{CompareWith{"other.h5"}});
    REQUIRE(becomes([&] {
        static_cast<void>(keeper.step(state));
        return state.compare->other != nullptr;
    }));
    REQUIRE(settled());
    CHECK(state.compare->comparison->aligned.groups[0].curves.size() == 6);
    CHECK(state.compare->comparison->aligned.groups[1].curves.size() == 6);
    state = carry_out(std::move(state), CompareAction{CompareWith{"bad.h5"}});
    REQUIRE(becomes([&] {
        static_cast<void>(keeper.step(state));
        return state.problem.has_value();
    }));
    CHECK(state.compare->other == nullptr);  // what could not be read is not shown as another
    CHECK(state.compare->other_file.empty());
}

TEST_CASE("a shot against its practice swings: these are the group, the shot is the one looked at") {
    ViewState state = show_lesson(std::make_shared<const LessonResult>(sample::lesson()));
    state = carry_out(std::move(state), CompareAction{ShowCompare{}});
    state.compare->row = 2;
    state = carry_out(std::move(state), CompareAction{PickKind{Picked::shot_and_practice}});
    const Comparison comparison = compare_picked(state);
    CHECK(comparison.aligned.groups[0].curves.size() == 2);
    CHECK(comparison.aligned.groups[1].curves.size() == 1);
    REQUIRE(comparison.names.looked_at);
    CHECK(comparison.names.swings[*comparison.names.looked_at] == "swing 3");
    CHECK(comparison.names.groups[0] == "its practice swings");
}
