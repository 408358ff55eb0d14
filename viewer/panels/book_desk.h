#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "acquisition/frame/problem.h"
#include "analysis/distance/distance_chart.h"
#include "viewer/book/book_records.h"
#include "viewer/lesson/lesson_choice.h"
#include "viewer/panels/plates_desk.h"

namespace footing {

struct StudentProgress;

/// The pages of the open book, in the order in which Tab goes through them.
enum class BookPage { students, begin, lessons, distances, progress, plates };
inline constexpr std::array book_pages{BookPage::students,  BookPage::begin,    BookPage::lessons,
                                       BookPage::distances, BookPage::progress, BookPage::plates};
[[nodiscard]] const char* page_name(BookPage page);

/// Wedge and length of a swing, as W and E say them; empty: not said.
struct SwingSaid {
    std::string club;
    std::string length;
    friend bool operator==(const SwingSaid&, const SwingSaid&) = default;
};
/// A carry that the chart has no place for, since its wedge or its length was not said.
struct LackingCarry {
    std::int64_t lesson = 0;
    std::int64_t swing = 0;  ///< its number within the lesson
    std::string date;
    double carry_m = 0.0;
    SwingSaid said;
};

/// What the book says and what is plugged in; read by a worker, never changed after.
struct BookFacts {
    std::string file;
    std::uint64_t revision = 0;         ///< the one that was asked for
    std::vector<StudentLine> students;  ///< by name
    std::optional<Student> student;     ///< whose wedges, lessons and chart follow
    std::vector<Wedge> wedges;
    std::vector<LessonLine> lessons;  ///< newest first
    std::optional<DistanceChart> chart;
    std::vector<LackingCarry> lacking;                ///< oldest first
    std::shared_ptr<const StudentProgress> progress;  ///< absent with the student, or where it cannot be read
    std::string today;                                ///< 2026-05-14
    std::vector<PlatesChoice> plates;                 ///< never empty: the simulated golfer is always there
    std::size_t plates_named = 0;       ///< the first so many were named at the start: several are one
    std::optional<std::int64_t> added;  ///< the student that was added for this
    std::string notice;                 ///< one sentence of what was taken back or made again for this
    std::string taken_back;             ///< the change that was taken back for this, to be made again
    std::optional<Problem> problem;     ///< why not all of it could be read or done
};

/// What was put into the bin: no longer listed, still in the book until the window closes (R13).
struct BinItem {
    enum class What { student, lesson } what = What::student;
    std::int64_t id = 0;
    std::string name;
    friend bool operator==(const BinItem&, const BinItem&) = default;
};

/// What the coach says of a student here: whether there is consent, and since when; which way the student
/// plays, and what carries are told in. What is absent stays as the book has it, whoever wrote it there
/// meanwhile.
struct StudentSaid {
    std::optional<Consent> consent;
    std::string date;  ///< of the consent; empty when not asked
    std::optional<Hand> hand;
    std::optional<DistanceUnit> unit;
    friend bool operator==(const StudentSaid&, const StudentSaid&) = default;
};
struct StudentEdit {
    std::int64_t student = 0;
    StudentSaid before;
    StudentSaid after;
    friend bool operator==(const StudentEdit&, const StudentEdit&) = default;
};
/// What is to be written of a student.
struct StudentToWrite {
    std::int64_t student = 0;
    StudentSaid said;
    friend bool operator==(const StudentToWrite&, const StudentToWrite&) = default;
};

/// Of a swing that is in the book: one step of undo, what is to be written, and what is said before Enter.
struct SwingEdit {
    std::int64_t lesson = 0;
    std::int64_t swing = 0;
    SwingSaid before;
    SwingSaid after;
    friend bool operator==(const SwingEdit&, const SwingEdit&) = default;
};
struct SwingToWrite {
    std::int64_t lesson = 0;
    std::int64_t swing = 0;
    SwingSaid said;
    friend bool operator==(const SwingToWrite&, const SwingToWrite&) = default;
};
struct FillIn {
    std::int64_t lesson = 0;
    std::int64_t swing = 0;
    SwingSaid said;
};

/// What the coach changed in this window, one step of undo each.
using BookEdit = std::variant<BinItem, StudentEdit, SwingEdit>;

/// Whether the newest change of the book itself is to be taken back (Book::undo), whichever program made it,
/// so that it is asked for twice; or one that was taken back in this window to be made again.
enum class BookUndo { none, asked_once, newest_change, make_again };

enum class OpenIn { this_window, other_windows_too };

enum class BookWish { none, begin_lesson };

/// Somebody said no while being recorded: what the coach must know of it.
struct Refusal {
    std::int64_t student = 0;
    std::string name;
    std::string recording;  ///< what is kept of it, once it is closed; empty: nothing
};

/// Whether the lesson of an invented student begins as soon as the book has that student.
enum class DemoLesson { not_asked_for, as_soon_as_added };

/// The lesson book, open on the coach's desk. Plain data; changed by carry_out() only.
struct BookDesk {
    BookPage page = BookPage::students;
    std::shared_ptr<const BookFacts> facts;  ///< absent until it was read
    std::uint64_t revision = 1;              ///< facts of this revision are wanted
    std::optional<std::int64_t> student;     ///< the chosen one
    std::string typed;                       ///< part of a name to look for, or a new name
    std::size_t row = 0;                     ///< place in the list of the page
    std::size_t plates = 0;                  ///< place in facts->plates
    std::vector<std::size_t> joined;         ///< places there of several devices that are taken as one
    std::string new_student;                 ///< to be added to the book; empty: nobody
    std::vector<BookEdit> edits;             ///< for undo, newest last
    std::vector<BookEdit> taken_back;        ///< for redo, newest last
    std::vector<StudentToWrite> to_write;    ///< not in the book yet
    std::vector<SwingToWrite> swings_to_write;
    std::optional<FillIn> fill_in;                 ///< on the page of distances
    std::optional<Consent> said_early;             ///< of a student who is still being read
    Consent unnamed_consent = Consent::not_asked;  ///< of whoever is taught without a name, for one lesson
    PlatesDesk bench;                              ///< plates that nobody is taught on
    BookUndo undo = BookUndo::none;
    std::size_t to_make_again = 0;  ///< changes of the book itself that this window took back
    OpenIn open_in = OpenIn::this_window;
    BookWish wish = BookWish::none;
    DemoLesson demo = DemoLesson::not_asked_for;
    std::optional<Refusal> refusal;
};

/// What is in the bin now, oldest first.
[[nodiscard]] std::vector<BinItem> bin_of(const BookDesk& book);
/// The students that match what is typed and are not in the bin: places in facts->students.
[[nodiscard]] std::vector<std::size_t> listed_students(const BookDesk& book);
/// The lessons that are not in the bin: places in facts->lessons.
[[nodiscard]] std::vector<std::size_t> listed_lessons(const BookDesk& book);
/// "lesson 7 of 2026-05-14, 10:20 (12 swings)": two of one day differ.
[[nodiscard]] std::string lesson_words(const LessonLine& line);
/// When it began, "10:20"; empty where that is not known.
[[nodiscard]] std::string begun_at(const LessonLine& line);
/// The chosen student, once read.
[[nodiscard]] const Student* chosen_student(const BookDesk& book);
/// The chosen student with what was said here, whether the book has it yet or not.
[[nodiscard]] std::optional<Student> student_as_said(const BookDesk& book);
/// The names of the student's wedges that are in the bag, as far as they were read; in the book's order.
[[nodiscard]] std::vector<std::string> bag_of(const BookDesk& book, std::int64_t student);
/// The devices that frames are to come from: those joined, else the one of the row.
[[nodiscard]] std::vector<PlatesChoice> chosen_plates(const BookDesk& book);
/// `student` with what was said.
void take_said(Student& student, const StudentSaid& said);
/// Who is to be taught on what; nothing while the book is not read.
[[nodiscard]] std::optional<LessonChoice> lesson_choice(const BookDesk& book);

}  // namespace footing
