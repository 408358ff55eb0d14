#include <string>

#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// A word that can be pressed, with its key beside it.
struct Button {
    const char* name;  ///< unique on the screen
    std::string words;
    const char* key;
    ViewAction action;
};

void draw_play(ScreenCanvas& canvas, const Box& box, const ViewState& state, std::vector<ViewAction>& asked) {
    const Touch found = touch("play", box);
    if (found == Touch::pressed) asked.push_back(TogglePlaying{});
    const Ink ink = Ink::ink;
    if (found == Touch::hovered) canvas.fill(box, Ink::band, 1.0, 4.0F);
    const float x = box.middle_x();
    const float y = box.middle_y();
    const float r = canvas.px(8);
    if (state.playing == Playing::running) {
        canvas.fill({x - r * 0.75F, y - r, x - r * 0.2F, y + r}, ink);
        canvas.fill({x + r * 0.2F, y - r, x + r * 0.75F, y + r}, ink);
    } else {
        canvas.list().AddTriangleFilled({x - r * 0.6F, y - r}, {x + r, y}, {x - r * 0.6F, y + r},
                                        canvas.colour(ink));
    }
}

/// Draws at the right end of `rest` and takes its room from it.
void draw_button(ScreenCanvas& canvas, Box& rest, const Button& button, std::vector<ViewAction>& asked) {
    const float key_width = canvas.text_width(button.key, TextSize::small);
    const float words_width = canvas.text_width(button.words, TextSize::text);
    Box box = rest.cut_right(words_width + key_width + 3.0F * canvas.px(8) + 1.0F);
    rest.cut_right(canvas.px(8));
    const Touch found = touch(button.name, box);
    if (found == Touch::pressed) asked.push_back(button.action);
    if (found == Touch::hovered) canvas.fill(box, Ink::band, 1.0, 4.0F);
    Box inside = box.inset(canvas.px(8), 0.0F);
    canvas.text(inside.cut_left(words_width + 1.0F), button.words, TextSize::text, Ink::ink);
    inside.cut_left(canvas.px(8));
    canvas.text(inside, button.key, TextSize::small, Ink::quiet);
}

}  // namespace

void draw_transport(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                    std::vector<ViewAction>& asked) {
    canvas.enter("transport");
    Box rest = box;
    draw_play(canvas, rest.cut_left(rest.height()), state, asked);
    rest.cut_left(canvas.px(8));

    draw_button(canvas, rest, {"keys", "keys", "?", ToggleKeys{}}, asked);
    draw_button(canvas, rest,
                {"theme", window_theme_name(next_window_theme(state.theme)), "T", ToggleTheme{}}, asked);
    draw_button(canvas, rest,
                {"keep", state.compared ? "stop comparing" : "keep to compare", "C", KeepForComparison{}},
                asked);
    draw_button(canvas, rest,
                {"loop", state.looping == Looping::on ? "loop is on" : "loop is off", "L", ToggleLooping{}},
                asked);
    draw_button(canvas, rest, {"faster", "faster", "]", ChangeSpeed{1}}, asked);
    const std::string speed = speed_words(play_speeds[state.speed]);
    canvas.text(rest.cut_right(canvas.px(48)), speed, TextSize::text, Ink::ink, Align::middle,
                TextWeight::bold);
    draw_button(canvas, rest, {"slower", "slower", "[", ChangeSpeed{-1}}, asked);

    const char* doing = state.playing == Playing::running ? "playing" : "Space plays";
    canvas.text(rest.cut_left(canvas.px(104)), doing, TextSize::text, Ink::quiet);
    canvas.text(rest, moment_words(chosen_swing(state), state.head_s), TextSize::text, Ink::ink);
}

}  // namespace footing
