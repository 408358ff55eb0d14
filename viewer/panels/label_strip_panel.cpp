#include <fmt/format.h>

#include <array>
#include <string>

#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

std::string label_words(const ViewState& state, std::size_t place) {
    const SwingLabel& label = state.desk->labels[place];
    std::string words = swing_words(state, place);
    for (const std::string& part : {label.club, label.length}) {
        if (!part.empty()) words += "  ·  " + part;
    }
    if (label.carry_m) words += "  ·  carry " + carry_words(*label.carry_m, state.desk->unit);
    return words;
}

struct Button {
    const char* name;
    const char* words;
    const char* key;
    LessonAction action;
};

void draw_buttons(ScreenCanvas& canvas, Box row, const ViewState& state, std::vector<ViewAction>& asked) {
    const bool replay = state.desk->showing == Showing::replay;
    const std::array<Button, 8> buttons{{{"shot", "shot", "S", SayWord{CoachWord::shot}},
                                         {"practice", "practice", "P", SayWord{CoachWord::practice}},
                                         {"no swing", "not a swing", "X", SayWord{CoachWord::not_a_swing}},
                                         {"wedge", "wedge", "W", ChangeClub{}},
                                         {"length", "length", "E", ChangeLength{}},
                                         {"undo", "undo", "Ctrl Z", Undo{}},
                                         {"turn", replay ? "set-up" : "replay", "Enter", Enter{}},
                                         {"end", "end the lesson", "Ctrl E", StopLesson{}}}};
    for (const Button& button : buttons) {
        const float words = canvas.text_width(button.words, TextSize::text) + 1.0F;
        const float key = canvas.text_width(button.key, TextSize::small) + 1.0F;
        Box box = row.cut_left(words + key + canvas.px(24));
        const Touch found = touch(button.name, box);
        if (found == Touch::pressed) asked.push_back(button.action);
        if (found == Touch::hovered) canvas.fill(box, Ink::band, 1.0, 4.0F);
        Box inside = box.inset(canvas.px(8), 0.0F);
        canvas.text(inside.cut_left(words), button.words, TextSize::text, Ink::ink);
        inside.cut_left(canvas.px(8));
        canvas.text(inside, button.key, TextSize::small, Ink::quiet);
        row.cut_left(canvas.px(8));
    }
    canvas.text(row, "digits type the carry  ·  ? lists the keys", TextSize::small, Ink::quiet, Align::right);
}

/// What closing would end, and what stays of it.
struct ClosingWords {
    const char* under_way;
    const char* what_stays;
    const char* close;
    const char* stay;
};

ClosingWords closing_words(const ViewState& state) {
    if (is_recording(state) || !is_calibrating(state)) {
        return {"The lesson is being recorded", "Closing ends the recording; all that was recorded is kept.",
                "end the recording and close", "go on with the lesson"};
    }
    const bool by_reading = state.book->bench.view->device.layout.kind != FrameKind::grid;
    return {"A calibration is under way",
            by_reading ? "Closing gives it up: no record is made. The readings so far stay in a table beside "
                         "the records."
                       : "Closing gives it up: no record is made, and nothing of the walk is kept.",
            "give the calibration up and close", "go on with the calibration"};
}

}  // namespace

void draw_label_strip(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                      std::vector<ViewAction>& asked) {
    canvas.enter("strip");
    Box rest = box;
    Box first = rest.cut_top(canvas.px(28));
    canvas.line({first.left, first.top}, {first.right, first.top}, Ink::grid);
    const auto place = labelled_swing(state);
    const std::string& entry = state.desk->entry;
    if (!place) {
        canvas.text(first, "no swing caught yet; each stands here as soon as it is over", TextSize::text,
                    Ink::quiet);
    } else if (entry.empty()) {
        canvas.text(first, label_words(state, *place), TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
    } else {
        const bool fits = carry_of_entry(entry, state.desk->unit).has_value();
        const std::string unit = unit_name(state.desk->unit);
        const std::string then =
            fits ? "Enter keeps it, Esc drops it" : "no carry of a ball; Backspace corrects it";
        canvas.text(first,
                    fmt::format("swing {}  ·  carry {}_ {}  ·  {}",
                                state.lesson->swings[state.desk->entry_swing].index, entry, unit, then),
                    TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    }
    draw_buttons(canvas, rest, state, asked);
}

void draw_ask_to_close(ScreenCanvas& canvas, const Box& window, const ViewState& state,
                       std::vector<ViewAction>& asked) {
    canvas.enter("ask");
    const float width = canvas.px(640);
    Box rest{window.middle_x() - width / 2.0F, window.middle_y() - canvas.px(96),
             window.middle_x() + width / 2.0F, window.middle_y() + canvas.px(96)};
    const ClosingWords words = closing_words(state);
    canvas.text(rest.cut_top(canvas.px(40)), words.under_way, TextSize::heading, Ink::ink, Align::left,
                TextWeight::bold);
    rest.top = canvas.paragraph(rest, words.what_stays, TextSize::text, Ink::ink);
    rest.cut_top(canvas.px(24));
    struct Answer {
        const char* name;
        const char* words;
        const char* key;
        ViewAction action;
    };
    for (const Answer& answer : {Answer{"close", words.close, "Enter", CloseForSure{}},
                                 Answer{"stay", words.stay, "Esc", CloseOverlay{}}}) {
        Box row = rest.cut_top(canvas.px(40));
        const Touch found = touch(answer.name, row);
        if (found == Touch::pressed) asked.push_back(answer.action);
        if (found == Touch::hovered) canvas.fill(row, Ink::band, 1.0, 4.0F);
        row = row.inset(canvas.px(8), 0.0F);
        canvas.text(row.cut_left(canvas.px(72)), answer.key, TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        canvas.text(row, answer.words, TextSize::text, Ink::ink);
    }
}

}  // namespace footing
