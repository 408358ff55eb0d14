#include <utility>

#include "viewer/panels/key_tables.h"

namespace footing {

namespace {

std::vector<KeyLine> replay_keys(const ViewState& state) {
    std::vector<KeyLine> lines{{"Space", "play, pause", {{typed(U' '), TogglePlaying{}}}}};
    const bool typing = state.desk && !state.desk->entry.empty();
    if (!typing) {  // the point of a carry
        lines.push_back(
            {",  .", "one sample back, on", {{typed(U','), StepSamples{-1}}, {typed(U'.'), StepSamples{1}}}});
    }
    append(lines, {{"←  →",
                    "10 ms back, on",
                    {{named(NamedKey::left), StepTime{-0.01}}, {named(NamedKey::right), StepTime{0.01}}}},
                   {"Shift ←  →",
                    "100 ms back, on",
                    {{named(NamedKey::left, Modifier::shift), StepTime{-0.1}},
                     {named(NamedKey::right, Modifier::shift), StepTime{0.1}}}}});
    if (const Swing* swing = chosen_swing(state)) {
        const SwingEvents& events = swing->events;
        if (events.address)
            lines.push_back(
                {"Home", "to the address", {{named(NamedKey::home), GoToEvent{&SwingEvents::address}}}});
        if (events.impact)
            lines.push_back({"I", "to impact", {{typed(U'i'), GoToEvent{&SwingEvents::impact}}}});
        if (events.finish)
            lines.push_back(
                {"End", "to the finish", {{named(NamedKey::end), GoToEvent{&SwingEvents::finish}}}});
    }
    if (!state.lesson->swings.empty()) {
        lines.push_back({"↑  ↓",
                         "the swing before, the next",
                         {{named(NamedKey::up), ChooseNeighbour{-1}},
                          {named(NamedKey::down), ChooseNeighbour{1}},
                          {named(NamedKey::page_up), ChooseNeighbour{-1}},
                          {named(NamedKey::page_down), ChooseNeighbour{1}}}});
    }
    if (state.chosen) {
        lines.push_back({"C",
                         state.compared ? "let the kept swing go" : "keep this swing to compare with others",
                         {{typed(U'c'), KeepForComparison{}}}});
    }
    lines.push_back(
        {"[  ]", "slower, faster", {{typed(U'['), ChangeSpeed{-1}}, {typed(U']'), ChangeSpeed{1}}}});
    lines.push_back({"L", "play in a loop, or once", {{typed(U'l'), ToggleLooping{}}}});
    lines.push_back({"N", "all numbers of this swing, and away", {{typed(U'n'), ToggleNumbers{}}}});
    return lines;
}

std::vector<KeyLine> to_compare_keys(const ViewState& state) {
    if (!state.lesson || state.lesson->swings.empty()) return {};
    return {{"V", "swings laid over each other", {{typed(U'v'), CompareAction{ShowCompare{}}}}}};
}

/// Digits first: while a carry is typed, the point belongs to it.
std::vector<KeyLine> carry_keys(const LessonDesk& desk) {
    std::vector<KeyLine> lines;
    KeyLine digits{"0 … 9", "type the carry of that swing", {}};
    for (char digit = '0'; digit <= '9'; ++digit)
        digits.bindings.push_back({typed(static_cast<char32_t>(digit)), LessonAction{TypeCarry{digit}}});
    const bool typing = !desk.entry.empty();
    if (typing) {
        digits.keys = "0 … 9  .";
        digits.bindings.push_back({typed(U'.'), LessonAction{TypeCarry{'.'}}});
        digits.bindings.push_back({typed(U','), LessonAction{TypeCarry{'.'}}});
    }
    lines.push_back(std::move(digits));
    if (!typing) return lines;
    lines.push_back({"Backspace",
                     "take the last digit back",
                     {{named(NamedKey::backspace), LessonAction{EraseCarry{}}}}});
    lines.push_back({"Esc", "drop the carry", {{named(NamedKey::escape), CloseOverlay{}}}});
    return lines;
}

const char* enter_words(const LessonDesk& desk) {
    if (!desk.entry.empty()) return "keep the carry";
    if (desk.asked) return "wedge and length are right";
    if (desk.showing == Showing::set_up) return "to the replay";
    return desk.unseen > 0 ? "to the swing caught meanwhile" : "to the set-up";
}

std::vector<KeyLine> label_keys(const ViewState& state) {
    const LessonDesk& desk = *state.desk;
    std::vector<KeyLine> lines;
    const bool caught = !desk.labels.empty();
    if (caught) {
        append(lines, carry_keys(desk));
        lines.push_back(
            {"S", "that swing was a shot", {{typed(U's'), LessonAction{SayWord{CoachWord::shot}}}}});
        lines.push_back(
            {"P", "that swing was practice", {{typed(U'p'), LessonAction{SayWord{CoachWord::practice}}}}});
        lines.push_back(
            {"X", "that was not a swing", {{typed(U'x'), LessonAction{SayWord{CoachWord::not_a_swing}}}}});
    }
    lines.push_back({"W", "the next wedge", {{typed(U'w'), LessonAction{ChangeClub{}}}}});
    lines.push_back({"E", "the next length of swing", {{typed(U'e'), LessonAction{ChangeLength{}}}}});
    if (caught) {
        lines.push_back({"Enter", enter_words(desk), {{named(NamedKey::enter), LessonAction{Enter{}}}}});
        if (desk.asked && desk.entry.empty())
            lines.push_back(
                {"Esc", "leave wedge and length as they are", {{named(NamedKey::escape), CloseOverlay{}}}});
    }
    lines.push_back(
        {"Ctrl Z  Y",
         "undo, redo",
         {{with_control(U'z'), LessonAction{Undo{}}}, {with_control(U'y'), LessonAction{Redo{}}}}});
    append(lines, end_lesson_key(state));
    return lines;
}

/// What Esc is for beside a carry; empty: nothing.
std::string escape_words(const ViewState& state) {
    if (state.problem) return "put the message away";
    if (!state.opening.empty()) return "give up reading";
    return state.marking.dragged ? "leave the event where it was" : "";
}

std::vector<KeyLine> recording_keys(const ViewState& state) {
    std::vector<KeyLine> lines;
    if (can_mark(state) && !state.marking.marks.swings.empty()) {
        lines.push_back({"Delete",
                         "take back your mark at the head",
                         {{named(NamedKey::erase), MarkAction{UnmarkEvent{}}}}});
    }
    lines.push_back(
        {"Ctrl Z  Y",
         "undo, redo a mark",
         {{with_control(U'z'), LessonAction{Undo{}}}, {with_control(U'y'), LessonAction{Redo{}}}}});
    if (!state.lesson->facts.file.empty())
        lines.push_back(
            {"R  Ctrl R",
             "write the report, its short form",
             {{typed(U'r'), WriteReport{}}, {with_control(U'r'), WriteReport{ReportForm::brief}}}});
    return lines;
}

}  // namespace

std::vector<KeyLine> end_lesson_key(const ViewState& state) {
    if (!state.desk || state.desk->wish == LessonWish::stop) return {};
    return {{"Ctrl E", "end the lesson", {{with_control(U'e'), LessonAction{StopLesson{}}}}}};
}

std::vector<KeyLine> look_keys(const ViewState& state, WithLetters letters) {
    std::vector<KeyLine> lines;
    if (letters == WithLetters::yes) {
        lines.push_back({"T", "light, dark, outdoors", {{typed(U't'), ToggleTheme{}}}});
        if (state.desk || state.book)  // elsewhere nothing sounds
            lines.push_back({"M", "sounds on, off", {{typed(U'm'), ToggleSounds{}}}});
    }
    lines.push_back({"Ctrl +  −  0",
                     "larger, smaller, usual text",
                     {{with_control(U'+'), ChangeTextSize{1}},
                      {with_control(U'='), ChangeTextSize{1}},
                      {with_control(U'-'), ChangeTextSize{-1}},
                      {with_control(U'0'), ChangeTextSize{0}}}});
    return lines;
}

std::vector<KeyLine> to_book_keys(const ViewState& state) {
    if (!state.book) return {};
    KeyLine pages{"Ctrl 1 … 6", "the book at one of its pages", {}};
    for (std::size_t place = 0; place < book_pages.size(); ++place)
        pages.bindings.push_back(
            {with_control(U'1' + static_cast<char32_t>(place)), BookAction{OpenPage{book_pages[place]}}});
    std::vector<KeyLine> lines;
    if (state.front != Front::book)
        lines.push_back({"B", "the lesson book", {{typed(U'b'), BookAction{ShowBook{}}}}});
    lines.push_back(std::move(pages));
    return lines;
}

std::vector<KeyLine> window_keys(const ViewState& state) {
    std::vector<KeyLine> lines;
    if (!state.desk)
        lines.push_back(
            {"Ctrl O", "open one of the recordings opened before", {{with_control(U'o'), ToggleRecent{}}}});
    lines.push_back({"?", "show or hide these keys", {{typed(U'?'), ToggleKeys{}}}});
    lines.push_back({"Ctrl Q", "close", {{with_control(U'q'), CloseWindow{}}}});
    return lines;
}

std::vector<KeyLine> swing_keys(const ViewState& state) {
    std::vector<KeyLine> lines;
    if (state.desk) append(lines, label_keys(state));
    const bool replayed = state.lesson && (!state.desk || state.desk->showing == Showing::replay);
    if (replayed) append(lines, replay_keys(state));
    append(lines, to_compare_keys(state));
    if (state.lesson && !state.desk) append(lines, recording_keys(state));
    append(lines, to_book_keys(state));
    append(lines, look_keys(state, WithLetters::yes));
    if (const std::string words = escape_words(state); !words.empty())
        lines.push_back({"Esc", words, {{named(NamedKey::escape), CloseOverlay{}}}});
    append(lines, window_keys(state));
    return lines;
}

std::vector<KeyLine> compare_keys(const ViewState& state) {
    std::vector<KeyLine> lines = list_keys<CompareAction, MoveInList>("choose a swing");
    append(lines,
           {{"Space  Enter",
             "take it in, or out",
             {{typed(U' '), CompareAction{PickThis{}}}, {named(NamedKey::enter), CompareAction{PickThis{}}}}},
            {"S", "the shots", {{typed(U's'), CompareAction{PickKind{Picked::shots}}}}},
            {"P", "the practice swings", {{typed(U'p'), CompareAction{PickKind{Picked::practice}}}}},
            {"A", "all swings", {{typed(U'a'), CompareAction{PickKind{Picked::all}}}}},
            {"O",
             "the shot with its practice swings",
             {{typed(U'o'), CompareAction{PickKind{Picked::shot_and_practice}}}}},
            {"E", "align them on the next event", {{typed(U'e'), CompareAction{AlignOnNext{}}}}}});
    if (state.book)
        lines.push_back(
            {"L", "lay another lesson beside it", {{typed(U'l'), BookAction{OpenPage{BookPage::lessons}}}}});
    if (!state.compare->other_file.empty() || state.compare->other)
        lines.push_back(
            {"Del", "leave the other lesson out", {{named(NamedKey::erase), CompareAction{DropOther{}}}}});
    lines.push_back({"V  Esc",
                     "back",
                     {{typed(U'v'), CompareAction{HideCompare{}}},
                      {named(NamedKey::escape), CompareAction{HideCompare{}}}}});
    append(lines, end_lesson_key(state));
    append(lines, to_book_keys(state));
    append(lines, look_keys(state, WithLetters::yes));
    append(lines, window_keys(state));
    return lines;
}

}  // namespace footing
