#include "viewer/lesson/missing_finishes.h"

#include <fmt/format.h>

#include <utility>

#include "viewer/lesson/lesson_into_book.h"

namespace footing {

Result<FinishesRead> read_missing_finishes(Book& book) {
    const auto lessons = book.lessons_without_finish();
    if (!lessons) return lessons.problem();
    FinishesRead read;
    std::vector<std::pair<std::int64_t, std::vector<BookSwing>>> found;
    for (const std::int64_t lesson : lessons.value()) {
        const auto line = book.lesson(lesson);
        if (!line) return line.problem();
        if (line.value().recording_file.empty()) continue;  // told with the index
        auto swings = swings_of_lesson(book, lesson, std::nullopt);
        if (!swings) {
            read.not_read.push_back(fmt::format("lesson {}: {}", lesson, sentence(swings.problem())));
            continue;
        }
        found.emplace_back(lesson, std::move(swings).value());
    }
    if (found.empty()) return read;
    const Outcome done = book.in_transaction([&]() -> Outcome {
        for (const auto& [lesson, swings] : found) {
            const auto put = book.put_finishes(lesson, swings);
            if (!put) return put.problem();
            if (put.value() > 0) {
                read.lessons.push_back(lesson);
            } else {
                read.not_read.push_back(fmt::format(
                    "lesson {0}: its recording holds none of its swings any more; \"footing lessons analyse "
                    "{0}\" finds them again",
                    lesson));
            }
        }
        return Done{};
    });
    if (!done) return done.problem();
    return read;
}

}  // namespace footing
