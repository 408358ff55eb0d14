#pragma once

#include <doctest/doctest.h>

#include <string>
#include <utility>

#include "tests/support/child_process.h"
#include "viewer/book/book.h"

namespace footing::test {

/// The value, or the test ends with the problem's sentence.
template <typename T>
T need(Result<T> result) {
    REQUIRE_MESSAGE(result.ok(), (result.ok() ? "" : sentence(result.problem())));
    return std::move(result).value();
}

inline Book new_book(const std::string& path) {
    return need(Book::open(path, OpenAs::create_if_absent));
}

inline Student called(const std::string& name) {
    Student student;
    student.name = name;
    return student;
}

inline std::int64_t add_wedge(Book& book, std::int64_t student, const std::string& name, double loft_deg) {
    return need(book.add_wedge({0, student, name, loft_deg, Bag::in}));
}

inline std::int64_t add_lesson(Book& book, std::int64_t student, const std::string& date) {
    Lesson lesson;
    lesson.student = student;
    lesson.date = date;
    std::int64_t id = 0;
    need(book.in_transaction([&]() -> Outcome {
        const auto added = book.add_lesson(lesson);
        if (!added) return added.problem();
        id = added.value();
        return Done{};
    }));
    return id;
}

inline BookSwing swing_of(std::int64_t lesson, std::int64_t wedge, SwingLength length, double carry_m) {
    BookSwing swing;
    swing.lesson = lesson;
    swing.wedge = wedge;
    swing.length = length;
    swing.shot = Shot{carry_m, std::nullopt, std::nullopt};
    return swing;
}

}  // namespace footing::test
