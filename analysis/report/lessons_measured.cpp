#include "analysis/report/lessons_measured.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "analysis/report/text_safety.h"

namespace footing {

namespace {

/// In short: the facts of the lesson that is drawn swing by swing stand in full above the table.
std::string how_measured(const ReportedLesson& lesson) {
    constexpr std::size_t most_characters = 120;  // of each fact
    std::string how = lesson.not_measured;
    for (const Fact& fact : lesson.measured_by) {
        constexpr std::array told{"Measured by", "Loss", "Recording", "Finish"};
        if (std::ranges::find(told, fact.name) == told.end()) continue;
        how += (how.empty() ? "" : "; ") + clean_text(fact.value, most_characters);
    }
    return how;
}

/// "3", "3 to 9".
std::string span_words(const std::string& first, const std::string& last) {
    return first == last ? first : first + " to " + last;
}

}  // namespace

std::vector<std::vector<std::string>> lessons_measured(const StudentReport& report) {
    std::vector<std::vector<std::string>> rows;
    if (report.lessons.size() == 1 && report.measured) return rows;
    for (std::size_t first = 0; first < report.lessons.size(); ++first) {
        const ReportedLesson& lesson = report.lessons[first];
        std::size_t last = first;
        while (!lesson.not_measured.empty() && last + 1 < report.lessons.size() &&
               report.lessons[last + 1].not_measured == lesson.not_measured)
            ++last;
        const ReportedLesson& end = report.lessons[last];
        rows.push_back({span_words(std::to_string(lesson.number), std::to_string(end.number)),
                        span_words(clean_text(lesson.date, 10), clean_text(end.date, 10)),
                        how_measured(lesson)});
        first = last;
    }
    return rows;
}

}  // namespace footing
