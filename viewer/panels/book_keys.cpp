#include <utility>

#include "viewer/panels/consent.h"
#include "viewer/panels/key_tables.h"
#include "viewer/panels/lacking_carry.h"
#include "viewer/panels/progress_lines.h"

namespace footing {

namespace {

std::vector<KeyLine> row_keys(const std::string& meaning) {
    return list_keys<BookAction, MoveRow>(meaning);
}

KeyLine enter_key(const std::string& meaning) {
    return {"Enter", meaning, {{named(NamedKey::enter), BookAction{Confirm{}}}}};
}

KeyLine erase_key() {
    return {
        "Backspace", "take the last character back", {{named(NamedKey::backspace), BookAction{EraseName{}}}}};
}

KeyLine bin_key() {
    return {"Del", "into the bin", {{named(NamedKey::erase), BookAction{ToBin{}}}}};
}

/// Letters there are a name (action_for).
std::vector<KeyLine> student_keys(const BookDesk& book) {
    std::vector<KeyLine> lines{{"A … Z", "type a name: to find a student, or for a new one", {}}};
    if (!book.typed.empty()) lines.push_back(erase_key());
    const std::vector<std::size_t> listed = listed_students(book);
    if (!listed.empty()) append(lines, row_keys("choose a student"));
    if (!listed.empty()) {
        lines.push_back(enter_key("teach this student"));
    } else if (!book.typed.empty()) {
        lines.push_back(enter_key("a new student of that name"));
    } else {
        lines.push_back(enter_key("a demo lesson"));
    }
    if (!listed.empty()) lines.push_back(bin_key());
    return lines;
}

std::vector<KeyLine> begin_keys(const ViewState& state) {
    const BookDesk& book = *state.book;
    std::vector<KeyLine> lines;
    if (!state.desk) {
        append(lines, row_keys("choose the plates"));
        lines.push_back({"Space", "take several as one", {{typed(U' '), BookAction{JoinRow{}}}}});
        if (student_as_said(book)) {
            lines.push_back({"H", "plays the other way", {{typed(U'h'), BookAction{ChangeHand{}}}}});
            lines.push_back(
                {"U", "carries in yards, or in metres", {{typed(U'u'), BookAction{ChangeUnit{}}}}});
        }
        if (may_begin(state)) {
            lines.push_back(enter_key("begin the lesson"));
        } else if (lesson_choice(book)) {
            lines.push_back(enter_key("asks first: may be recorded, or not"));
        }
    }
    const bool asked = consent_is_asked(state);
    const Consent said = consent_said(state);
    if (asked && said != Consent::given)
        lines.push_back({"Y", "may be recorded", {{typed(U'y'), BookAction{SayConsent{Consent::given}}}}});
    if (asked && said != Consent::refused) {
        lines.push_back({"N",
                         state.desk ? "may not: this ends the recording" : "may not be recorded",
                         {{typed(U'n'), BookAction{SayConsent{Consent::refused}}}}});
    }
    return lines;
}

std::vector<KeyLine> lesson_list_keys(const ViewState& state) {
    const BookDesk& book = *state.book;
    const std::vector<std::size_t> listed = listed_lessons(book);
    if (listed.empty()) return {};
    std::vector<KeyLine> lines = row_keys("choose a lesson");
    const std::string file =
        book.row < listed.size() ? book.facts->lessons[listed[book.row]].recording_file : "";
    if (!state.desk && !file.empty()) lines.push_back(enter_key("open its recording"));
    if (state.lesson && !state.lesson->swings.empty() && !file.empty())
        lines.push_back(
            {"C", "lay it beside the open one", {{typed(U'c'), CompareAction{CompareWith{file}}}}});
    lines.push_back(bin_key());
    return lines;
}

KeyLine asks_plates(const char* key, const std::string& meaning, char32_t letter, PlatesWish wish) {
    return {key, meaning, {{typed(letter), BookAction{AskPlates{wish}}}}};
}

std::vector<KeyLine> plates_keys(const ViewState& state) {
    const BookDesk& book = *state.book;
    const PlatesView* view = book.bench.view.get();
    if (state.desk) return {};  // the lesson has them
    if (!view) {
        std::vector<KeyLine> lines = row_keys("choose the plates");
        lines.push_back(enter_key("listen to them"));
        return lines;
    }
    if (view->stage != PlatesView::Stage::heard) return {};
    if (view->task != PlatesTask::listening) return {enter_key("take the reading as it is")};
    std::vector<KeyLine> lines;
    KeyLine number{"0 … 9  ,  .", "masses in kg, as 10, 20, 30; or one weight", {}};
    for (const char32_t character : std::u32string(U"0123456789,. "))
        number.bindings.push_back({typed(character), BookAction{TypeName{character}}});
    lines.push_back(std::move(number));
    if (!book.bench.typed.empty()) lines.push_back(erase_key());
    lines.push_back(asks_plates("K", "quick check", U'k', PlatesWish::check));
    const auto masses = typed_masses(book.bench.typed);
    if (masses && !masses->empty())
        lines.push_back(asks_plates("C", "calibrate with these masses", U'c', PlatesWish::calibrate));
    if (view->device.layout.kind != FrameKind::grid)
        lines.push_back(
            {"H", "how: each cell, or each plate as a whole", {{typed(U'h'), BookAction{ChangeMethod{}}}}});
    return lines;
}

/// Of carries that the chart has no place for.
std::vector<KeyLine> distances_keys(const ViewState& state) {
    const auto carry = lacking_in_hand(state);
    if (!carry) return {};
    std::vector<KeyLine> lines;
    if (listed_lacking(state).size() > 1) lines = row_keys("choose a carry that is not in the chart");
    lines.push_back({"W", "its wedge", {{typed(U'w'), BookAction{FillWedge{}}}}});
    lines.push_back({"E", "its length of swing", {{typed(U'e'), BookAction{FillLength{}}}}});
    lines.push_back(enter_key(is_complete(carry->said) ? "into the chart with it" : "says what is missing"));
    return lines;
}

std::vector<KeyLine> page_keys(const ViewState& state) {
    switch (state.book->page) {
        case BookPage::students:
            return student_keys(*state.book);
        case BookPage::begin:
            return begin_keys(state);
        case BookPage::lessons:
            return lesson_list_keys(state);
        case BookPage::plates:
            return plates_keys(state);
        case BookPage::distances:
            return distances_keys(state);
        case BookPage::progress:
            if (!progress_lines(*state.book).empty()) return row_keys("read on, where not all has room");
            break;
    }
    return {};
}

/// What Esc does first; empty: nothing.
std::string escape_words(const ViewState& state) {
    const BookDesk& book = *state.book;
    if (!book.typed.empty()) return "drop what was typed";
    if (book.page == BookPage::plates) {
        if (!book.bench.typed.empty()) return "drop what was typed";
        if (book.bench.view && !state.problem)
            return book.bench.view->task == PlatesTask::listening ? "stop listening" : "give up";
    }
    if (state.problem) return "put the message away";
    if (state.desk) return "back to the lesson";
    return state.lesson ? "back to the swings" : "";
}

}  // namespace

std::vector<KeyLine> book_keys(const ViewState& state) {
    const bool of_letters = state.book->page == BookPage::students;
    std::vector<KeyLine> lines;
    if (state.book->facts) append(lines, page_keys(state));
    if (const std::string words = escape_words(state); !words.empty()) {
        KeyLine escape{"Esc", words, {{named(NamedKey::escape), BookAction{HideBook{}}}}};
        if (!of_letters && words.starts_with("back")) {
            escape.keys = "Esc  B";
            escape.bindings.push_back({typed(U'b'), BookAction{HideBook{}}});
        }
        lines.push_back(std::move(escape));
    }
    lines.push_back({"Tab  ←  →",
                     "the next page, the one before",
                     {{named(NamedKey::tab), BookAction{TurnPage{1}}},
                      {named(NamedKey::tab, Modifier::shift), BookAction{TurnPage{-1}}},
                      {named(NamedKey::right), BookAction{TurnPage{1}}},
                      {named(NamedKey::left), BookAction{TurnPage{-1}}}}});
    append(lines, to_book_keys(state));
    lines.push_back(
        {"Ctrl Z  Y",
         "undo, redo what was changed here",
         {{with_control(U'z'), BookAction{TakeBack{}}}, {with_control(U'y'), BookAction{DoAgain{}}}}});
    append(lines, end_lesson_key(state));
    append(lines, look_keys(state, of_letters ? WithLetters::no : WithLetters::yes));
    append(lines, window_keys(state));
    return lines;
}

}  // namespace footing
