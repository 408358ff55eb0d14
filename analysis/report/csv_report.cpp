#include "analysis/report/csv_report.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>
#include <tuple>
#include <utility>
#include <vector>

#include "analysis/report/hold_end_name.h"
#include "analysis/report/text_safety.h"
#include "analysis/swing/named_foot_shares.h"

namespace footing {

namespace {

/// Names and fields grow side by side, so that they cannot come apart.
struct Record {
    std::vector<std::string> names;
    std::vector<std::string> fields;
    std::vector<CsvHolds> holds;

    void text(const std::string& name, const std::string& value) {
        add(name, csv_text(value));
        holds.push_back(CsvHolds::text);
    }
    void moment(const std::string& name, const std::string& value) {
        add(name, csv_text(value));
        holds.push_back(CsvHolds::moment);
    }
    /// With nine digits: more than any of them is known to.
    void number(const std::string& name, std::optional<double> value) {
        holds.push_back(CsvHolds::number);
        add(name, value && std::isfinite(*value) ? fmt::format("{:.9g}", *value) : "");
    }

  private:
    void add(const std::string& name, std::string field) {
        names.push_back(name);
        fields.push_back(std::move(field));
    }
};

/// "2026-11-29 20:41:17 +0000 (Etc/UTC)" as what spreadsheets take for a moment, and its zone, which
/// begins with a letter: "+0000" would be guarded against being a formula.
struct Started {
    std::string moment;
    std::string zone;
};

Started started_of(const std::string& words) {
    constexpr std::size_t moment = 19;  // characters: 2026-11-29 20:41:17
    if (words.size() <= moment || words[moment] != ' ') return {words, ""};
    return {words.substr(0, moment), "UTC" + words.substr(moment + 1)};
}

template <typename Part, typename Member>
std::optional<double> part_of(const std::optional<Part>& part, Member member) {
    return part ? std::optional<double>((*part).*member) : std::nullopt;
}

/// Columns that only a lesson on a mat has.
void add_mat(Record& record, const Swing& swing) {
    const std::optional<SwingStance>& stance = swing.stance;
    record.number("stance_width_m", stance ? stance->width_m : std::nullopt);
    record.number("left_toe_out_rad", stance ? stance->left_toe_out_rad : std::nullopt);
    record.number("right_toe_out_rad", stance ? stance->right_toe_out_rad : std::nullopt);
    const auto foot = [&](const std::string& name, const SwingFoot* shares) {
        record.number(name + "_heel_toe_address", shares ? shares->toes.address : std::nullopt);
        record.number(name + "_heel_toe_impact", shares ? shares->toes.impact : std::nullopt);
        record.number(name + "_inside_outside_address", shares ? shares->outside.address : std::nullopt);
        record.number(name + "_inside_outside_impact", shares ? shares->outside.impact : std::nullopt);
    };
    foot("left", swing.feet ? &swing.feet->left : nullptr);
    foot("right", swing.feet ? &swing.feet->right : nullptr);
}

void add_foot_shares(Record& record, const std::string& name, const FootShares* shares) {
    for (const NamedFootShare& named : named_foot_shares)
        record.number(name + "_" + named.name, shares ? shares->*named.member : std::nullopt);
}

/// Columns of a mat that came later, behind all others.
void add_more_of_mat(Record& record, const Swing& swing) {
    const std::optional<SwingStance>& stance = swing.stance;
    const auto degrees = [](const std::optional<double>& angle_rad) {
        return angle_rad ? std::optional(*angle_rad * 180.0 / std::numbers::pi) : std::nullopt;
    };
    record.number("left_angle_deg", stance ? degrees(stance->left_toe_out_rad) : std::nullopt);
    record.number("right_angle_deg", stance ? degrees(stance->right_toe_out_rad) : std::nullopt);
    const auto foot = [&](const std::string& name, const SwingFoot* shares) {
        record.number(name + "_heel_toe_top", shares ? shares->toes.top : std::nullopt);
        record.number(name + "_heel_toe_finish", shares ? shares->toes.finish : std::nullopt);
        record.number(name + "_inside_outside_top", shares ? shares->outside.top : std::nullopt);
        record.number(name + "_inside_outside_finish", shares ? shares->outside.finish : std::nullopt);
    };
    foot("left", swing.feet ? &swing.feet->left : nullptr);
    foot("right", swing.feet ? &swing.feet->right : nullptr);
}

void add_sway(Record& record, const std::string& name, const std::optional<ShortSway>& sway) {
    record.number(name + "_window_s", part_of(sway, &ShortSway::window_s));
    record.number(name + "_cop_rms_m", part_of(sway, &ShortSway::cop_rms_m));
    record.number(name + "_share_sd", sway ? sway->share_sd : std::nullopt);
}

/// The teaching numbers, behind the columns that were there first.
void add_numbers(Record& record, const Swing& swing) {
    const SwingNumbers& numbers = swing.numbers;
    record.number("vertical_max_time_s", part_of(swing.vertical, &VerticalLoad::max_time_s));
    record.number("time_below_floor", part_of(numbers.time_below, &TimeBelow::floor));
    record.number("time_below_s", part_of(numbers.time_below, &TimeBelow::time_s));
    record.number("time_below_surely_s", part_of(numbers.time_below, &TimeBelow::surely_s));
    record.number("time_below_possibly_s", part_of(numbers.time_below, &TimeBelow::possibly_s));
    record.number("cop_path_m", part_of(numbers.cop_travel, &CopTravel::path_m));
    record.number("cop_range_x_m", part_of(numbers.cop_travel, &CopTravel::range_x_m));
    record.number("cop_range_y_m", part_of(numbers.cop_travel, &CopTravel::range_y_m));
    record.number("load_return_peak_per_s", part_of(numbers.load_return, &LoadReturn::peak_per_s));
    record.number("load_return_u_per_s", part_of(numbers.load_return, &LoadReturn::u_per_s));
    record.number("load_return_time_s", part_of(numbers.load_return, &LoadReturn::time_s));
    const auto& heel_toe = numbers.heel_toe;
    add_foot_shares(record, "plate_toe_share_lead", heel_toe ? &heel_toe->lead : nullptr);
    add_foot_shares(record, "plate_toe_share_trail", heel_toe ? &heel_toe->trail : nullptr);
    const auto& momentum = numbers.momentum;
    record.number("momentum_residual_bw", part_of(momentum, &MomentumClosure::residual_bw));
    record.number("momentum_tolerance_bw", part_of(momentum, &MomentumClosure::tolerance_bw));
    record.text("momentum_verdict", !momentum                              ? ""
                                    : momentum->verdict == Closure::closed ? "closed"
                                                                           : "open");
    add_sway(record, "address_sway", numbers.address_sway);
    const auto& hold = numbers.finish_hold;
    record.number("finish_held_s", part_of(hold, &FinishHold::held_s));
    record.text("finish_held_end", hold ? hold_end_name(hold->end) : "");
    add_sway(record, "finish_sway", hold ? hold->sway : std::nullopt);
    record.number("abruptness_rms_per_s3", part_of(numbers.abruptness, &Abruptness::rms_per_s3));
    record.number("abruptness_noise_per_s3", part_of(numbers.abruptness, &Abruptness::noise_per_s3));
    record.number("abruptness_practice_ratio",
                  numbers.abruptness ? numbers.abruptness->practice_ratio : std::nullopt);
    const auto& rhythm = numbers.rhythm;
    const auto& before = numbers.practice_swings_before;
    record.number("rhythm_practice_swings",
                  before ? std::optional(static_cast<double>(*before)) : std::nullopt);
    record.number("rhythm_match_percent", part_of(rhythm, &RhythmMatch::match_percent));
    record.number("rhythm_backswing_difference_s", part_of(rhythm, &RhythmMatch::backswing_difference_s));
    record.number("rhythm_backswing_u_s", part_of(rhythm, &RhythmMatch::backswing_u_s));
    record.number("rhythm_downswing_difference_s", part_of(rhythm, &RhythmMatch::downswing_difference_s));
    record.number("rhythm_downswing_u_s", part_of(rhythm, &RhythmMatch::downswing_u_s));
    record.number("rhythm_shape_correlation", rhythm ? rhythm->shape_correlation : std::nullopt);
    record.number("rhythm_practice_match_percent", rhythm ? rhythm->practice_match_percent : std::nullopt);
    record.number("momentum_from_s", part_of(momentum, &MomentumClosure::from_s));
    record.number("momentum_to_s", part_of(momentum, &MomentumClosure::to_s));
    record.text("kind_source", swing.kind_source ? source_name(*swing.kind_source) : "");
}

Record record_of(const LessonResult& lesson, const Swing& swing) {
    Record record;
    record.text("file", lesson.facts.file);
    record.text("student", lesson.facts.student);
    record.moment("started", started_of(lesson.facts.started).moment);
    record.text("hand", lesson.facts.hand == Hand::right ? "right" : "left");
    record.number("swing", static_cast<double>(swing.index));
    record.text("kind", kind_name(swing.kind));
    for (const NamedShare& named : named_shares) {
        const auto& share = swing.lead_share.*named.member;
        const std::string name = std::string("lead_share_") + named.name;
        record.number(name, part_of(share, &ShareValue::value));
        record.number(name + "_u", part_of(share, &ShareValue::u));
        record.text(name + "_verdict", share ? verdict_name(share->verdict) : "");
    }
    for (const NamedEvent& named : named_events) {
        const auto& event = swing.events.*named.member;
        const std::string name = named.name;
        record.number(name + "_time_s", part_of(event, &Event::time_s));
        record.number(name + "_time_u_s", part_of(event, &Event::u_s));
        record.text(name + "_source", event ? source_name(event->source) : "");
    }
    record.number("backswing_s", part_of(swing.tempo, &Tempo::backswing_s));
    record.number("downswing_s", part_of(swing.tempo, &Tempo::downswing_s));
    record.number("tempo_ratio", part_of(swing.tempo, &Tempo::ratio));
    record.number("vertical_max_bw", part_of(swing.vertical, &VerticalLoad::max_bw));
    record.number("vertical_min_bw", part_of(swing.vertical, &VerticalLoad::min_bw));
    record.number("smoothness_sparc", part_of(swing.smoothness, &Smoothness::sparc));
    record.number("smoothness_ldlj", part_of(swing.smoothness, &Smoothness::ldlj));
    const std::tuple<const char*, const SwingCop*, const SwingCop*> places[] = {
        {"cop_", &swing.cop_m, &swing.cop_u_m},
        {"lead_cop_", &swing.lead.cop_m, &swing.lead.cop_u_m},
        {"trail_cop_", &swing.trail.cop_m, &swing.trail.cop_u_m}};
    for (const auto& [prefix, cop, cop_u] : places) {
        for (const NamedCop& named : named_cops) {
            const std::string name = std::string(prefix) + named.name;
            record.number(name + "_x_m", part_of(cop->*named.member, &PointM::x_m));
            record.number(name + "_y_m", part_of(cop->*named.member, &PointM::y_m));
            record.number(name + "_x_u_m", part_of(cop_u->*named.member, &PointM::x_m));
            record.number(name + "_y_u_m", part_of(cop_u->*named.member, &PointM::y_m));
        }
    }
    record.number("sure", lesson.sure);
    record.text("calibration", calibration_state_name(lesson.facts.calibration_facts.state));
    if (!lesson.trace.mat.empty()) add_mat(record, swing);
    add_numbers(record, swing);
    if (!lesson.trace.mat.empty()) add_more_of_mat(record, swing);
    record.text("started_zone", started_of(lesson.facts.started).zone);
    return record;
}

std::string line_of(const std::vector<std::string>& fields) {
    std::string line = fields.front();
    for (std::size_t i = 1; i < fields.size(); ++i) line += "," + fields[i];
    return line + "\r\n";
}

}  // namespace

std::vector<CsvColumn> csv_columns(const LessonResult& lesson) {
    const Record record = record_of(lesson, Swing{});
    std::vector<CsvColumn> columns;
    for (std::size_t i = 0; i < record.names.size(); ++i)
        columns.push_back({record.names[i], record.holds[i]});
    return columns;
}

std::string csv_report(const LessonResult& lesson) {
    std::string csv = line_of(record_of(lesson, Swing{}).names);
    for (const Swing& swing : lesson.swings) csv += line_of(record_of(lesson, swing).fields);
    return csv;
}

}  // namespace footing
