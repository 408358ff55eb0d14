#include "viewer/command_line/book_json.h"

#include "acquisition/frame/simulated_golfer.h"
#include "analysis/report/hold_end_name.h"

namespace footing {

nlohmann::ordered_json text_or_null(const std::string& text) {
    return text.empty() ? nlohmann::ordered_json() : nlohmann::ordered_json(text);
}

nlohmann::ordered_json removed_json(const Removed& removed) {
    return {{"removed", removed.name},
            {"wedges", removed.wedges},
            {"lessons", removed.lessons},
            {"swings", removed.swings},
            {"shots", removed.shots},
            {"recordings_left_on_disk", removed.recordings},
            {"log_emptied", removed.log == RemovedLog::emptied}};
}

nlohmann::ordered_json json_of(const LessonLine& line) {
    nlohmann::ordered_json json;
    json["id"] = line.lesson.id;
    json["student"] = line.student_name;
    json["student_id"] = line.lesson.student;
    json["date"] = line.lesson.date;
    json["recording"] = text_or_null(line.recording_file);
    json["recording_uuid"] = text_or_null(line.lesson.recording_uuid);
    json["device"] = text_or_null(line.device);
    json["simulated"] = is_simulated_golfer(line.device);
    json["setup"] = line.lesson.setup;
    json["note"] = line.lesson.note;
    json["hand"] =
        line.lesson.hand ? nlohmann::ordered_json(hand_name(*line.lesson.hand)) : nlohmann::ordered_json();
    auto bands = nlohmann::ordered_json::object();
    for (const SwingLength length : swing_lengths) {
        if (const auto& band = line.lesson.bands[static_cast<std::size_t>(length)])
            bands[length_name(length)] = {band->low, band->high};
    }
    json["bands"] = bands;
    json["swings"] = line.swings;
    json["carries"] = line.carries;
    return json;
}

namespace {

nlohmann::ordered_json finish_json(const std::optional<BookFinish>& finish) {
    if (!finish) return {};
    return {{"came_to_rest", finish->came_to_rest},
            {"held_s", or_null(finish->held_s)},
            {"held_end", text_or_null(finish->held_end ? hold_end_name(*finish->held_end) : "")},
            {"sway_m", or_null(finish->sway_m)}};
}

}  // namespace

nlohmann::ordered_json json_of(const BookSwing& swing, const std::string& wedge_name) {
    nlohmann::ordered_json json;
    json["number"] = swing.number;
    json["kind"] = kind_name(swing.kind());
    json["found_kind"] = kind_name(swing.found_kind);
    json["strike_s"] = or_null(swing.strike_s);
    const auto share = [](const std::optional<double>& value, const std::optional<double>& u) {
        return value ? nlohmann::ordered_json{{"value", *value}, {"u", or_null(u)}}
                     : nlohmann::ordered_json();
    };
    json["lead_share"] = {
        {"address", share(swing.address_share, swing.address_u)},
        {"lowest", share(swing.lowest_share, swing.lowest_u)},
        {"impact", share(swing.impact_share, swing.impact_u)},
        {"finish", swing.finish ? share(swing.finish->share, swing.finish->u) : nlohmann::ordered_json()}};
    json["finish"] = finish_json(swing.finish);
    json["backswing_s"] = or_null(swing.backswing_s);
    json["downswing_s"] = or_null(swing.downswing_s);
    json["below_floor_s"] = or_null(swing.below_floor_s);
    json["rhythm_percent"] = or_null(swing.rhythm_percent);
    json["wedge"] = swing.wedge ? nlohmann::ordered_json(wedge_name) : nlohmann::ordered_json();
    json["length"] =
        swing.length ? nlohmann::ordered_json(length_name(*swing.length)) : nlohmann::ordered_json();
    json["coach"] = coach_says_name(swing.coach);
    json["reason"] = swing.reason;
    json["note"] = swing.note;
    json["carry_m"] = swing.shot ? or_null(swing.shot->carry_m) : nlohmann::ordered_json();
    json["side_m"] = swing.shot ? or_null(swing.shot->side_m) : nlohmann::ordered_json();
    json["strike"] = swing.shot && swing.shot->strike
                         ? nlohmann::ordered_json(strike_name(*swing.shot->strike))
                         : nlohmann::ordered_json();
    return json;
}

}  // namespace footing
