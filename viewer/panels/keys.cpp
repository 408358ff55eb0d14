#include "viewer/panels/keys.h"

#include <algorithm>
#include <memory>
#include <utility>

#include "viewer/panels/key_tables.h"

namespace footing {

namespace {

bool book_in_front(const ViewState& state) {
    return state.book && state.front == Front::book;
}
bool compare_in_front(const ViewState& state) {
    return state.lesson && state.compare && state.front == Front::compare;
}

std::vector<KeyLine> overlay_keys(const ViewState& state) {
    const KeyLine away{"Esc", "back", {{named(NamedKey::escape), CloseOverlay{}}}};
    std::vector<KeyLine> lines;
    switch (state.overlay) {
        case Overlay::ask_to_close:
            return {{"Enter", "close", {{named(NamedKey::enter), CloseForSure{}}}}, away};
        case Overlay::recent:
            if (!state.recent.empty()) {
                lines = {{"↑  ↓",
                          "choose",
                          {{named(NamedKey::up), MoveRecent{-1}}, {named(NamedKey::down), MoveRecent{1}}}},
                         {"Enter", "open it", {{named(NamedKey::enter), OpenRecent{state.recent_row}}}}};
            }
            lines.push_back(away);
            break;
        case Overlay::numbers:
            lines = {
                {"N", "back", {{typed(U'n'), ToggleNumbers{}}}},
                {"↑  ↓",
                 "the swing before, the next",
                 {{named(NamedKey::up), ChooseNeighbour{-1}}, {named(NamedKey::down), ChooseNeighbour{1}}}},
                away};
            break;
        case Overlay::keys:
        case Overlay::none:
            lines = {away};
            break;
    }
    append(lines, look_keys(state, WithLetters::yes));
    append(lines, window_keys(state));
    return lines;
}

/// Letters mean the same with and without shift (or caps lock).
char32_t lower(char32_t character) {
    return character >= U'A' && character <= U'Z' ? character - U'A' + U'a' : character;
}

const ViewAction* find(const std::vector<KeyLine>& lines, const KeyPress& wanted) {
    for (const KeyLine& line : lines) {
        for (const KeyBinding& binding : line.bindings) {
            if (binding.press == wanted) return &binding.action;
        }
    }
    return nullptr;
}

/// Keys of other screens that people press here all the same: why nothing comes of them.
std::optional<ViewAction> explanation(const KeyPress& wanted, const ViewState& state) {
    const bool plain = wanted.modifier == Modifier::none;
    const bool opens = state.desk && state.overlay == Overlay::none &&
                       (wanted == KeyPress{.character = U'o', .modifier = Modifier::control} ||
                        (wanted == KeyPress{.key = NamedKey::enter} && book_in_front(state) &&
                         state.book->page == BookPage::lessons));
    if (opens) return Tell{"A lesson is under way: end it first (Ctrl E), then open others."};
    if (state.overlay != Overlay::none || book_in_front(state) || compare_in_front(state) || state.desk)
        return std::nullopt;
    const bool of_book =
        (plain && wanted.character == U'b') ||
        (wanted.modifier == Modifier::control && wanted.character >= U'1' && wanted.character <= U'6');
    if (of_book && !state.book)
        return Tell{
            "No lesson book is open in this window. \"footing lesson\" opens the book, with all of its "
            "lessons."};
    const bool label =
        plain && (std::u32string_view(U"spxwe").find(wanted.character) != std::u32string_view::npos ||
                  (wanted.character >= U'0' && wanted.character <= U'9'));
    if (label && wanted.character != 0 && state.lesson)
        return Tell{
            "The lesson is over: say it with \"footing swings label 3 --lesson 1 --kind shot --club 54 "
            "--length half\", a carry with \"footing shots add\"."};
    return std::nullopt;
}

/// A window in which all of that is open that has keys of its own.
ViewState all_open() {
    ViewState state;
    auto lesson = std::make_shared<LessonResult>();
    Swing swing;
    swing.events.address = swing.events.impact = swing.events.finish = Event{};
    lesson->swings.push_back(swing);
    lesson->facts.file = "lesson.h5";
    state.lesson = std::move(lesson);
    state.chosen = 0;
    state.compare.emplace();
    BookFacts facts;
    facts.students.resize(1);
    facts.students.front().student.id = 1;
    facts.student = facts.students.front().student;
    facts.lessons.resize(1);
    facts.lessons.front().recording_file = "lesson.h5";
    facts.plates.push_back({PlatesChoice::Kind::network, "", ""});
    state.book.emplace();
    state.book->facts = std::make_shared<const BookFacts>(std::move(facts));
    state.book->student = 1;
    return state;
}

std::vector<KeyLine> without(std::vector<KeyLine> lines, const std::vector<KeyLine>& known) {
    std::erase_if(lines, [&](const KeyLine& line) {
        return std::ranges::any_of(known, [&](const KeyLine& one) { return one.meaning == line.meaning; });
    });
    return lines;
}

}  // namespace

std::vector<KeyLine> keys_in_front(const ViewState& state) {
    return state.overlay == Overlay::none ? listed_keys(state) : overlay_keys(state);
}

std::vector<KeyLine> listed_keys(const ViewState& state) {
    if (book_in_front(state)) return book_keys(state);
    if (compare_in_front(state)) return compare_keys(state);
    return swing_keys(state);
}

std::vector<KeySection> keys_by_screen() {
    ViewState state = all_open();
    std::vector<KeyLine> known = to_book_keys(state);
    append(known, look_keys(state, WithLetters::yes));
    append(known, window_keys(state));
    std::vector<KeySection> sections{{"everywhere, but where letters are a name", known}};
    sections.push_back({"a recording", without(swing_keys(state), known)});
    sections.push_back({"swings laid over each other", without(compare_keys(state), known)});
    state.front = Front::book;
    for (const BookPage page : book_pages) {
        state.book->page = page;
        if (page == BookPage::plates) {
            auto view = std::make_shared<PlatesView>();
            view->stage = PlatesView::Stage::heard;
            state.book->bench.view = std::move(view);
        }
        sections.push_back(
            {std::string("the lesson book, ") + page_name(page), without(book_keys(state), known)});
    }
    state.front = Front::swings;
    state.desk.emplace();
    state.desk->labels.resize(1);
    state.desk->showing = Showing::replay;
    append(known, sections[1].lines);  // a replay is played like a recording
    sections.insert(sections.begin() + 2, {"a lesson under way, besides", without(swing_keys(state), known)});
    return sections;
}

std::optional<ViewAction> action_for(const KeyPress& press, const ViewState& state) {
    KeyPress wanted = press;
    wanted.character = lower(press.character);
    if (wanted.character != 0 && wanted.modifier == Modifier::shift) wanted.modifier = Modifier::none;
    // Shift adds nothing to a key that has no meaning of its own with it.
    KeyPress without_shift = wanted;
    if (without_shift.modifier == Modifier::shift) without_shift.modifier = Modifier::none;
    const std::vector<KeyLine> lines = keys_in_front(state);
    for (const KeyPress& candidate : {wanted, without_shift}) {
        if (const ViewAction* action = find(lines, candidate)) return *action;
    }
    const bool naming =
        book_in_front(state) && state.overlay == Overlay::none && state.book->page == BookPage::students;
    if (naming && press.character != 0 && press.modifier != Modifier::control)
        return BookAction{TypeName{press.character}};
    return explanation(wanted, state);
}

}  // namespace footing
