#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "analysis/distance/club_choice.h"
#include "viewer/book/student_chart.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/book_json.h"
#include "viewer/command_line/book_option.h"
#include "viewer/command_line/book_words.h"
#include "viewer/command_line/chart_option.h"
#include "viewer/command_line/distance_option.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"

namespace footing {

namespace {

constexpr double card_step = 5.0;  // yards or metres, as the student plays

struct ChooseOptions : BookOptions, ChartOptions {
    std::string distance;
    std::string within;
    bool card = false;
};

std::string miss_words(double metres, DistanceUnit unit) {
    const std::string far = distance_words(std::abs(metres), unit);
    return far == distance_words(0.0, unit) ? "none" : far + (metres < 0.0 ? " short" : " long");
}

std::string chance_words(double probability) {
    if (probability < 0.01) return "under 1 %";
    if (probability > 0.99) return "over 99 %";
    return fmt::format("{:.0f} %", probability * 100.0);
}

nlohmann::ordered_json json_of(const DistanceChart& chart, const ClubChoice& choice) {
    auto options = nlohmann::ordered_json::array();
    for (std::size_t i = 0; i < choice.options.size(); ++i) {
        const ClubOption& option = choice.options[i];
        const DistanceCell& cell = chart.cells[option.cell];
        options.push_back({{"wedge", chart.wedge_of(option.cell).name},
                           {"length", length_name(cell.length)},
                           {"shots", cell.kept},
                           {"mean_m", *cell.mean_m},
                           {"mean_miss_m", option.mean_miss_m},
                           {"probability_within", or_null(option.probability_within)},
                           {"miss_low_m", or_null(option.miss_low_m)},
                           {"miss_high_m", or_null(option.miss_high_m)},
                           {"rank_by_probability", i + 1},
                           {"rank_by_nearness", option.rank_by_nearness}});
    }
    const auto neighbour = [&](const std::optional<std::size_t>& cell) {
        return cell ? nlohmann::ordered_json(chart.cell_name(*cell)) : nlohmann::ordered_json();
    };
    return {{"distance_m", choice.distance_m},
            {"within_m", choice.within_m},
            {"covered", choice.coverage == Coverage::covered},
            {"advised", choice.advised
                            ? nlohmann::ordered_json(chart.cell_name(choice.options[*choice.advised].cell))
                            : nlohmann::ordered_json()},
            {"shorter", neighbour(choice.shorter)},
            {"longer", neighbour(choice.longer)},
            {"options", options}};
}

std::string not_covered_words(const DistanceChart& chart, const ClubChoice& choice, DistanceUnit unit) {
    std::string words = fmt::format("Nothing of yours covers {}: ", distance_words(choice.distance_m, unit));
    const auto number = [&](std::size_t cell) {
        return fmt::format("{} ({})", shown(chart.cell_name(cell)),
                           distance_words(*chart.cells[cell].mean_m, unit));
    };
    if (choice.shorter && choice.longer) {
        words += fmt::format("it lies between {} and {}", number(*choice.shorter), number(*choice.longer));
    } else if (choice.shorter) {
        words += fmt::format("it is longer than your longest, {}", number(*choice.shorter));
    } else if (choice.longer) {
        words += fmt::format("it is shorter than your shortest, {}", number(*choice.longer));
    }
    return words + ".\n";
}

std::string remark(const ClubChoice& choice, const ClubOption& option) {
    const bool is_advised = choice.advised && &option == &choice.options[*choice.advised];
    const bool is_nearest = option.rank_by_nearness == 1;
    return is_advised && is_nearest ? "take this, nearest mean"
           : is_advised             ? "take this"
           : is_nearest             ? "nearest mean"
                                    : "";
}

std::string choice_words(const DistanceChart& chart, const ClubChoice& choice, DistanceUnit unit) {
    std::string text;
    if (choice.coverage == Coverage::not_covered) text += not_covered_words(chart, choice, unit) + "\n";
    std::vector<std::vector<std::string>> rows;
    for (const ClubOption& option : choice.options) {
        const DistanceCell& cell = chart.cells[option.cell];
        rows.push_back({chart.cell_name(option.cell), distance_words(*cell.mean_m, unit),
                        miss_words(option.mean_miss_m, unit),
                        option.probability_within ? chance_words(*option.probability_within) : "not known",
                        option.miss_low_m ? miss_words(*option.miss_low_m, unit) : "",
                        option.miss_high_m ? miss_words(*option.miss_high_m, unit) : "",
                        std::to_string(cell.kept), remark(choice, option)});
    }
    return text +
           terminal_table({{"club"},
                           {"carry", Side::right},
                           {"mean miss", Side::right},
                           {"within " + limit_words(choice.within_m, unit), Side::right},
                           {"1 in 10 below", Side::right},
                           {"1 in 10 above", Side::right},
                           {"shots", Side::right},
                           {""}},
                          rows) +
           "Carry only: how far the ball rolls is for you to judge.\n";
}

std::string card_words(const DistanceChart& chart, const std::vector<ClubChoice>& card, DistanceUnit unit) {
    std::vector<std::vector<std::string>> rows;
    for (const ClubChoice& choice : card) {
        if (!choice.advised) {
            rows.push_back({distance_words(choice.distance_m, unit), "nothing covers it", "", ""});
            continue;
        }
        const ClubOption& best = choice.options[*choice.advised];
        rows.push_back({distance_words(choice.distance_m, unit), chart.cell_name(best.cell),
                        miss_words(best.mean_miss_m, unit),
                        best.probability_within ? chance_words(*best.probability_within) : "one shot only"});
    }
    return terminal_table({{"distance", Side::right},
                           {"club"},
                           {"mean miss", Side::right},
                           {"within " + limit_words(card.front().within_m, unit), Side::right}},
                          rows);
}

Outcome choose(const ChooseOptions& options) {
    auto book = open_book(options, OpenAs::to_read);
    if (!book) return book.problem();
    const auto asked = chart_request(book.value(), options);
    if (!asked) return asked.problem();
    const DistanceUnit unit = asked.value().unit;
    double within_m = card_step * metres_per(unit);
    if (!options.within.empty()) {
        const auto within = parse_distance(options.within, unit, "--within");
        if (!within) return within.problem();
        if (!(within.value() > 0.0)) {
            return Problem{ProblemKind::command_line, "--within", "nothing lies within nothing",
                           "write for example 5yd"};
        }
        within_m = within.value();
    }
    double distance_m = 0.0;
    if (!options.card) {
        const auto distance = parse_distance(options.distance, unit, "--distance");
        if (!distance) return distance.problem();
        distance_m = distance.value();
    }
    const auto distances = distances_of(book.value(), options.student, asked.value().limits);
    if (!distances) return distances.problem();
    const DistanceChart& chart = distances.value().chart;
    const bool has_carry = std::any_of(chart.cells.begin(), chart.cells.end(),
                                       [](const DistanceCell& cell) { return cell.mean_m.has_value(); });
    if (has_carry && chart.usable_cells().empty()) {
        return Problem{ProblemKind::bad_input, asked.value().student.name, "no wedge in the bag has a carry",
                       "\"footing wedges change\" with --bag in puts one into the bag"};
    }
    if (chart.usable_cells().empty()) {
        return Problem{ProblemKind::bad_input, asked.value().student.name, "has no carry in the book yet",
                       "\"footing shots add\" or \"footing shots import\" brings some"};
    }
    nlohmann::ordered_json json{{"student", asked.value().student.name}, {"unit", unit_name(unit)}};
    if (!options.card) {
        const ClubChoice choice = choose_club(chart, distance_m, within_m);
        json.update(json_of(chart, choice));
        return tell(options, choice_words(chart, choice, unit), json);
    }
    const std::vector<ClubChoice> card = distance_card(chart, card_step * metres_per(unit), within_m);
    if (card.empty()) {
        return Problem{
            ProblemKind::bad_input, asked.value().student.name,
            fmt::format("has no number for a card yet: a number takes {} shots with a wedge at a length",
                        shots_for_a_number),
            "\"footing distances\" shows how many there are; --distance answers with what there is"};
    }
    json["card"] = nlohmann::ordered_json::array();
    for (const ClubChoice& choice : card) json["card"].push_back(json_of(chart, choice));
    return tell(options, card_words(chart, card, unit), json);
}

}  // namespace

void add_choose(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ChooseOptions>();
    Arguments* verb = program.add_subcommand("choose", "which club for this distance, or the whole card");
    add_book_options(*verb, *options);
    add_chart_options(*verb, *options);
    auto* what = verb->add_option_group("what", "what to answer");
    what->add_option("--distance", options->distance, "to the flag, such as 83yd or 75m");
    what->add_flag("--card", options->card,
                   "every 5 yards (or metres) from the shortest number to the longest");
    what->require_option(1);
    verb->add_option("--within", options->within, "how near counts as near; else 5 yards (or metres)");
    set_work(*verb, outcome, [options] { return choose(*options); });
}

}  // namespace footing
