#include "viewer/lesson/swing_label.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <utility>

#include "acquisition/record/safe_file.h"
#include "analysis/report/figure_scale.h"

namespace footing {

namespace {

constexpr std::array<std::pair<CoachWord, const char*>, 4> words{{{CoachWord::not_said, ""},
                                                                  {CoachWord::shot, "shot"},
                                                                  {CoachWord::practice, "practice"},
                                                                  {CoachWord::not_a_swing, "not_a_swing"}}};
constexpr std::uintmax_t most_bytes = 16U << 20U;

const char* name_of(CoachWord word) {
    for (const auto& [value, name] : words) {
        if (value == word) return name;
    }
    return "";
}

SwingLabel label_of(const nlohmann::json& kept) {
    SwingLabel label;
    for (const auto& [value, name] : words) {
        if (kept.value("kind", "") == name) label.word = value;
    }
    label.club = kept.value("club", "");
    label.length = kept.value("length", "");
    if (kept.contains("carry_m") && kept["carry_m"].is_number())
        label.carry_m = kept["carry_m"].get<double>();
    return label;
}

Problem not_understood(const std::string& file) {
    return {ProblemKind::bad_input, file, "the labels of this recording cannot be read",
            "move the file away; the recording itself is not touched by it"};
}

}  // namespace

std::string labels_file(const std::string& recording) {
    return recording + ".labels.json";
}

Outcome write_labels(const std::string& recording, const std::vector<Swing>& swings,
                     const std::vector<SwingLabel>& labels) {
    nlohmann::ordered_json all = nlohmann::ordered_json::array();
    for (std::size_t place = 0; place < std::min(swings.size(), labels.size()); ++place) {
        const SwingLabel& label = labels[place];
        if (label == SwingLabel{}) continue;
        nlohmann::ordered_json kept{{"at_s", zero_of(swings[place])},
                                    {"kind", name_of(label.word)},
                                    {"club", label.club},
                                    {"length", label.length}};
        if (label.carry_m) kept["carry_m"] = *label.carry_m;
        all.push_back(std::move(kept));
    }
    const nlohmann::ordered_json whole{
        {"format", "footing labels"}, {"version", 1}, {"swings", std::move(all)}};
    return write_file_safely(labels_file(recording),
                             whole.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n");
}

CoachMarks marks_of_labels(const std::vector<Swing>& swings, const std::vector<SwingLabel>& labels) {
    CoachMarks marks;
    for (std::size_t place = 0; place < std::min(swings.size(), labels.size()); ++place) {
        if (labels[place].word == CoachWord::not_said) continue;
        CoachMark mark;
        mark.near_s = zero_of(swings[place]);
        if (labels[place].word == CoachWord::shot) mark.kind = SwingKind::shot;
        if (labels[place].word == CoachWord::practice) mark.kind = SwingKind::practice;
        if (labels[place].word == CoachWord::not_a_swing) mark.marked_as = MarkedAs::not_a_swing;
        marks.swings.push_back(mark);
    }
    return marks;
}

Result<std::vector<SwingLabel>> read_labels(const std::string& recording, const std::vector<Swing>& swings) {
    std::vector<SwingLabel> labels(swings.size());
    const std::string file = labels_file(recording);
    std::error_code ignored;
    if (!std::filesystem::is_regular_file(file, ignored)) return labels;
    if (std::filesystem::file_size(file, ignored) > most_bytes) return not_understood(file);
    std::ifstream in(file, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    try {
        const nlohmann::json whole = nlohmann::json::parse(text);
        if (whole.at("format") != "footing labels" || whole.at("version") != 1) return not_understood(file);
        for (const nlohmann::json& kept : whole.at("swings")) {
            const double at_s = kept.at("at_s").get<double>();
            for (std::size_t place = 0; place < swings.size(); ++place) {
                if (std::abs(zero_of(swings[place]) - at_s) <= same_swing_s) labels[place] = label_of(kept);
            }
        }
    } catch (const nlohmann::json::exception&) {
        return not_understood(file);
    }
    return labels;
}

}  // namespace footing
