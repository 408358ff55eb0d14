#include "viewer/panels/book_edit.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <variant>

#include "acquisition/frame/count_words.h"
#include "analysis/report/student_words.h"
#include "viewer/panels/lacking_carry.h"
#include "viewer/panels/progress_lines.h"
#include "viewer/panels/view_state.h"

namespace footing {

namespace {

void keep_edit(BookDesk& book, BookEdit done) {
    book.edits.push_back(std::move(done));
    book.taken_back.clear();
    book.to_make_again = 0;
}

void write_said(BookDesk& book, std::int64_t student, const StudentSaid& said) {
    book.to_write.push_back({student, said});
    ++book.revision;
}

void write_swing(BookDesk& book, const SwingEdit& edit, const SwingSaid& said) {
    book.swings_to_write.push_back({edit.lesson, edit.swing, said});
    ++book.revision;
}

/// To be written into the book; nothing where nothing is different.
void change_student(BookDesk& book, std::int64_t student, StudentSaid before, StudentSaid after) {
    if (before.consent == after.consent && before.hand == after.hand && before.unit == after.unit) return;
    write_said(book, student, after);
    keep_edit(book, StudentEdit{student, std::move(before), std::move(after)});
}

std::string name_of(const BookDesk& book, std::int64_t student) {
    if (book.facts) {
        for (const StudentLine& line : book.facts->students) {
            if (line.student.id == student) return line.student.name;
        }
    }
    return "the student";
}

/// What a step of undo was about.
std::string edit_words(const BookDesk& book, const BookEdit& edit) {
    if (const auto* item = std::get_if<BinItem>(&edit)) return item->name + " in the bin";
    if (const auto* swing = std::get_if<SwingEdit>(&edit))
        return fmt::format("wedge and length of lesson {}, swing {}", swing->lesson, swing->swing);
    const auto& student = std::get<StudentEdit>(edit);
    const std::string name = name_of(book, student.student);
    if (student.after.consent) return "whether " + name + " may be recorded";
    return student.after.hand ? "which way " + name + " plays" : "the unit of carries of " + name;
}

/// The student of the row, unless they are being taught; says so.
std::optional<BinItem> student_for_bin(ViewState& state) {
    BookDesk& book = *state.book;
    const std::vector<std::size_t> listed = listed_students(book);
    if (book.row >= listed.size()) return std::nullopt;
    const StudentLine& line = book.facts->students[listed[book.row]];
    const Student& student = line.student;
    if (state.desk && state.desk->student && state.desk->student->id == student.id) {
        state.notice = student.name + " is being taught: end the lesson first (Esc, then Ctrl E).";
        return std::nullopt;
    }
    if (book.student == student.id) book.student.reset();
    const std::string lessons =
        line.lessons == 0
            ? ""
            : fmt::format(" with {}, of which the recordings stay on the disk",
                          count_words(static_cast<std::uint64_t>(line.lessons), "lesson", "lessons"));
    state.notice = fmt::format("{} goes into the bin{}. Ctrl Z takes it out again.", student.name, lessons);
    return BinItem{BinItem::What::student, student.id, student.name};
}

/// The lesson of the row, unless it is under way; says so.
std::optional<BinItem> lesson_for_bin(ViewState& state) {
    const BookDesk& book = *state.book;
    const std::vector<std::size_t> listed = listed_lessons(book);
    if (book.row >= listed.size()) return std::nullopt;
    const LessonLine& line = book.facts->lessons[listed[book.row]];
    if (state.desk && state.desk->live && !line.lesson.recording_uuid.empty() &&
        line.lesson.recording_uuid == state.desk->live->uuid) {
        state.notice = "This lesson is under way: end it first (Esc, then Ctrl E).";
        return std::nullopt;
    }
    const std::string which = lesson_words(line);
    state.notice =
        fmt::format("{} goes into the bin; its recording stays on the disk. Ctrl Z takes it out again.",
                    begun_large(which));
    return BinItem{BinItem::What::lesson, line.lesson.id, which};
}

}  // namespace

std::size_t rows_of_page(const ViewState& state) {
    const BookDesk& book = *state.book;
    switch (book.page) {
        case BookPage::students:
            return listed_students(book).size();
        case BookPage::begin:
        case BookPage::plates:
            return book.facts ? book.facts->plates.size() : 0;
        case BookPage::lessons:
            return listed_lessons(book).size();
        case BookPage::distances:
            return listed_lacking(state).size();
        case BookPage::progress:
            return progress_lines(book).size();
    }
    return 0;
}

void keep_row_in_list(ViewState& state) {
    const std::size_t rows = rows_of_page(state);
    BookDesk& book = *state.book;
    book.row = rows == 0 ? 0 : std::min(book.row, rows - 1);
}

void put_into_bin(ViewState& state) {
    BookDesk& book = *state.book;
    if (!book.facts) return;
    std::optional<BinItem> item;
    if (book.page == BookPage::students) item = student_for_bin(state);
    if (book.page == BookPage::lessons) item = lesson_for_bin(state);
    if (!item) return;
    keep_edit(book, std::move(*item));
    keep_row_in_list(state);
}

void keep_swing(BookDesk& book, const SwingEdit& edit) {
    write_swing(book, edit, edit.after);
    keep_edit(book, edit);
}

/// During a lesson an answer may be about somebody else than who is taught: whose it is, and what becomes of
/// the lesson.
void tell_whose_consent(ViewState& state, const Student& student, Consent consent) {
    if (!state.desk || consent == Consent::not_asked) return;
    const auto& taught = state.desk->student;
    if (taught && taught->id == student.id) return;  // the recording ends, and the page says so
    const std::string whose = taught ? " of " + taught->name : "";
    state.notice =
        fmt::format("Written of {}, not of who is taught now: {}. The lesson{} goes on.", student.name,
                    consent == Consent::given ? "may be recorded" : "may not be recorded", whose);
}

void say_consent(ViewState& state, Consent consent) {
    BookDesk& book = *state.book;
    const std::optional<Student> student = student_as_said(book);
    if (!student) {  // it is kept until the student was read
        if (book.student || !book.new_student.empty()) {
            book.said_early = consent;
        } else {
            book.unnamed_consent = consent;
        }
        return;
    }
    const bool asked = consent != Consent::not_asked;
    change_student(book, student->id, {student->consent, student->consent_date, {}, {}},
                   {consent, asked ? book.facts->today : "", {}, {}});
    tell_whose_consent(state, *student, consent);
}

void change_hand(ViewState& state) {
    const auto student = student_as_said(*state.book);
    if (!student || state.desk) return;
    const Hand other = student->hand == Hand::right ? Hand::left : Hand::right;
    change_student(*state.book, student->id, {{}, "", student->hand, {}}, {{}, "", other, {}});
}

void change_unit(ViewState& state) {
    const auto student = student_as_said(*state.book);
    if (!student || state.desk) return;
    const DistanceUnit other =
        student->unit == DistanceUnit::yards ? DistanceUnit::metres : DistanceUnit::yards;
    change_student(*state.book, student->id, {{}, "", {}, student->unit}, {{}, "", {}, other});
}

void take_back(ViewState& state) {
    BookDesk& book = *state.book;
    if (book.edits.empty()) {
        if (state.desk) {  // it would be the lesson's own swings
            state.notice =
                "Nothing was changed at the book that could be undone; what was said of swings is undone in "
                "the lesson (Esc).";
            return;
        }
        if (book.undo != BookUndo::asked_once) {
            book.undo = BookUndo::asked_once;
            state.notice =
                "Nothing is left to undo in this window. Ctrl Z again takes back the newest change of the "
                "book, whichever program made it.";
            return;
        }
        book.undo = BookUndo::newest_change;
        ++book.revision;
        return;
    }
    BookEdit last = std::move(book.edits.back());
    book.edits.pop_back();
    state.notice = "Taken back: " + edit_words(book, last) + ". Ctrl Y does it again.";
    if (const auto* student = std::get_if<StudentEdit>(&last))
        write_said(book, student->student, student->before);
    if (const auto* swing = std::get_if<SwingEdit>(&last)) write_swing(book, *swing, swing->before);
    book.taken_back.push_back(std::move(last));
}

void do_again(ViewState& state) {
    BookDesk& book = *state.book;
    if (book.to_make_again > 0 && !state.desk) {  // taken back after all that was this window's own
        book.undo = BookUndo::make_again;
        ++book.revision;
        return;
    }
    if (book.taken_back.empty()) {
        state.notice = "Nothing was undone here that could be done again.";
        return;
    }
    BookEdit last = std::move(book.taken_back.back());
    book.taken_back.pop_back();
    state.notice = "Done again: " + edit_words(book, last) + ".";
    if (const auto* student = std::get_if<StudentEdit>(&last))
        write_said(book, student->student, student->after);
    if (const auto* swing = std::get_if<SwingEdit>(&last)) write_swing(book, *swing, swing->after);
    book.edits.push_back(std::move(last));
    keep_row_in_list(state);
}

}  // namespace footing
