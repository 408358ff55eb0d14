#include "viewer/book/simulated_lessons.h"

#include <fmt/format.h>

#include <algorithm>

#include "acquisition/frame/simulated_golfer.h"

namespace footing {

std::size_t count_simulated(const std::vector<LessonLine>& lessons) {
    return static_cast<std::size_t>(std::ranges::count_if(
        lessons, [](const LessonLine& line) { return is_simulated_golfer(line.device); }));
}

std::vector<LessonLine> with_carries(std::vector<LessonLine> lessons) {
    std::erase_if(lessons, [](const LessonLine& line) { return line.carries == 0; });
    return lessons;
}

std::string simulated_lessons_words(const std::vector<LessonLine>& lessons) {
    constexpr std::size_t most_named = 4;
    std::vector<std::int64_t> numbers;
    for (const LessonLine& line : lessons) {
        if (is_simulated_golfer(line.device)) numbers.push_back(line.lesson.id);
    }
    if (numbers.empty()) return "";
    std::ranges::sort(numbers);
    if (numbers.size() == 1) {
        return fmt::format("Lesson {} was of the simulated golfer, not of plates: its swings are nobody's.",
                           numbers.front());
    }
    std::string names;
    const std::size_t named = std::min(numbers.size(), most_named);
    for (std::size_t place = 0; place < named; ++place) {
        const bool last = place + 1 == numbers.size();
        names += fmt::format("{}{}", place == 0 ? "" : last ? " and " : ", ", numbers[place]);
    }
    if (numbers.size() > named) names += fmt::format(" and {} more", numbers.size() - named);
    return fmt::format("Lessons {} were of the simulated golfer, not of plates: their swings are nobody's.",
                       names);
}

}  // namespace footing
