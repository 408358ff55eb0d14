#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "analysis/statistics/rounding.h"
#include "viewer/book/simulated_lessons.h"
#include "viewer/book/student_chart.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/chart_option.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

struct DistancesOptions : BookOptions, ChartOptions {};

std::string number(double metres, DistanceUnit unit) {
    return rounded(metres / metres_per(unit), 1);
}

/// What is still to be done for a number to play by, and then for one that is known.
std::string to_do_words(const DistanceCell& cell) {
    if (!cell.is_number()) return collected_words(cell);
    return *cell.shots_needed == 0 ? "known" : fmt::format("about {} more", *cell.shots_needed);
}

nlohmann::ordered_json json_of(const StudentDistances& distances, std::size_t index) {
    const DistanceChart& chart = distances.chart;
    const DistanceCell& cell = chart.cells[index];
    nlohmann::ordered_json json;
    json["wedge"] = chart.wedge_of(index).name;
    json["length"] = length_name(cell.length);
    json["in_bag"] = chart.wedge_of(index).bag == Bag::in;
    json["shots"] = cell.shots.size();
    json["kept"] = cell.kept;
    json["is_number"] = cell.is_number();
    json["mean_m"] = or_null(cell.mean_m);
    json["sd_m"] = or_null(cell.sd_m);
    json["half_width_m"] = or_null(cell.half_width_m);
    json["shots_needed"] = or_null(cell.shots_needed);
    json["newest"] =
        cell.newest_day ? nlohmann::ordered_json(date_of_day(*cell.newest_day)) : nlohmann::ordered_json();
    auto aside = nlohmann::ordered_json::array();
    for (const JudgedCarry& shot : cell.shots) {
        if (shot.standing == Standing::kept && shot.reason.empty()) continue;
        const ShotPlace& place = distances.places.at(shot.carry.shot);
        aside.push_back({{"lesson", place.lesson},
                         {"swing", place.swing},
                         {"date", date_of_day(shot.carry.day)},
                         {"carry_m", shot.carry.carry_m},
                         {"standing", shot.standing == Standing::kept ? "kept" : "set_aside"},
                         {"reason", shot.reason}});
    }
    json["remarks"] = aside;
    return json;
}

Outcome show(const DistancesOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto asked = chart_request(book.value(), options);
    if (!asked) return asked.problem();
    const DistanceUnit unit = asked.value().unit;
    const auto distances = distances_of(book.value(), options.student, asked.value().limits);
    if (!distances) return distances.problem();
    const DistanceChart& chart = distances.value().chart;

    std::vector<std::vector<std::string>> rows;
    auto cells = nlohmann::ordered_json::array();
    std::string remarks;
    for (std::size_t i = 0; i < chart.cells.size(); ++i) {
        const DistanceCell& cell = chart.cells[i];
        cells.push_back(json_of(distances.value(), i));
        rows.push_back(
            {chart.wedge_of(i).name + (chart.wedge_of(i).bag == Bag::out ? " (out of the bag)" : ""),
             length_name(cell.length), std::to_string(cell.shots.size()), std::to_string(cell.set_aside()),
             cell.mean_m ? number(*cell.mean_m, unit) : "",
             cell.half_width_m ? "±" + number(*cell.half_width_m, unit) : "",
             cell.sd_m ? number(*cell.sd_m, unit) : "", to_do_words(cell)});
        for (const JudgedCarry& shot : cell.shots) {
            if (shot.reason.empty()) continue;
            const ShotPlace& place = distances.value().places.at(shot.carry.shot);
            remarks += fmt::format("  {}, {} on {} (lesson {}, swing {}): {}{}\n", shown(chart.cell_name(i)),
                                   distance_words(shot.carry.carry_m, unit, 1), date_of_day(shot.carry.day),
                                   place.lesson, place.swing,
                                   shot.standing == Standing::set_aside ? "set aside, " : "",
                                   shown_long(shot.reason));
        }
    }
    auto without_place = nlohmann::ordered_json::array();
    for (const ShotWithoutPlace& shot : distances.value().without_place)
        without_place.push_back({{"lesson", shot.place.lesson}, {"swing", shot.place.swing}});
    const std::string left_out = without_place_words(distances.value().without_place);
    if (rows.empty()) {
        return tell(options, "no wedge\n" + (left_out.empty() ? "" : left_out + "\n"),
                    {{"cells", cells},
                     {"warnings", nlohmann::ordered_json::array()},
                     {"without_wedge_or_length", without_place}});
    }
    std::string text = terminal_table(
        {{"wedge"},
         {"length"},
         {"shots", Side::right},
         {"aside", Side::right},
         {"carry " + unit_name(unit), Side::right},
         {"95 %", Side::right},
         {"SD", Side::right},
         {fmt::format("to know it within {}", limit_words(asked.value().limits.known_within_m, unit))}},
        rows);
    if (!remarks.empty()) text += "\nshots with a remark\n" + remarks;
    std::string wide;
    for (std::size_t i = 0; i < chart.cells.size(); ++i) {
        const std::string words = wide_interval_words(chart, i, asked.value().limits.confidence, unit);
        if (!words.empty()) wide += "  " + shown_long(words) + "\n";
    }
    if (!wide.empty()) text += "\nwider than the shots that count\n" + wide;
    auto warnings = nlohmann::ordered_json::array();
    for (const ChartWarning& warning : chart.warnings) {
        const std::string words = warning_words(chart, warning, unit);
        warnings.push_back({{"kind", warning_name(warning.kind)}, {"words", words}});
    }
    if (!warnings.empty()) text += "\nto look at\n";
    for (const auto& warning : warnings)
        text += "  " + shown_long(warning["words"].get<std::string>()) + "\n";
    if (!left_out.empty()) text += "\n" + left_out + "\n";
    const auto lessons = book.value().lessons(asked.value().student.id);
    if (!lessons) return lessons.problem();
    const std::string simulated = simulated_lessons_words(with_carries(lessons.value()));
    if (!simulated.empty()) text += "\n" + simulated + "\n";
    nlohmann::ordered_json json;
    json["student"] = asked.value().student.name;
    json["unit"] = unit_name(unit);
    json["known_within_m"] = asked.value().limits.known_within_m;
    json["cells"] = cells;
    json["warnings"] = warnings;
    json["without_wedge_or_length"] = without_place;
    json["simulated"] = text_or_null(simulated);
    return tell(options, text, json);
}

}  // namespace

void add_distances(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<DistancesOptions>();
    Arguments* verb = program.add_subcommand(
        "distances", "a student's distance chart: what each wedge carries at each length");
    add_book_options(*verb, *options);
    add_chart_options(*verb, *options);
    set_work(*verb, outcome, [options] { return show(*options); });
}

}  // namespace footing
