#include "viewer/panels/sounds.h"

#include <doctest/doctest.h>

#include "tests/support/live_sample.h"

using namespace footing;
using sample::caught;
using sample::hear;
using sample::running;
using sample::standing;

namespace {

/// What is asked to be played when the window goes from one state to the next.
std::optional<Sound> heard(const ViewState& before, const ViewState& after) {
    return sound_for(sound_cues(before), sound_cues(after));
}

}  // namespace

TEST_CASE("ready when a swing would be caught, captured when one was, ready again for the next (U11)") {
    LiveView empty = running(0.5);
    empty.zero_age_s.reset();
    const ViewState unready = hear({}, empty);
    const ViewState ready = hear(unready, running(1.0));
    CHECK(heard(ViewState{}, unready) == std::nullopt);
    CHECK(heard(unready, ready) == Sound::ready);
    CHECK(heard(ready, hear(ready, running(2.0))) == std::nullopt);
    const ViewState swung = hear(ready, caught(20.0, 1));
    CHECK(heard(ready, swung) == Sound::captured);
    const ViewState moved = hear(swung, standing(31.0, Stance::moving, 0.6));
    CHECK(heard(swung, moved) == std::nullopt);
    const ViewState next = hear(moved, standing(32.0, Stance::still, 0.75));
    REQUIRE(next.desk->showing == Showing::set_up);
    CHECK(heard(moved, next) == Sound::ready);
}

TEST_CASE("a problem is heard once, above all else, and being ready again after it too") {
    const ViewState ready = hear({}, running(1.0));
    LiveView silent = caught(20.0, 1);
    silent.progress.newest_age_s = 3.0;
    const ViewState trouble = hear(ready, silent);
    CHECK(heard(ready, trouble) == Sound::problem);
    CHECK(heard(trouble, hear(trouble, silent)) == std::nullopt);
    CHECK(heard(trouble, hear(trouble, caught(22.0, 1))) == Sound::ready);
    LiveView full = running(3.0);
    full.progress.problem = Problem{ProblemKind::disk_failed, "x", "the disk is full", ""};
    CHECK(heard(ready, hear(ready, full)) == Sound::problem);
}

TEST_CASE("M turns sounds off, and says so") {
    ViewState quiet = carry_out(hear({}, running(1.0)), ToggleSounds{});
    CHECK(quiet.notice == "Sounds are off");
    CHECK(heard(quiet, hear(quiet, caught(20.0, 1))) == std::nullopt);
    quiet = carry_out(quiet, ToggleSounds{});
    CHECK(heard(quiet, hear(quiet, caught(20.0, 1))) == Sound::captured);
}
