#include "viewer/panels/keys.h"

#include <array>

namespace footing {

namespace {

KeyPress typed(char32_t character) {
    return {.character = character};
}
KeyPress named(NamedKey key, Modifier modifier = Modifier::none) {
    return {.key = key, .modifier = modifier};
}
KeyPress with_control(char32_t letter) {
    return {.character = letter, .modifier = Modifier::control};
}

std::array<KeyBinding, 10> digits() {
    std::array<KeyBinding, 10> all;
    for (std::size_t digit = 0; digit < all.size(); ++digit) {
        all[digit] = {typed(U'0' + static_cast<char32_t>(digit)),
                      LessonAction{TypeCarry{static_cast<char>('0' + digit)}}};
    }
    return all;
}

std::array<KeyBinding, book_pages.size()> pages_of_book() {
    std::array<KeyBinding, book_pages.size()> all;
    for (std::size_t place = 0; place < all.size(); ++place) {
        all[place] = {with_control(U'1' + static_cast<char32_t>(place)),
                      BookAction{OpenPage{book_pages[place]}}};
    }
    return all;
}

struct KeyTable {
    std::array<KeyBinding, 1> play{{{typed(U' '), TogglePlaying{}}}};
    std::array<KeyBinding, 2> samples{{{typed(U','), StepSamples{-1}}, {typed(U'.'), StepSamples{1}}}};
    std::array<KeyBinding, 2> short_steps{
        {{named(NamedKey::left), StepTime{-0.01}}, {named(NamedKey::right), StepTime{0.01}}}};
    std::array<KeyBinding, 2> long_steps{{{named(NamedKey::left, Modifier::shift), StepTime{-0.1}},
                                          {named(NamedKey::right, Modifier::shift), StepTime{0.1}}}};
    std::array<KeyBinding, 1> address{{{named(NamedKey::home), GoToEvent{&SwingEvents::address}}}};
    std::array<KeyBinding, 1> impact{{{typed(U'i'), GoToEvent{&SwingEvents::impact}}}};
    std::array<KeyBinding, 1> finish{{{named(NamedKey::end), GoToEvent{&SwingEvents::finish}}}};
    std::array<KeyBinding, 4> swings{{{named(NamedKey::up), ChooseNeighbour{-1}},
                                      {named(NamedKey::down), ChooseNeighbour{1}},
                                      {named(NamedKey::page_up), ChooseNeighbour{-1}},
                                      {named(NamedKey::page_down), ChooseNeighbour{1}}}};
    std::array<KeyBinding, 1> keep{{{typed(U'c'), KeepForComparison{}}}};
    std::array<KeyBinding, 1> loop{{{typed(U'l'), ToggleLooping{}}}};
    std::array<KeyBinding, 2> speed{{{typed(U'['), ChangeSpeed{-1}}, {typed(U']'), ChangeSpeed{1}}}};
    std::array<KeyBinding, 1> theme{{{typed(U't'), ToggleTheme{}}}};
    std::array<KeyBinding, 4> text_size{{{with_control(U'+'), ChangeTextSize{1}},
                                         {with_control(U'='), ChangeTextSize{1}},
                                         {with_control(U'-'), ChangeTextSize{-1}},
                                         {with_control(U'0'), ChangeTextSize{0}}}};
    std::array<KeyBinding, 1> sounds{{{typed(U'm'), ToggleSounds{}}}};
    std::array<KeyBinding, 1> recent{{{with_control(U'o'), ToggleRecent{}}}};
    std::array<KeyBinding, 1> unmark{{{named(NamedKey::erase), MarkAction{UnmarkEvent{}}}}};
    std::array<KeyBinding, 1> numbers{{{typed(U'n'), ToggleNumbers{}}}};
    std::array<KeyBinding, 2> help{{{typed(U'?'), ToggleKeys{}}, {named(NamedKey::escape), CloseOverlay{}}}};
    std::array<KeyBinding, 1> close{{{with_control(U'q'), CloseWindow{}}}};

    // In a lesson under way:
    std::array<KeyBinding, 1> shot{{{typed(U's'), LessonAction{SayWord{CoachWord::shot}}}}};
    std::array<KeyBinding, 1> practice{{{typed(U'p'), LessonAction{SayWord{CoachWord::practice}}}}};
    std::array<KeyBinding, 1> no_swing{{{typed(U'x'), LessonAction{SayWord{CoachWord::not_a_swing}}}}};
    std::array<KeyBinding, 1> club{{{typed(U'w'), LessonAction{ChangeClub{}}}}};
    std::array<KeyBinding, 1> length{{{typed(U'e'), LessonAction{ChangeLength{}}}}};
    std::array<KeyBinding, 10> carry = digits();
    std::array<KeyBinding, 1> erase{{{named(NamedKey::backspace), LessonAction{EraseCarry{}}}}};
    std::array<KeyBinding, 1> enter{{{named(NamedKey::enter), LessonAction{Enter{}}}}};
    std::array<KeyBinding, 1> undo{{{with_control(U'z'), LessonAction{Undo{}}}}};
    std::array<KeyBinding, 1> redo{{{with_control(U'y'), LessonAction{Redo{}}}}};
    std::array<KeyBinding, 1> stop{{{with_control(U'e'), LessonAction{StopLesson{}}}}};

    std::array<KeyBinding, 1> book{{{typed(U'b'), BookAction{ShowBook{}}}}};
    std::array<KeyBinding, book_pages.size()> pages = pages_of_book();
    std::array<KeyBinding, 1> report{{{typed(U'r'), WriteReport{}}}};
    std::array<KeyBinding, 1> compare{{{typed(U'v'), CompareAction{ShowCompare{}}}}};

    std::array<KeyLine, 34> lines{{{"Space", "play, pause", play},
                                   {",  .", "one sample back, on", samples},
                                   {"←  →", "10 ms back, on", short_steps},
                                   {"Shift ←  →", "100 ms back, on", long_steps},
                                   {"Home", "to the address", address},
                                   {"I", "to impact", impact},
                                   {"End", "to the finish", finish},
                                   {"↑  ↓", "the swing before, the next", swings},
                                   {"C", "keep this swing to compare; let it go", keep},
                                   {"V", "swings laid over each other", compare},
                                   {"[  ]", "slower, faster", speed},
                                   {"L", "play in a loop, or once", loop},
                                   {"N", "all numbers of this swing, and away", numbers},
                                   {"T", "light, dark, outdoors", theme},
                                   {"Ctrl +  −  0", "larger, smaller, usual text", text_size},
                                   {"M", "sounds on, off", sounds},
                                   {"Ctrl O", "recordings opened before", recent},
                                   {"Delete", "take back your mark at the head", unmark},
                                   {"?", "show or hide these keys", help},
                                   {"Ctrl Q", "close", close},
                                   {"S", "that swing was a shot", shot},
                                   {"P", "that swing was practice", practice},
                                   {"X", "that was not a swing", no_swing},
                                   {"W", "the next wedge", club},
                                   {"E", "the next length of swing", length},
                                   {"0 … 9", "type the carry", carry},
                                   {"Backspace", "take the last digit back", erase},
                                   {"Enter", "keep the carry; set-up or replay", enter},
                                   {"Ctrl Z", "undo", undo},
                                   {"Ctrl Y", "redo", redo},
                                   {"Ctrl E", "end the lesson", stop},
                                   {"B", "the lesson book", book},
                                   {"Ctrl 1 … 6", "the book at one of its pages", pages},
                                   {"R", "write the report", report}}};
};

const KeyTable& table() {
    static const KeyTable keys;
    return keys;
}

/// Letters mean the same with and without shift (or caps lock).
char32_t lower(char32_t character) {
    return character >= U'A' && character <= U'Z' ? character - U'A' + U'a' : character;
}

/// The lesson of the row, to be laid beside the open one; nothing where it has no recording.
std::optional<ViewAction> compare_with_row(const ViewState& state) {
    const BookDesk& book = *state.book;
    const std::vector<std::size_t> listed = listed_lessons(book);
    if (book.row >= listed.size()) return std::nullopt;
    const std::string& file = book.facts->lessons[listed[book.row]].recording_file;
    if (file.empty()) return std::nullopt;
    return CompareAction{CompareWith{file}};
}

/// Where plates are listened to.
std::optional<ViewAction> action_at_plates(char32_t letter, const BookDesk& book) {
    if (!book.bench.view) return std::nullopt;
    if (letter == U'k') return BookAction{AskPlates{PlatesWish::check}};
    if (letter == U'c') return BookAction{AskPlates{PlatesWish::calibrate}};
    if (letter == U'm') return BookAction{ChangeMethod{}};
    return BookAction{TypeName{letter}};
}

/// At the book: named keys go through its pages and lists; on the page of students characters are a name.
std::optional<ViewAction> action_at_book(const KeyPress& press, const ViewState& state) {
    switch (press.key) {
        case NamedKey::up:
            return BookAction{MoveRow{-1}};
        case NamedKey::down:
            return BookAction{MoveRow{1}};
        case NamedKey::page_up:
            return BookAction{MoveRow{-10}};
        case NamedKey::page_down:
            return BookAction{MoveRow{10}};
        case NamedKey::home:
            return BookAction{MoveRow{-1'000'000}};
        case NamedKey::end:
            return BookAction{MoveRow{1'000'000}};
        case NamedKey::enter:
            return BookAction{Confirm{}};
        case NamedKey::backspace:
            return BookAction{EraseName{}};
        case NamedKey::escape:
            return BookAction{HideBook{}};
        case NamedKey::tab:
            return BookAction{TurnPage{press.modifier == Modifier::shift ? -1 : 1}};
        case NamedKey::erase:
            return BookAction{ToBin{}};
        case NamedKey::left:
            return BookAction{TurnPage{-1}};
        case NamedKey::right:
            return BookAction{TurnPage{1}};
        case NamedKey::none:
            break;
    }
    if (press.modifier == Modifier::control) {
        if (press.character == U'z') return BookAction{TakeBack{}};
        if (press.character == U'y') return BookAction{DoAgain{}};
        return action_for(press);
    }
    if (press.character == U'?') return ToggleKeys{};
    if (state.book->page == BookPage::students) return BookAction{TypeName{press.character}};
    const char32_t letter = lower(press.character);
    if (letter == U't') return ToggleTheme{};
    if (letter == U'b') return BookAction{HideBook{}};
    if (state.book->page == BookPage::begin && letter == U'y') return BookAction{SayConsent{Consent::given}};
    if (state.book->page == BookPage::begin && letter == U'n')
        return BookAction{SayConsent{Consent::refused}};
    if (state.book->page == BookPage::begin && letter == U' ') return BookAction{JoinRow{}};
    if (state.book->page == BookPage::plates) return action_at_plates(letter, *state.book);
    if (state.book->page == BookPage::lessons && letter == U'c') return compare_with_row(state);
    return std::nullopt;
}

/// Where swings are laid over each other.
std::optional<ViewAction> action_at_compare(const KeyPress& press) {
    switch (press.key) {
        case NamedKey::up:
            return CompareAction{MoveInList{-1}};
        case NamedKey::down:
            return CompareAction{MoveInList{1}};
        case NamedKey::page_up:
            return CompareAction{MoveInList{-10}};
        case NamedKey::page_down:
            return CompareAction{MoveInList{10}};
        case NamedKey::home:
            return CompareAction{MoveInList{-1'000'000}};
        case NamedKey::end:
            return CompareAction{MoveInList{1'000'000}};
        case NamedKey::enter:
            return CompareAction{PickThis{}};
        case NamedKey::escape:
            return CompareAction{HideCompare{}};
        case NamedKey::erase:
            return CompareAction{DropOther{}};
        default:
            break;
    }
    if (press.modifier == Modifier::control) return action_for(press);
    switch (lower(press.character)) {
        case U' ':
            return CompareAction{PickThis{}};
        case U's':
            return CompareAction{PickKind{Picked::shots}};
        case U'p':
            return CompareAction{PickKind{Picked::practice}};
        case U'a':
            return CompareAction{PickKind{Picked::all}};
        case U'o':
            return CompareAction{PickKind{Picked::shot_and_practice}};
        case U'e':
            return CompareAction{AlignOnNext{}};
        case U'l':
            return BookAction{OpenPage{BookPage::lessons}};
        case U'v':
            return CompareAction{HideCompare{}};
        case U't':
        case U'b':
        case U'?':
            return action_for(press);
        default:
            return std::nullopt;
    }
}

}  // namespace

std::span<const KeyLine> key_lines() {
    return table().lines;
}

std::optional<ViewAction> action_for(const KeyPress& press) {
    KeyPress wanted = press;
    wanted.character = lower(press.character);
    if (wanted.character != 0 && wanted.modifier == Modifier::shift) wanted.modifier = Modifier::none;
    // Shift adds nothing to a key that has no meaning of its own with it.
    KeyPress without_shift = wanted;
    if (without_shift.modifier == Modifier::shift) without_shift.modifier = Modifier::none;
    for (const KeyPress& candidate : {wanted, without_shift}) {
        for (const KeyLine& line : key_lines()) {
            for (const KeyBinding& binding : line.bindings) {
                if (binding.press == candidate) return binding.action;
            }
        }
    }
    return std::nullopt;
}

std::optional<ViewAction> action_for(const KeyPress& press, const ViewState& state) {
    const bool typing = state.desk && !state.desk->entry.empty();
    if (typing && (press.character == U'.' || press.character == U',')) return LessonAction{TypeCarry{'.'}};
    const bool asked = state.overlay == Overlay::ask_to_close;
    if (asked && press.key == NamedKey::enter) return CloseForSure{};
    if (state.overlay == Overlay::recent) {
        if (press.key == NamedKey::up) return MoveRecent{-1};
        if (press.key == NamedKey::down) return MoveRecent{1};
        if (press.key == NamedKey::enter) return OpenRecent{state.recent_row};
    }
    if (state.book && state.front == Front::book && state.overlay == Overlay::none)
        return action_at_book(press, state);
    if (state.compare && state.front == Front::compare && state.overlay == Overlay::none)
        return action_at_compare(press);
    return action_for(press);
}

}  // namespace footing
