#include <algorithm>
#include <cmath>
#include <string>

#include "viewer/book/simulated_lessons.h"
#include "viewer/panels/book_panels.h"
#include "viewer/panels/consent.h"
#include "viewer/panels/lacking_carry.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

std::string student_keys(const BookDesk& book) {
    if (!listed_students(book).empty())
        return "type a name  ·  ↑ ↓ choose  ·  Enter takes  ·  Del into the bin  ·  Tab next page";
    return book.typed.empty() ? "type a name  ·  Enter a demo lesson  ·  Tab next page"
                              : "Enter a new student of that name  ·  Esc clears it  ·  Tab next page";
}

std::string begin_keys(const ViewState& state) {
    std::string words;
    if (!state.desk) words = "↑ ↓ choose the plates, Space joins several  ·  ";
    if (may_begin(state)) words += "Enter begins  ·  ";
    if (consent_is_asked(state)) words += "Y may be recorded, N may not  ·  ";
    return words + "Tab next page";
}

/// As listed_keys() has them: what does nothing here does not stand here.
std::string lesson_keys(const ViewState& state) {
    const BookDesk& book = *state.book;
    const std::vector<std::size_t> listed = listed_lessons(book);
    if (listed.empty()) return "Tab next page";
    const bool recorded =
        book.row < listed.size() && !book.facts->lessons[listed[book.row]].recording_file.empty();
    std::string words = "↑ ↓ choose  ·  ";
    if (recorded && !state.desk) words += "Enter opens  ·  ";
    if (recorded && state.lesson && !state.lesson->swings.empty())
        words += "C lays it beside the open one  ·  ";
    return words + "Del into the bin  ·  Tab next page";
}

std::string keys_of(const ViewState& state) {
    switch (state.book->page) {
        case BookPage::students:
            return student_keys(*state.book);
        case BookPage::begin:
            return begin_keys(state);
        case BookPage::lessons:
            return lesson_keys(state);
        case BookPage::plates: {
            const PlatesView* view = state.book->bench.view.get();
            if (state.desk) return "Tab next page";
            if (!view) return "↑ ↓ choose  ·  Enter listens  ·  Tab next page";
            if (view->stage != PlatesView::Stage::heard) return "Esc stops  ·  Tab next page";
            return view->task == PlatesTask::listening ? "K quick check  ·  digits: masses, then C "
                                                         "calibrates  ·  H how  ·  Esc stops  ·  Tab next "
                                                         "page"
                                                       : "Enter takes the reading as it is  ·  Esc gives up";
        }
        case BookPage::distances:
            return listed_lacking(state).empty()
                       ? "Tab next page"
                       : "W wedge  ·  E length  ·  Enter into the chart  ·  Tab next page";
        case BookPage::progress:
            return "Tab next page";
    }
    return "";
}

void draw_tabs(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked) {
    const Student* student = chosen_student(*state.book);
    const bool back = state.desk || state.lesson;
    if (back) {
        const Box leave = box.cut_right(canvas.px(152));
        const Touch found = touch("leave", leave);
        if (found == Touch::pressed) asked.push_back(BookAction{HideBook{}});
        if (found == Touch::hovered) canvas.fill(leave, Ink::band, 1.0, 4.0F);
        canvas.text(leave, state.desk ? "Esc to the lesson" : "Esc to the swings", TextSize::text, Ink::quiet,
                    Align::right);
        box.cut_right(canvas.px(24));
    }
    // The name has its room first; between the pages less will do.
    float needed =
        student ? canvas.text_width(one_line(student->name), TextSize::heading, TextWeight::bold) : 0.0F;
    for (const BookPage page : book_pages)
        needed += canvas.text_width(page_name(page), TextSize::heading, TextWeight::bold) + canvas.px(42);
    const float gap = canvas.px(needed <= box.width() ? 40 : 20);
    for (const BookPage page : book_pages) {
        const bool here = page == state.book->page;
        const TextWeight weight = here ? TextWeight::bold : TextWeight::regular;
        const float width = canvas.text_width(page_name(page), TextSize::heading, weight);
        const Box tab = box.cut_left(width + canvas.px(2));
        box.cut_left(gap);
        const Touch found = touch(page_name(page), tab);
        if (found == Touch::pressed) asked.push_back(BookAction{TurnToPage{page}});
        canvas.text(tab, page_name(page), TextSize::heading,
                    here || found == Touch::hovered ? Ink::ink : Ink::quiet, Align::left, weight);
        if (here) canvas.line({tab.left, tab.bottom}, {tab.right, tab.bottom}, Ink::ink, 2.0F);
    }
    if (student) canvas.text(box, student->name, TextSize::heading, Ink::ink, Align::right, TextWeight::bold);
}

void draw_other_windows(ScreenCanvas& canvas, Box box) {
    box.cut_bottom(canvas.px(12));
    canvas.fill({box.left, box.top, box.left + canvas.px(3), box.bottom}, Ink::ink);
    box.cut_left(canvas.px(16));
    canvas.text(box,
                "Another window has this book open too. What it writes shows here when you turn to the book "
                "again; hold each lesson in one of them.",
                TextSize::text, Ink::ink);
}

/// Numbers that are made of simulated swings are not the student's; those pages say so.
void draw_simulated_lessons(ScreenCanvas& canvas, Box& rest, const BookDesk& book) {
    if (book.page != BookPage::distances && book.page != BookPage::progress) return;
    const std::vector<LessonLine>& lessons = book.facts->lessons;
    const std::string words =
        simulated_lessons_words(book.page == BookPage::distances ? with_carries(lessons) : lessons);
    if (words.empty()) return;
    canvas.text(rest.cut_top(canvas.px(28)), words, TextSize::text, Ink::alarm, Align::left,
                TextWeight::bold);
    rest.cut_top(canvas.px(8));
}

void draw_foot(ScreenCanvas& canvas, Box foot, const ViewState& state, std::vector<ViewAction>& asked) {
    if (!state.notice.empty()) return draw_notice(canvas, foot, state);
    canvas.line({foot.left, foot.top}, {foot.right, foot.top}, Ink::grid);
    const BookDesk& book = *state.book;
    const auto button = [&](const char* name, const std::string& words, const BookAction& action, bool can) {
        if (!can) return;
        const Box place = foot.cut_right(canvas.text_width(words, TextSize::small) + canvas.px(2));
        foot.cut_right(canvas.px(24));
        const Touch found = touch(name, place);
        if (found == Touch::pressed) asked.push_back(action);
        canvas.text(place, words, TextSize::small, found == Touch::hovered ? Ink::ink : Ink::quiet,
                    Align::right);
    };
    canvas.text(foot.cut_right(canvas.px(96)), "? lists the keys", TextSize::small, Ink::quiet, Align::right);
    foot.cut_right(canvas.px(24));
    button("do again", "Ctrl Y again", DoAgain{}, !book.taken_back.empty());
    button("take back", "Ctrl Z undo", TakeBack{}, !book.edits.empty() || !state.desk);
    canvas.text(foot, keys_of(state), TextSize::small, Ink::quiet);
}

}  // namespace

void draw_rows(ScreenCanvas& canvas, Box box, std::size_t count, std::size_t chosen,
               const std::function<void(const Box& row, std::size_t place)>& draw_row,
               std::vector<ViewAction>& asked) {
    const float height = canvas.px(40);
    const auto visible = static_cast<std::size_t>(std::max(1.0F, std::floor(box.height() / height)));
    const std::size_t last_first = count > visible ? count - visible : 0;
    const std::size_t first = std::min(chosen > visible / 2 ? chosen - visible / 2 : 0, last_first);
    const Box all = box;
    for (std::size_t place = first; place < std::min(first + visible, count); ++place) {
        const Box row = box.cut_top(height);
        const Touch found = touch(static_cast<int>(place), row);
        if (found == Touch::pressed) asked.push_back(BookAction{PickRow{place}});
        if (place == chosen) {
            canvas.fill(row, Ink::band, 1.0, 4.0F);
            canvas.fill(
                {row.left, row.top + canvas.px(6), row.left + canvas.px(3), row.bottom - canvas.px(6)},
                Ink::ink);
        } else if (found == Touch::hovered) {
            canvas.fill(row, Ink::band, 0.5, 4.0F);
        }
        draw_row(row.inset(canvas.px(16), 0.0F), place);
    }
    if (count <= visible) return;
    const float wheel = ImGui::GetIO().MouseWheel;
    if (wheel != 0.0F) asked.push_back(BookAction{MoveRow{wheel > 0.0F ? -3 : 3}});
    const float track = height * static_cast<float>(visible);
    const auto part = [&](std::size_t of) {
        return track * static_cast<float>(of) / static_cast<float>(count);
    };
    canvas.fill({all.right - canvas.px(2), all.top + part(first), all.right, all.top + part(first + visible)},
                Ink::quiet, 0.6, 1.0F);
}

void draw_purpose(ScreenCanvas& canvas, Box box, const char* heading, const char* words) {
    box = {box.left, box.top, std::min(box.right, box.left + canvas.px(880)), box.bottom};
    canvas.large_text(box.cut_top(canvas.px(88)), heading, ScreenCanvas::LargeFace::words, Ink::ink);
    box.cut_top(canvas.px(8));
    canvas.paragraph(box, words, TextSize::text, Ink::quiet);
}

void draw_book(ScreenCanvas& canvas, const Box& window, const ViewState& state,
               std::vector<ViewAction>& asked) {
    canvas.enter("book");
    Box rest = window.inset(canvas.px(48), canvas.px(24));
    draw_tabs(canvas, rest.cut_top(canvas.px(40)), state, asked);
    const float foot = state.notice.empty() ? canvas.px(32) : notice_height(canvas, rest.width(), state);
    draw_foot(canvas, rest.cut_bottom(foot), state, asked);
    canvas.enter("book");
    rest.cut_top(canvas.px(24));
    rest.cut_bottom(canvas.px(8));
    if (state.problem) {
        draw_problem(canvas, rest.cut_top(problem_height(canvas, rest.width(), state)), state, asked);
        rest.cut_top(canvas.px(16));
        canvas.enter("book");
    }
    if (state.book->open_in == OpenIn::other_windows_too)
        draw_other_windows(canvas, rest.cut_top(canvas.px(40)));
    if (!state.book->facts) {
        canvas.text(rest.cut_top(canvas.px(40)), "Reading the book", TextSize::heading, Ink::quiet);
        return;
    }
    draw_simulated_lessons(canvas, rest, *state.book);
    switch (state.book->page) {
        case BookPage::students:
            return draw_students_page(canvas, rest, state, asked);
        case BookPage::begin:
            return draw_begin_page(canvas, rest, state, asked);
        case BookPage::lessons:
            return draw_lessons_page(canvas, rest, state, asked);
        case BookPage::distances:
            return draw_distances_page(canvas, rest, state, asked);
        case BookPage::progress:
            return draw_progress_page(canvas, rest, state);
        case BookPage::plates:
            return draw_plates_page(canvas, rest, state, asked);
    }
}

}  // namespace footing
