#include <fmt/format.h>

#include <cmath>

#include "analysis/progress/progress.h"
#include "analysis/statistics/rounding.h"

namespace footing {

std::string progress_measure_name(ProgressMeasure measure) {
    switch (measure) {
        case ProgressMeasure::address_share:
            return "address_share";
        case ProgressMeasure::time_below:
            return "time_below_s";
        case ProgressMeasure::tempo:
            return "tempo_ratio";
        case ProgressMeasure::rhythm:
            return "rhythm_percent";
        case ProgressMeasure::carry_spread:
            return "carry_spread";
    }
    return "";
}

std::string progress_measure_words(ProgressMeasure measure) {
    switch (measure) {
        case ProgressMeasure::address_share:
            return "weight at address";
        case ProgressMeasure::time_below:
            return "time below the floor";
        case ProgressMeasure::tempo:
            return "tempo";
        case ProgressMeasure::rhythm:
            return "rhythm match";
        case ProgressMeasure::carry_spread:
            return "spread of carry";
    }
    return "";
}

std::string progress_value_words(ProgressMeasure measure, double value) {
    switch (measure) {
        case ProgressMeasure::address_share:
        case ProgressMeasure::carry_spread:
            return rounded(100.0 * value, 1) + " %";
        case ProgressMeasure::time_below:
            return rounded(value, 2) + " s";
        case ProgressMeasure::tempo:
            return rounded(value, 2) + " : 1";
        case ProgressMeasure::rhythm:
            return rounded(value, 0) + " %";
    }
    return "";
}

std::string progress_words(const ProgressSeries& series, std::span<const std::string> dates) {
    const std::string name = progress_measure_words(series.measure);
    const auto value = [&](double number) { return progress_value_words(series.measure, number); };
    // A difference of ratios is no ratio, one of per cent is in points.
    const auto apart = [&](double number) {
        switch (series.measure) {
            case ProgressMeasure::tempo:
                return rounded(number, 2);
            case ProgressMeasure::time_below:
                return value(number);
            case ProgressMeasure::rhythm:
                return rounded(number, 0) + " points";
            default:
                return rounded(100.0 * number, 1) + " points";
        }
    };
    if (!series.change) {
        const std::size_t lessons = series.points.size();
        if (lessons == 0) return name + ": in no lesson so far.";
        return fmt::format("{}: nothing can be said yet; so far it is known in {}, and {} are needed.", name,
                           lessons == 1 ? "one lesson" : fmt::format("{} lessons", lessons), fewest_lessons);
    }
    const ProgressChange& change = *series.change;
    std::string words =
        fmt::format("{}: {} in the first {} lessons, {} in the last {}; ", name, value(change.first),
                    change.lessons_each, value(change.last), change.lessons_each);
    words +=
        change.verdict == ProgressVerdict::real
            ? fmt::format("a real change of {}; chance alone makes up to {}.",
                          apart(std::abs(change.difference())), apart(change.detectable))
            : fmt::format("no change beyond chance: chance alone makes up to {}.", apart(change.detectable));
    if (const auto place = series.first_beyond()) {
        words += fmt::format(" By {} it had left the range of the first lessons.",
                             dates[series.points[*place].lesson]);
    }
    return words;
}

}  // namespace footing
