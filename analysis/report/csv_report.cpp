#include "analysis/report/csv_report.h"

#include <fmt/format.h>

#include <cmath>
#include <tuple>
#include <utility>
#include <vector>

#include "analysis/report/text_safety.h"

namespace footing {

namespace {

/// Names and fields grow side by side, so that they cannot come apart.
struct Record {
    std::vector<std::string> names;
    std::vector<std::string> fields;

    void text(const std::string& name, const std::string& value) { add(name, csv_text(value)); }
    void number(const std::string& name, std::optional<double> value) {
        add(name, value && std::isfinite(*value) ? fmt::format("{}", *value) : "");
    }

  private:
    void add(const std::string& name, std::string field) {
        names.push_back(name);
        fields.push_back(std::move(field));
    }
};

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

Record record_of(const LessonResult& lesson, const Swing& swing) {
    Record record;
    record.text("file", lesson.facts.file);
    record.text("student", lesson.facts.student);
    record.text("started", lesson.facts.started);
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
    return record;
}

std::string line_of(const std::vector<std::string>& fields) {
    std::string line = fields.front();
    for (std::size_t i = 1; i < fields.size(); ++i) line += "," + fields[i];
    return line + "\r\n";
}

}  // namespace

std::string csv_report(const LessonResult& lesson) {
    std::string csv = line_of(record_of(lesson, Swing{}).names);
    for (const Swing& swing : lesson.swings) csv += line_of(record_of(lesson, swing).fields);
    return csv;
}

}  // namespace footing
