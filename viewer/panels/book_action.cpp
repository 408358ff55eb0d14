#include "viewer/panels/book_action.h"

#include <algorithm>
#include <utility>

#include "acquisition/join/joined_device.h"
#include "viewer/panels/book_edit.h"
#include "viewer/panels/consent.h"
#include "viewer/panels/lacking_carry.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

constexpr std::size_t longest_name = 120;  // bytes
constexpr std::size_t longest_masses = 60;
constexpr const char* demo_student = "Demo student";

/// UTF-8 of one character; empty for what cannot be written (RFC 3629).
std::string utf8(char32_t character) {
    const auto bits = [&](int shift, std::uint32_t head) {
        return static_cast<char>(head | ((static_cast<std::uint32_t>(character) >> shift) & 0x3FU));
    };
    if (character < 0x20 || character == 0x7F || character > 0x10FFFF) return "";
    if (character >= 0xD800 && character <= 0xDFFF) return "";
    if (character < 0x80) return {static_cast<char>(character)};
    if (character < 0x800) return {static_cast<char>(0xC0U | (character >> 6U)), bits(0, 0x80)};
    if (character < 0x10000) {
        return {static_cast<char>(0xE0U | (character >> 12U)), bits(6, 0x80), bits(0, 0x80)};
    }
    return {static_cast<char>(0xF0U | (character >> 18U)), bits(12, 0x80), bits(6, 0x80), bits(0, 0x80)};
}

struct ApplyToBook {
    ViewState state;

    [[nodiscard]] BookDesk& book() { return *state.book; }

    [[nodiscard]] std::size_t rows() { return rows_of_page(state); }

    [[nodiscard]] bool picks_plates() {
        return book().page == BookPage::begin || book().page == BookPage::plates;
    }
    /// The row of plates stays while they are listened to.
    [[nodiscard]] bool plates_are_taken() { return book().page == BookPage::plates && book().bench.view; }

    void turn_to(BookPage page) {
        book().page = page;
        book().row = picks_plates() ? book().plates : 0;
    }

    void choose_student(std::int64_t id) {
        if (book().student != id) {
            ++book().revision;
            leave_simulated_golfer();
        }
        book().student = id;
        book().unnamed_consent = Consent::not_asked;
        book().typed.clear();
        turn_to(BookPage::begin);
    }

    /// Who comes next does not stand on the simulated golfer of the last lesson, unless there are no plates.
    void leave_simulated_golfer() {
        if (!book().facts || state.desk || !simulated_is_chosen(book())) return;
        const std::vector<PlatesChoice>& plates = book().facts->plates;
        const auto real = std::ranges::find_if(
            plates, [](const PlatesChoice& one) { return one.kind != PlatesChoice::Kind::simulated; });
        if (real != plates.end()) book().plates = static_cast<std::size_t>(real - plates.begin());
    }

    void operator()(const HearBook& action) {
        if (!action.facts) return;
        const bool first = !book().facts;
        book().facts = action.facts;
        if (first && action.facts->plates_named > 1) {
            for (std::size_t place = 0; place < action.facts->plates_named; ++place)
                book().joined.push_back(place);
        }
        std::erase_if(book().joined, [&](std::size_t place) { return place >= action.facts->plates.size(); });
        if (action.facts->revision == book().revision || action.facts->added) book().new_student.clear();
        if (action.facts->revision == book().revision) {
            book().to_write.clear();
            book().swings_to_write.clear();
        }
        if (action.facts->added) choose_student(*action.facts->added);
        if (action.facts->added || action.facts->problem) begin_asked_demo();
        book().plates =
            std::min(book().plates, action.facts->plates.empty() ? 0 : action.facts->plates.size() - 1);
        keep_row_in_list(state);
        if (action.facts->problem) state.problem = action.facts->problem;
        if (!action.facts->notice.empty()) state.notice = action.facts->notice;
        const Student* student = chosen_student(book());
        if (state.desk && state.desk->student && student && state.desk->student->id == student->id) {
            state.desk->student = *student;
            take_bag(*state.desk, book());
        }
        if (student && book().said_early)
            (*this)(SayConsent{*std::exchange(book().said_early, std::nullopt)});
    }

    void operator()(const ShowBook&) {
        state.front = Front::book;
        ++book().revision;  // other programs write into it too
    }

    void operator()(const HideBook&) {
        PlatesDesk& bench = book().bench;
        if (!book().typed.empty()) {
            book().typed.clear();
            book().row = 0;
        } else if (book().page == BookPage::plates && !bench.typed.empty()) {
            bench.typed.clear();
        } else if (book().page == BookPage::plates && bench.view && !state.problem) {
            const bool listening = bench.view->task == PlatesTask::listening;
            bench.wish = listening ? PlatesWish::stop : PlatesWish::only_listen;
        } else if (state.problem) {
            state.problem.reset();
        } else if (state.desk || state.lesson) {
            state.front = Front::swings;
        }
    }

    void operator()(const TurnToPage& action) { turn_to(action.page); }

    void operator()(const OpenPage& action) {
        (*this)(ShowBook{});
        turn_to(action.page);
    }

    void operator()(const TurnPage& action) {
        const auto pages = static_cast<int>(book_pages.size());
        const int next = (static_cast<int>(book().page) + action.step + pages) % pages;
        turn_to(book_pages[static_cast<std::size_t>(next)]);
    }

    void operator()(const TypeName& action) {
        if (book().page == BookPage::plates) return type_number(action.character);
        if (book().page != BookPage::students) return;
        const std::string letters = utf8(action.character);
        if (book().typed.size() + letters.size() > longest_name) return;
        if (book().typed.empty() && letters == " ") return;
        book().typed += letters;
        book().row = 0;
    }

    /// Masses or a weight.
    void type_number(char32_t character) {
        const bool belongs = (character >= U'0' && character <= U'9') || character == U'.' ||
                             character == U',' || character == U' ';
        std::string& typed = book().bench.typed;
        if (!belongs || typed.size() >= longest_masses || (typed.empty() && character == U' ')) return;
        typed += static_cast<char>(character);
    }

    void operator()(const HearPlates& action) { book().bench.view = action.view; }
    void operator()(const AskPlates& action) {
        if (state.desk) return;  // the lesson has the plates
        book().bench.wish = action.wish;
    }
    void operator()(const ChangeMethod&) {
        CalibrationMethod& method = book().bench.method;
        method =
            method == CalibrationMethod::cells ? CalibrationMethod::plate_total : CalibrationMethod::cells;
    }

    void operator()(const EraseName&) {
        if (book().page == BookPage::plates) {
            if (!book().bench.typed.empty()) book().bench.typed.pop_back();
            return;
        }
        std::string& typed = book().typed;
        while (!typed.empty() && (static_cast<unsigned char>(typed.back()) & 0xC0U) == 0x80U)
            typed.pop_back();
        if (!typed.empty()) typed.pop_back();
        book().row = 0;
    }

    void operator()(const MoveRow& action) {
        if (rows() == 0 || plates_are_taken()) return;
        const auto last = static_cast<std::ptrdiff_t>(rows()) - 1;
        const auto here = static_cast<std::ptrdiff_t>(book().row);
        book().row = static_cast<std::size_t>(std::clamp<std::ptrdiff_t>(here + action.step, 0, last));
        if (picks_plates()) book().plates = book().row;
    }

    void operator()(const PickRow& action) {
        if (action.row >= rows() || plates_are_taken()) return;
        if (book().row == action.row && !picks_plates()) return (*this)(Confirm{});
        book().row = action.row;
        if (picks_plates()) book().plates = action.row;
    }

    void operator()(const Confirm&) {
        switch (book().page) {
            case BookPage::students: {
                const std::vector<std::size_t> listed = listed_students(book());
                if (book().row < listed.size()) {
                    book().said_early.reset();
                    choose_student(book().facts->students[listed[book().row]].student.id);
                } else if (!book().typed.empty() && book().facts) {
                    book().new_student = book().typed;
                    book().said_early.reset();
                    ++book().revision;
                    turn_to(BookPage::begin);  // what is typed now is no part of the name any more
                } else if (book().facts && book().facts->students.empty()) {
                    begin_demo();
                }
                return;
            }
            case BookPage::begin:
                if (may_begin(state)) {
                    book().wish = BookWish::begin_lesson;
                } else if (!state.desk && lesson_choice(book())) {
                    state.notice = ask_consent_words(state);
                }
                return;
            case BookPage::lessons: {
                const std::vector<std::size_t> listed = listed_lessons(book());
                if (book().row >= listed.size()) return;
                if (state.desk) {
                    state.notice =
                        "A lesson is under way: end it first (Esc, then Ctrl E), then open others.";
                    return;
                }
                const LessonLine& line = book().facts->lessons[listed[book().row]];
                if (line.recording_file.empty()) {
                    state.notice = "No recording of this lesson is known, so that there is nothing to open.";
                    return;
                }
                state.opening = line.recording_file;
                state.front = Front::swings;
                return;
            }
            case BookPage::plates:
                return (*this)(AskPlates{book().bench.view ? PlatesWish::accept : PlatesWish::listen});
            case BookPage::distances:
                return keep_filled(state);
            case BookPage::progress:
                return;
        }
    }

    /// The empty book's first lesson: an invented student on no plates at all, begun once the book has that
    /// student.
    void begin_demo() {
        book().new_student = demo_student;
        book().demo = DemoLesson::as_soon_as_added;
        ++book().revision;
    }
    void begin_asked_demo() {
        if (std::exchange(book().demo, DemoLesson::not_asked_for) == DemoLesson::not_asked_for) return;
        if (!book().facts->added) return;
        book().joined.clear();
        const std::vector<PlatesChoice>& plates = book().facts->plates;
        for (std::size_t place = 0; place < plates.size(); ++place) {
            if (plates[place].kind == PlatesChoice::Kind::simulated) book().plates = book().row = place;
        }
        if (!state.desk && lesson_choice(book())) book().wish = BookWish::begin_lesson;
    }

    void operator()(const ToBin&) { put_into_bin(state); }

    void operator()(const JoinRow&) {
        if (book().page != BookPage::begin || !book().facts || book().row >= book().facts->plates.size())
            return;
        if (book().facts->plates[book().row].kind == PlatesChoice::Kind::simulated) return;
        const auto found = std::ranges::find(book().joined, book().row);
        if (found != book().joined.end()) {
            book().joined.erase(found);
        } else if (book().joined.size() < most_joined_devices) {
            book().joined.push_back(book().row);
        }
    }

    void operator()(const SayConsent& action) { say_consent(state, action.consent); }
    void operator()(const ChangeHand&) { change_hand(state); }
    void operator()(const ChangeUnit&) { change_unit(state); }
    void operator()(const FillWedge&) { fill_wedge(state); }
    void operator()(const FillLength&) { fill_length(state); }
    void operator()(const TakeBack&) { take_back(state); }
    void operator()(const DoAgain&) { do_again(state); }
};

}  // namespace

ViewState carry_out_book(ViewState state, const BookAction& action) {
    if (!state.book) return state;
    const bool of_coach =
        !std::holds_alternative<HearBook>(action) && !std::holds_alternative<HearPlates>(action);
    const bool again = std::holds_alternative<TakeBack>(action);
    if (of_coach && !again && state.book->undo == BookUndo::asked_once) state.book->undo = BookUndo::none;
    ApplyToBook applied{std::move(state)};
    std::visit(applied, action);
    honour_refusal(applied.state);
    return std::move(applied.state);
}

}  // namespace footing
