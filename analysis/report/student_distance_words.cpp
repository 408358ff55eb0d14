#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

#include "acquisition/frame/count_words.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/student_words.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

std::string where_words(const ChartedShot& shot) {
    return fmt::format("lesson {}, swing {}", shot.lesson, shot.swing);
}

}  // namespace

std::string cell_words(const DistanceChart& chart, std::size_t cell) {
    return clean_text(chart.wedge_of(cell).name, most_wedge_name) + " " +
           length_name(chart.cells[cell].length);
}

std::string card_words(const StudentReport& report) {
    return has_card(report) ? "For your bag: " : "For your bag, to fill in: ";
}

PlainThing distances_thing(const StudentReport& report) {
    PlainThing thing{"Your distances", "", {}};
    const DistanceChart& chart = report.chart;
    const std::vector<std::size_t> numbers = chart.numbers();
    std::size_t in_bag = 0;
    std::size_t known = 0;
    std::optional<std::size_t> begun;  // the one with the most shots of those that are no number yet
    std::optional<std::size_t> next;
    for (std::size_t cell = 0; cell < chart.cells.size(); ++cell) {
        if (chart.wedge_of(cell).bag == Bag::out) continue;
        ++in_bag;
        const DistanceCell& one = chart.cells[cell];
        if (!one.is_number()) {
            if (one.collected() > 0 && (!begun || one.collected() > chart.cells[*begun].collected()))
                begun = cell;
            continue;
        }
        if (*one.shots_needed == 0) ++known;
        if (*one.shots_needed > 0 && (!next || *one.shots_needed < *chart.cells[*next].shots_needed))
            next = cell;
    }
    const auto so_far = [&] {
        return fmt::format("{} has {}", cell_words(chart, *begun), collected_words(chart.cells[*begun]));
    };
    if (numbers.empty()) {
        thing.sentences = {fmt::format(
            "No distance is known yet{}. With {} shots for each wedge, at each length of swing, your numbers "
            "stand here and on the card for your bag; until then write them there by hand.",
            begun ? ": " + so_far() : "", shots_for_a_number)};
        return thing;
    }
    const auto mean = [&](std::size_t cell) {
        std::string words = distance_words(*chart.cells[cell].mean_m, report.unit);
        words.replace(words.find(' '), 1, "\xC2\xA0");  // U+00A0: a number stays with its unit
        return words;
    };
    thing.number = fmt::format("{} of {}", known, in_bag);
    thing.sentences = {
        fmt::format("of your numbers are known to within {}: how far the ball flies, on average, with "
                    "each wedge at each length of swing.",
                    distance_words(report.limits.known_within_m, report.unit))};
    thing.sentences.push_back(
        numbers.size() == 1
            ? fmt::format("So far: {}, {}.", cell_words(chart, numbers.front()), mean(numbers.front()))
            : fmt::format("Shortest: {}, {}. Longest: {}, {}.", cell_words(chart, numbers.front()),
                          mean(numbers.front()), cell_words(chart, numbers.back()), mean(numbers.back())));
    if (begun)
        thing.sentences.push_back(fmt::format("A number takes {} shots; {}.", shots_for_a_number, so_far()));
    const bool practised = std::ranges::any_of(
        report.advice, [](const Advice& advice) { return advice.rule == PracticeRule::number_unknown; });
    if (next && !practised) {
        thing.sentences.push_back(
            fmt::format("Soonest to be known next: {}, with about {} more.", cell_words(chart, *next),
                        count_words(*chart.cells[*next].shots_needed, "shot", "shots")));
    }
    return thing;
}

std::vector<SetAsideShot> shots_with_reason(const StudentReport& report) {
    std::vector<SetAsideShot> rows;
    for (std::size_t cell = 0; cell < report.chart.cells.size(); ++cell) {
        for (const JudgedCarry& shot : report.chart.cells[cell].shots) {
            if (shot.standing == Standing::kept && shot.reason.empty()) continue;
            const auto charted = report.charted.find(shot.carry.shot);
            const ChartedShot place = charted == report.charted.end() ? ChartedShot{} : charted->second;
            rows.push_back(
                {cell_words(report.chart, cell), distance_words(shot.carry.carry_m, report.unit, 1),
                 place.date, where_words(place),
                 (shot.standing == Standing::kept ? "kept: " : "set aside: ") +
                     (shot.reason.empty() ? "no reason was given" : clean_text(shot.reason, 120))});
        }
    }
    return rows;
}

std::vector<std::string> chart_sentences(const StudentReport& report) {
    constexpr std::size_t most_sentences = 8;
    std::vector<std::string> sentences;
    std::string old;
    for (const ChartWarning& warning : report.chart.warnings) {
        if (!report.chart.cells[warning.first].is_number() || !report.chart.cells[warning.second].is_number())
            continue;  // of a shot or two nothing is said
        if (warning.kind == WarningKind::old) {
            old += (old.empty() ? "" : ", ") + cell_words(report.chart, warning.first);
        } else if (sentences.size() < most_sentences) {
            const std::string words = clean_text(warning_words(report.chart, warning, report.unit), 240);
            sentences.push_back(begun_large(words) + ".");
        }
    }
    for (const std::size_t cell : report.chart.numbers()) {
        const std::string wide =
            wide_interval_words(report.chart, cell, report.limits.confidence, report.unit);
        if (!wide.empty()) sentences.push_back(clean_text(wide, 400));
    }
    if (!old.empty())
        sentences.push_back(fmt::format(
            "No shot for {} or more: {}.",
            count_words(static_cast<std::uint64_t>(report.limits.oldest_days), "day", "days"), old));
    return sentences;
}

}  // namespace footing
