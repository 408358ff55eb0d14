#include <fmt/format.h>

#include <array>
#include <string>
#include <variant>

#include "viewer/panels/label_subject.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// Wedge and length, and where one was not said, that.
std::string said_words(const SwingLabel& label) {
    return fmt::format("{}  ·  {}", label.club.empty() ? "no wedge" : label.club,
                       label.length.empty() ? "no length" : label.length);
}

std::string label_words(const ViewState& state, std::size_t place) {
    const SwingLabel& label = state.desk->labels[place];
    std::string words = swing_words(state, place) + "  ·  " + said_words(label);
    if (label.carry_m) words += "  ·  carry " + carry_words(*label.carry_m, state.desk->unit);
    return words + (carry_left_out(label) ? " (left out)" : "");
}

/// The carry is kept; what the distances need besides is asked for.
std::string asked_words(const ViewState& state, std::size_t place) {
    const SwingLabel& label = state.desk->labels[place];
    const std::string swing = fmt::format("swing {}, {}: ", state.lesson->swings[place].index,
                                          label.carry_m ? carry_words(*label.carry_m, state.desk->unit) : "");
    const bool both = label.club.empty() && label.length.empty();
    const char* question = both                   ? "which wedge, what length?"
                           : label.club.empty()   ? "which wedge?"
                           : label.length.empty() ? "what length?"
                                                  : "is that right?";
    return fmt::format("{}{}   W  {}   E  {}   Enter when it is right", swing, question,
                       label.club.empty() ? "no wedge" : label.club,
                       label.length.empty() ? "no length" : label.length);
}

std::string typing_words(const ViewState& state) {
    const LessonDesk& desk = *state.desk;
    const std::optional<double> carry_m = carry_of_entry(desk.entry, desk.unit);
    const std::string then = !carry_m ? "no carry of a ball; Backspace corrects it"
                             : desk.entry_far == FarCarry::taken
                                 ? beyond_reach_words(*carry_m, desk.unit) + ": Enter again keeps it"
                                 : "Enter keeps it, Esc drops it";
    return fmt::format("swing {}  ·  {}  ·  carry {}_ {}  ·  {}",
                       state.lesson->swings[desk.entry_swing].index,
                       said_words(desk.labels[desk.entry_swing]), desk.entry, unit_name(desk.unit), then);
}

/// At the right of the swing: what was caught meanwhile, carries that the distances would lose, else what W
/// and E are about.
void draw_beside_swing(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    const LessonDesk& desk = *state.desk;
    const std::string lost = carries_without_wedge_words(state);
    const bool held = desk.showing == Showing::replay && desk.turning == Turning::held_by_coach;
    if (desk.unseen > 0) {
        const std::string caught =
            desk.unseen == 1
                ? fmt::format("swing {} was caught: Enter shows it", state.lesson->swings.back().index)
                : fmt::format("{} swings were caught: Enter shows the last", desk.unseen);
        canvas.text(box, caught, TextSize::text, Ink::ink, Align::right, TextWeight::bold);
    } else if (!lost.empty()) {
        canvas.text(box, lost, TextSize::text, Ink::alarm, Align::right, TextWeight::bold);
    } else {
        canvas.text(box, (held ? "stays until Enter  ·  " : "") + wedge_and_length_words(state),
                    TextSize::text, Ink::quiet, Align::right);
    }
}

void draw_named_swing(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    const auto place = labelled_swing(state);
    const LessonDesk& desk = *state.desk;
    if (desk.asked && desk.entry.empty()) {
        canvas.fill(box, Ink::ink, 1.0, 4.0F);
        canvas.text(box.inset(canvas.px(8), 0.0F), asked_words(state, *desk.asked), TextSize::text,
                    Ink::paper, Align::left, TextWeight::bold);
    } else if (!state.notice.empty()) {
        draw_notice(canvas, box, state);
    } else if (!place) {
        canvas.text(box, "no swing caught yet; each stands here as soon as it is over", TextSize::text,
                    Ink::quiet);
    } else if (!desk.entry.empty()) {
        canvas.text(box, typing_words(state), TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    } else {
        Box rest = box;
        const Box drawn = canvas.text(box, label_words(state, *place), TextSize::text, Ink::ink, Align::left,
                                      TextWeight::bold);
        rest.cut_left(drawn.width() + canvas.px(24));
        draw_beside_swing(canvas, rest, state);
    }
}

struct Button {
    const char* name;
    const char* words;
    const char* key;
    LessonAction action;
};

bool about_a_swing(const LessonAction& action) {
    return std::holds_alternative<SayWord>(action) || std::holds_alternative<Enter>(action) ||
           std::holds_alternative<Undo>(action);
}

void draw_buttons(ScreenCanvas& canvas, Box row, const ViewState& state, std::vector<ViewAction>& asked) {
    const char* turn = state.desk->showing == Showing::set_up ? "replay"
                       : state.desk->unseen > 0               ? "newest swing"
                                                              : "set-up";
    const std::array<Button, 8> buttons{{{"shot", "shot", "S", SayWord{CoachWord::shot}},
                                         {"practice", "practice", "P", SayWord{CoachWord::practice}},
                                         {"no swing", "not a swing", "X", SayWord{CoachWord::not_a_swing}},
                                         {"wedge", "wedge", "W", ChangeClub{}},
                                         {"length", "length", "E", ChangeLength{}},
                                         {"undo", "undo", "Ctrl Z", Undo{}},
                                         {"turn", turn, "Enter", Enter{}},
                                         {"end", "end the lesson", "Ctrl E", StopLesson{}}}};
    const bool caught = !state.desk->labels.empty();
    for (const Button& button : buttons) {
        if (!caught && about_a_swing(button.action)) continue;
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
    const char* hint = caught ? "digits type the carry  ·  ? lists the keys" : "? lists the keys";
    for (const char* shorter : {"digits: carry  ·  ?: keys", "?: keys"}) {
        if (canvas.text_width(hint, TextSize::small) <= row.width()) break;
        hint = shorter;
    }
    canvas.text(row, hint, TextSize::small, Ink::quiet, Align::right);
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
    draw_named_swing(canvas, first.inset(0.0F, canvas.px(1)), state);
    canvas.enter("strip");
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
