#include <doctest/doctest.h>

#include <array>
#include <random>
#include <string>
#include <vector>

#include "tests/panels/key_pressing.h"
#include "tests/panels/screen_bench.h"
#include "tests/support/window_screens.h"
#include "viewer/panels/keys.h"

using namespace footing;
using bench::press;
using bench::ScreenBench;

// Random keys and a random pointer on every screen: the state stays sound, and undoing everything leads back
// to where the coach began. The longer run is in the same place: FOOTING_ROUNDS=100000.

namespace {

const std::u32string characters = U"spxnwevolbrcmthi0123456789., ?[]zyaäß";
constexpr std::array named_keys{NamedKey::left,    NamedKey::right,     NamedKey::up,        NamedKey::down,
                                NamedKey::page_up, NamedKey::page_down, NamedKey::home,      NamedKey::end,
                                NamedKey::escape,  NamedKey::enter,     NamedKey::backspace, NamedKey::tab,
                                NamedKey::erase};
const std::u32string control_letters = U"zyeo+-0";

class Coach {
  public:
    explicit Coach(unsigned seed) : random_(seed) {}

    std::size_t below(std::size_t count) { return random_() % count; }

    KeyPress key() {
        switch (below(8)) {
            case 0:
            case 1:
                return {.key = named_keys[below(named_keys.size())],
                        .modifier = below(4) == 0 ? Modifier::shift : Modifier::none};
            case 2:
                return {.character = control_letters[below(control_letters.size())],
                        .modifier = Modifier::control};
            default:
                return {.character = characters[below(characters.size())]};
        }
    }

  private:
    std::mt19937 random_;
};

/// What every state must be, whatever was done.
void check_sound(const ViewState& state) {
    const std::size_t swings = state.lesson ? state.lesson->swings.size() : 0;
    CHECK((!state.chosen || *state.chosen < swings));
    CHECK((!state.compared || *state.compared < swings));
    CHECK(state.speed < play_speeds.size());
    CHECK(state.text_size < text_sizes.size());
    CHECK(state.head_s == state.head_s);
    if (state.lesson && state.chosen) {
        const TimeSpan span = played_span(state);
        CHECK(state.head_s >= span.from_s - 1e-9);
        CHECK(state.head_s <= span.to_s + 1e-9);
    }
    for (const CoachMark& mark : state.marking.marks.swings) CHECK_FALSE(out_of_order(mark).has_value());
    if (!state.desk) return;
    CHECK(state.desk->labels.size() <= swings);
    for (const auto* steps : {&state.desk->undo, &state.desk->redo}) {
        for (const auto& step : *steps) CHECK(step.size() == state.desk->labels.size());
    }
}

std::size_t rounds() {
    const char* asked = std::getenv("FOOTING_ROUNDS");
    return asked ? std::stoul(asked) : 3;
}

}  // namespace

TEST_CASE("random keys and a random pointer leave every screen in a sound state") {
    ScreenBench screen(1280, 720);
    const std::vector<sample::NamedScreen> screens = sample::all_screens(sample::Names::usual);
    for (std::size_t round = 0; round < rounds(); ++round) {
        for (const sample::NamedScreen& begun : screens) {
            CAPTURE(begun.name);
            CAPTURE(round);
            Coach coach(static_cast<unsigned>(7919 * round + begun.name.size()));
            ViewState state = begun.state;
            for (int i = 0; i < 60; ++i) {
                if (coach.below(6) == 0) {
                    const auto x = static_cast<float>(coach.below(1280));
                    const auto y = static_cast<float>(coach.below(720));
                    const ImVec2 to{static_cast<float>(coach.below(1280)),
                                    static_cast<float>(coach.below(720))};
                    state = coach.below(2) == 0 ? screen.click(std::move(state), x, y)
                                                : screen.drag(std::move(state), {x, y}, to);
                } else {
                    state = press(std::move(state), coach.key());
                }
                if (coach.below(8) == 0) state = advance(std::move(state), 0.05);
                check_sound(state);
            }
            static_cast<void>(screen.draw(state));
        }
    }
}

TEST_CASE("marks: whatever was dragged, undoing everything leads back, and doing it again leads here") {
    const ViewState begun = sample::open_sample();
    for (unsigned seed = 0; seed < 20 * rounds(); ++seed) {
        Coach coach(seed);
        ViewState state = begun;
        for (int i = 0; i < 60; ++i) {
            switch (coach.below(5)) {
                case 0:
                    state = carry_out(std::move(state), ChooseSwing{coach.below(8)});
                    break;
                case 1:
                    state = carry_out(std::move(state), MarkAction{UndoMark{}});
                    break;
                case 2:
                    state = carry_out(std::move(state), MarkAction{UnmarkEvent{}});
                    break;
                default: {
                    const double by_s = 0.001 * static_cast<double>(coach.below(2000)) - 1.0;
                    state = carry_out(std::move(state),
                                      MarkAction{DragEvent{coach.below(6), state.head_s + by_s}});
                    if (coach.below(4) != 0) state = carry_out(std::move(state), MarkAction{DropEvent{}});
                }
            }
            check_sound(state);
        }
        const std::size_t kept = state.marking.marks.swings.size();
        const std::size_t steps = state.marking.undo.size();
        for (std::size_t i = 0; i < steps; ++i) state = carry_out(std::move(state), MarkAction{UndoMark{}});
        CHECK(state.marking.marks.swings.empty());
        CHECK(state.marking.undo.empty());
        for (std::size_t i = 0; i < steps; ++i) state = carry_out(std::move(state), MarkAction{RedoMark{}});
        CHECK(state.marking.marks.swings.size() == kept);
    }
}

TEST_CASE("labels: undoing everything leads back to none, even when swings are caught meanwhile") {
    for (unsigned seed = 0; seed < 10 * rounds(); ++seed) {
        Coach coach(seed);
        ViewState state = sample::hear(sample::hear({}, sample::running(1.0)), sample::caught(20.0, 1));
        std::size_t swings = 1;
        for (int i = 0; i < 60; ++i) {
            if (coach.below(12) == 0 && swings < 8) {
                ++swings;
                state = sample::hear(std::move(state),
                                     sample::caught(20.0 * static_cast<double>(swings), swings));
            } else if (coach.below(2) == 0) {
                state = press(std::move(state), {.character = U"spx1234"[coach.below(7)]});
            } else {
                state =
                    press(std::move(state), {.key = coach.below(2) == 0 ? NamedKey::enter : NamedKey::up});
            }
            check_sound(state);
        }
        while (!state.desk->undo.empty()) state = carry_out(std::move(state), LessonAction{Undo{}});
        for (const SwingLabel& label : state.desk->labels) CHECK(label == SwingLabel{});
    }
}
