#include <fmt/format.h>

#include <cmath>

#include "analysis/report/lesson_comparison.h"
#include "analysis/report/number_words.h"
#include "analysis/report/text_safety.h"
#include "analysis/report/text_table.h"
#include "analysis/statistics/rounding.h"

namespace footing {

namespace {

using Rows = std::vector<std::vector<std::string>>;
using Columns = std::vector<TableColumn>;

constexpr std::size_t table_indent = 4;
constexpr std::size_t most_name = 90;

/// As many decimals as a number of this size bears for people.
int decimals_of(const ComparedNumber& number) {
    return number.per_unit == 1.0 ? 2 : 1;
}

std::string in_unit(const ComparedNumber& number, double value) {
    return number_words(value * number.per_unit, decimals_of(number));
}

std::string in_unit(const ComparedNumber& number, const std::optional<double>& value) {
    return value ? in_unit(number, *value) : "-";
}

std::string name_of(const ComparedNumber& number) {
    return fmt::format("{}, {}", number.words, number.unit);
}

std::string set_table(const ComparedLesson& lesson, std::size_t widest) {
    std::string text = clean_text(lesson.file, most_name) + "\n";
    text += "  " + set_size_words(lesson) + " taken together\n";
    const Columns columns{{"number"}, {"swings"}, {"mean"}, {"SD"}, {"typical error"}, {"detectable change"},
                          {"drift"}};
    Rows rows;
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        const ComparedNumber& number = compared_numbers()[i];
        const auto& set = lesson.set.numbers[i];
        if (!set) continue;
        rows.push_back(
            {name_of(number), fmt::format("{}", set->values.size()), in_unit(number, set->mean),
             in_unit(number, set->sd), in_unit(number, set->typical_error),
             in_unit(number, set->detectable_change),
             set->drifts_from ? fmt::format("from swing {}", lesson.all_indices[*set->drifts_from]) : "-"});
    }
    if (rows.empty()) return text + "  Too few swings of this kind to take together; two are needed.\n";
    text += text_table(columns, rows, {table_indent, widest});
    bool any_odd = false;
    for (const OddCurve& odd : lesson.set.odd) {
        if (odd.p >= odd_below_p) continue;
        any_odd = true;
        text += fmt::format(
            "  Swing {} is the odd one out: its share leaves the others' by {} spreads, {} s from "
            "impact ({}).\n",
            lesson.all_indices[lesson.set.curve_places[odd.curve]], number_words(odd.distance, 1),
            number_words(lesson.set.axis.time_s[odd.point], 2), chance_words(odd.p));
    }
    if (lesson.set.odd.empty()) {
        text += fmt::format("  Too few swings with a known share to say whether one is odd; {} are needed.\n",
                            fewest_curves_to_judge);
    } else if (!any_odd) {
        text += "  None of them is odd beyond chance.\n";
    }
    return text;
}

std::string change_table(const std::vector<ComparedLesson>& lessons, const LessonChange& change,
                         std::size_t widest) {
    std::string text = fmt::format("\nFrom {} to {}\n", clean_text(lessons[change.from].file, most_name),
                                   clean_text(lessons[change.to].file, most_name));
    const Columns columns{{"number"}, {"change"}, {"detectable"}, {""}};
    Rows rows;
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        const auto& number = change.numbers[i];
        if (!number) continue;
        rows.push_back(
            {name_of(compared_numbers()[i]),
             (number->difference > 0.0 ? "+" : "") + in_unit(compared_numbers()[i], number->difference),
             in_unit(compared_numbers()[i], number->detectable),
             number->verdict == ChangeVerdict::real ? "a real change" : "within the noise"});
    }
    if (rows.empty()) return text + "  Too few swings to compare; each lesson needs two of this kind.\n";
    return text + text_table(columns, rows, {table_indent, widest});
}

std::string agreement_table(const std::vector<ComparedLesson>& lessons, std::size_t widest) {
    std::string text = "\nThe same swings seen twice: first less second, and between which limits 95 % lie\n";
    const Columns columns{{"number"}, {"pairs"}, {"mean"}, {"from"}, {"to"}};
    Rows rows;
    const auto agreements = swing_agreements(lessons[0], lessons[1]);
    for (std::size_t i = 0; i < agreements.size(); ++i) {
        const ComparedNumber& number = compared_numbers()[i];
        if (!agreements[i]) continue;
        rows.push_back({name_of(number), fmt::format("{}", agreements[i]->pairs),
                        in_unit(number, agreements[i]->bias), in_unit(number, agreements[i]->low),
                        in_unit(number, agreements[i]->high)});
    }
    if (rows.empty())
        return text + "  The two files do not hold the same number of swings, so they cannot be paired.\n";
    return text + text_table(columns, rows, {table_indent, widest});
}

std::string correlation_line(const std::vector<ComparedLesson>& lessons) {
    std::string text;
    const auto correlations = lesson_correlations(lessons);
    for (std::size_t i = 0; i < correlations.size(); ++i) {
        if (!correlations[i]) continue;
        text += fmt::format("{}{} {}", text.empty() ? "" : ", ", compared_numbers()[i].words,
                            number_words(*correlations[i], 2));
    }
    if (text.empty()) return "";
    return "\nLessons told apart by their swings (ICC(1,1)): " + text +
           "\n  1: fully; 0 or less: not at all, the swings of one lesson differ as much as those of "
           "different "
           "lessons\n";
}

}  // namespace

std::string comparison_table(const std::vector<ComparedLesson>& lessons, Pairing pairing,
                             std::size_t widest) {
    std::string text;
    for (const ComparedLesson& lesson : lessons)
        text += (text.empty() ? "" : "\n") + set_table(lesson, widest);
    if (pairing == Pairing::same_swings && lessons.size() == 2)
        return text + agreement_table(lessons, widest);
    for (const LessonChange& change : lesson_changes(lessons)) text += change_table(lessons, change, widest);
    if (lessons.size() > 1) text += correlation_line(lessons);
    text +=
        "\n  typical error: from swing to swing, without slow drift\n"
        "  detectable change: by how much one swing must differ from another to mean something (95 %)\n"
        "  drift: from this swing on the values had moved away from their mean; eight swings are needed to "
        "say\n";
    if (lessons.size() > 1)
        text +=
            "  detectable, of a change: the least change of the means that is more than chance and the "
            "plates' "
            "own uncertainty\n"
            "  shoes, where the feet stood and the day are not in it\n";
    return text;
}

}  // namespace footing
