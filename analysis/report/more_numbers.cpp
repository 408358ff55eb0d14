#include "analysis/report/more_numbers.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "analysis/report/number_words.h"

namespace footing {

namespace {

constexpr const char* not_known = "–";

struct Column {
    std::string name;
    std::function<std::string(const Swing&)> cell;
    std::string note;
};

std::string below_cell(const Swing& swing) {
    const auto& below = swing.numbers.time_below;
    return below ? number_words(below->time_s, 2) : not_known;
}

std::string return_cell(const Swing& swing) {
    const auto& load_return = swing.numbers.load_return;
    return load_return ? fmt::format("{} ± {}", number_words(100.0 * load_return->peak_per_s, 0),
                                     number_words(std::max(1.0, 200.0 * load_return->u_per_s), 0))
                       : not_known;
}

std::string path_cell(const Swing& swing) {
    const auto& travel = swing.numbers.cop_travel;
    return travel ? number_words(100.0 * travel->path_m, 1) : not_known;
}

std::string range_cell(const Swing& swing) {
    const auto& travel = swing.numbers.cop_travel;
    return travel ? fmt::format("{} × {}", number_words(100.0 * travel->range_x_m, 1),
                                number_words(100.0 * travel->range_y_m, 1))
                  : not_known;
}

std::string peak_cell(const Swing& swing) {
    if (!swing.vertical) return not_known;
    std::string text = number_words(swing.vertical->max_bw, 2);
    if (swing.events.impact)
        text += fmt::format(" at {} s",
                            number_words(swing.vertical->max_time_s - swing.events.impact->time_s, 2));
    return text;
}

std::string toe_cell(const FootShares* foot) {
    if (foot == nullptr || !foot->address || !foot->impact) return not_known;
    return fmt::format("{} → {}", number_words(100.0 * *foot->address, 0),
                       number_words(100.0 * *foot->impact, 0));
}

std::string finish_cell(const Swing& swing) {
    return swing.lead_share.finish ? share_words(*swing.lead_share.finish) : not_known;
}

std::string held_cell(const Swing& swing) {
    const auto& hold = swing.numbers.finish_hold;
    if (!hold) return not_known;
    return (hold->end == HoldEnd::not_seen ? "≥ " : "") + number_words(hold->held_s, 1);
}

std::string sway_cell(const Swing& swing) {
    const auto& address = swing.numbers.address_sway;
    const auto& hold = swing.numbers.finish_hold;
    if (!address && !(hold && hold->sway)) return not_known;
    return fmt::format("{} / {}", address ? number_words(1000.0 * address->cop_rms_m, 1) : not_known,
                       hold && hold->sway ? number_words(1000.0 * hold->sway->cop_rms_m, 1) : not_known);
}

std::string rhythm_cell(const Swing& swing) {
    const auto& rhythm = swing.numbers.rhythm;
    return rhythm ? number_words(rhythm->match_percent, 0) + " %" : not_known;
}

std::string abrupt_cell(const Swing& swing) {
    const auto& abruptness = swing.numbers.abruptness;
    if (!abruptness || !abruptness->practice_ratio) return not_known;
    return "× " + number_words(*abruptness->practice_ratio, 1);
}

std::string balance_cell(const Swing& swing) {
    const auto& momentum = swing.numbers.momentum;
    if (!momentum) return not_known;
    return momentum->verdict == Closure::closed ? "closed" : "open";
}

std::string below_name(const LessonResult& lesson) {
    double floor = 0.5;
    for (const Swing& swing : lesson.swings) {
        if (swing.numbers.time_below) floor = swing.numbers.time_below->floor;
    }
    return fmt::format("< {} %, s", number_words(100.0 * floor, 0));
}

/// On plates of the plate's toe half, on a mat of the foot's own.
const FootShares* toes_of(const Swing& swing, PlateSide foot, Hand hand) {
    const bool lead = (foot == PlateSide::left) == (hand == Hand::right);
    if (swing.numbers.heel_toe) return lead ? &swing.numbers.heel_toe->lead : &swing.numbers.heel_toe->trail;
    if (swing.feet) return foot == PlateSide::left ? &swing.feet->left.toes : &swing.feet->right.toes;
    return nullptr;
}

std::vector<Column> columns_of(const LessonResult& lesson) {
    const Hand hand = lesson.facts.hand;
    const PlateSide lead = hand == Hand::right ? PlateSide::left : PlateSide::right;
    const PlateSide trail = hand == Hand::right ? PlateSide::right : PlateSide::left;
    return {
        {below_name(lesson), below_cell,
         below_name(lesson) + ": how long the lead share was under that floor, takeaway to finish"},
        {"return, %/s", return_cell, "return: fastest way of the load back to the lead foot, share a second"},
        {"path, cm", path_cell, ""},
        {"range, cm", range_cell,
         "path, range: of the centre of pressure, address to finish; along × across the stance"},
        {"peak load", peak_cell, "peak load: in body weights, and when, from impact"},
        {"toe lead, %", [lead, hand](const Swing& swing) { return toe_cell(toes_of(swing, lead, hand)); },
         ""},
        {"toe trail, %", [trail, hand](const Swing& swing) { return toe_cell(toes_of(swing, trail, hand)); },
         "toe: load on the toe half of the plate (on a mat: of the foot), address → impact"},
        {"finish", finish_cell, "finish: weight fully on the lead foot is what is wanted"},
        {"held, s", held_cell, "held: how long the finish stayed"},
        {"sway, mm", sway_cell,
         "sway: of the centre of pressure, over half a second at address / up to one second of the finish; "
         "so "
         "short a look is no posturography"},
        {"rhythm", rhythm_cell,
         "rhythm: match with the practice swings before the shot, durations and shape"},
        {"abrupt", abrupt_cell,
         "abrupt: jerk in the last 0.1 s before impact over that of the practice swings"},
        {"balance", balance_cell,
         "balance: open means that the load does not add up to one body weight over the swing: check the "
         "plates"},
    };
}

/// Why the columns about practice swings are not there, where shots are.
void note_what_is_missing(const LessonResult& lesson, MoreNumbers& numbers) {
    std::size_t shots = 0;
    std::size_t none_before = 0;
    std::size_t not_compared = 0;
    for (const Swing& swing : lesson.swings) {
        const auto& before = swing.numbers.practice_swings_before;
        if (!before) continue;
        ++shots;
        none_before += *before == 0 ? 1 : 0;
        not_compared += *before > 0 && !swing.numbers.rhythm ? 1 : 0;
    }
    if (shots > 0 && none_before == shots) {
        numbers.notes.push_back("no practice swing went before a shot, so there is no rhythm to match");
    } else if (none_before > 0) {
        numbers.notes.push_back(fmt::format("{} had no practice swing before: no rhythm to match there",
                                            count_words(none_before, "shot", "shots")));
    }
    if (not_compared > 0) {
        numbers.notes.push_back(
            fmt::format("the rhythm of {} is not compared: its tempo or that of the practice swings before "
                        "is not known",
                        count_words(not_compared, "shot", "shots")));
    }
}

}  // namespace

MoreNumbers more_numbers(const LessonResult& lesson) {
    MoreNumbers numbers;
    numbers.names.push_back("#");
    for (const Swing& swing : lesson.swings) numbers.rows.push_back({fmt::format("{}", swing.index)});
    for (const Column& column : columns_of(lesson)) {
        std::vector<std::string> cells;
        for (const Swing& swing : lesson.swings) cells.push_back(column.cell(swing));
        if (std::ranges::all_of(cells, [](const std::string& cell) { return cell == not_known; })) continue;
        numbers.names.push_back(column.name);
        for (std::size_t i = 0; i < cells.size(); ++i) numbers.rows[i].push_back(std::move(cells[i]));
        if (!column.note.empty()) numbers.notes.push_back(column.note);
    }
    note_what_is_missing(lesson, numbers);
    return numbers;
}

}  // namespace footing
