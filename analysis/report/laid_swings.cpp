#include "analysis/report/laid_swings.h"

#include <fmt/format.h>

#include <algorithm>

#include "analysis/report/number_words.h"
#include "analysis/report/set_figure.h"
#include "analysis/report/text_safety.h"

namespace footing {

bool shows_laid(const StudentReport& report) {
    return report.laid.size() > 1;
}

std::string laid_words(const StudentReport& report) {
    const auto measured = static_cast<std::size_t>(std::ranges::count_if(
        report.lessons, [](const ReportedLesson& lesson) { return lesson.not_measured.empty(); }));
    std::string words =
        "What the swings of a lesson have in common: their mean and, from five swings on, tinted where the "
        "true mean lies "
        "(95 %), and between dashes where the next swing was to be expected. The narrower, the steadier.";
    if (measured > report.laid.size()) {
        words += fmt::format(" Drawn are the newest {} of {} with a recording of three swings or more.",
                             report.laid.size(), count_words(measured, "lesson", "lessons"));
    }
    return words;
}

std::string laid_title(const StudentReport& report, const LaidSwings& laid) {
    const ReportedLesson& lesson = report.lessons[laid.lesson];
    const bool shots = laid.set.kind == SetKind::shots;
    return fmt::format(
        "Lesson {} · {} · {}", lesson.number, clean_text(lesson.date, 10),
        count_words(laid.set.curves.size(), shots ? "shot" : "swing", shots ? "shots" : "swings"));
}

Figure laid_figure(const LaidSwings& laid, double width, double height) {
    return set_figure(laid.measured, laid.set, width, height, SetDetail::together);
}

}  // namespace footing
