#include "viewer/panels/book_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "acquisition/frame/count_words.h"
#include "viewer/book/book_place.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

bool in_bin(const BookDesk& book, BinItem::What what, std::int64_t id) {
    return std::any_of(book.edits.begin(), book.edits.end(), [&](const BookEdit& edit) {
        const auto* item = std::get_if<BinItem>(&edit);
        return item && item->what == what && item->id == id;
    });
}

}  // namespace

const char* page_name(BookPage page) {
    switch (page) {
        case BookPage::students:
            return "students";
        case BookPage::begin:
            return "next lesson";
        case BookPage::lessons:
            return "lessons";
        case BookPage::distances:
            return "distances";
        case BookPage::progress:
            return "progress";
        case BookPage::plates:
            return "plates";
    }
    return "";
}

std::vector<BinItem> bin_of(const BookDesk& book) {
    std::vector<BinItem> bin;
    for (const BookEdit& edit : book.edits) {
        if (const auto* item = std::get_if<BinItem>(&edit)) bin.push_back(*item);
    }
    return bin;
}

std::vector<std::size_t> listed_students(const BookDesk& book) {
    std::vector<std::size_t> places;
    if (!book.facts) return places;
    const std::string part = name_key(book.typed);
    for (std::size_t place = 0; place < book.facts->students.size(); ++place) {
        const Student& student = book.facts->students[place].student;
        if (in_bin(book, BinItem::What::student, student.id)) continue;
        if (name_key(student.name).find(part) != std::string::npos) places.push_back(place);
    }
    return places;
}

std::vector<std::size_t> listed_lessons(const BookDesk& book) {
    std::vector<std::size_t> places;
    if (!book.facts) return places;
    for (std::size_t place = 0; place < book.facts->lessons.size(); ++place) {
        if (!in_bin(book, BinItem::What::lesson, book.facts->lessons[place].lesson.id))
            places.push_back(place);
    }
    return places;
}

std::string begun_at(const LessonLine& line) {
    return line.zone.empty() ? "" : time_of_day(line.start_utc_ns, line.zone);
}

std::string lesson_words(const LessonLine& line) {
    const std::string begun = begun_at(line);
    return fmt::format("lesson {} of {}{} ({})", line.lesson.id, line.lesson.date,
                       begun.empty() ? "" : ", " + begun,
                       count_words(static_cast<std::uint64_t>(line.swings), "swing", "swings"));
}

const Student* chosen_student(const BookDesk& book) {
    if (!book.student || !book.facts || !book.facts->student) return nullptr;
    return book.facts->student->id == *book.student ? &*book.facts->student : nullptr;
}

void take_said(Student& student, const StudentSaid& said) {
    if (said.consent) {
        student.consent = *said.consent;
        student.consent_date = said.date;
    }
    if (said.hand) student.hand = *said.hand;
    if (said.unit) student.unit = *said.unit;
}

std::optional<Student> student_as_said(const BookDesk& book) {
    const Student* student = chosen_student(book);
    if (!student) return std::nullopt;
    Student said = *student;
    for (const StudentToWrite& one : book.to_write) {
        if (one.student == said.id) take_said(said, one.said);
    }
    return said;
}

std::vector<std::string> bag_of(const BookDesk& book, std::int64_t student) {
    std::vector<std::string> names;
    if (!book.facts) return names;
    for (const Wedge& wedge : book.facts->wedges) {
        if (wedge.student == student && wedge.bag == Bag::in) names.push_back(wedge.name);
    }
    return names;
}

std::vector<PlatesChoice> chosen_plates(const BookDesk& book) {
    std::vector<PlatesChoice> chosen;
    if (!book.facts) return chosen;
    for (const std::size_t place : book.joined) {
        if (place < book.facts->plates.size()) chosen.push_back(book.facts->plates[place]);
    }
    if (chosen.empty() && book.plates < book.facts->plates.size())
        chosen.push_back(book.facts->plates[book.plates]);
    return chosen;
}

std::optional<LessonChoice> lesson_choice(const BookDesk& book) {
    if (!book.facts || book.plates >= book.facts->plates.size()) return std::nullopt;
    const std::optional<Student> student = student_as_said(book);
    if ((book.student && !student) || !book.new_student.empty()) return std::nullopt;  // still being read
    if (student ? student->consent == Consent::refused : book.unnamed_consent == Consent::refused)
        return std::nullopt;
    LessonChoice choice;
    if (student) choice.student = *student;
    choice.plates = chosen_plates(book);
    return choice;
}

}  // namespace footing
