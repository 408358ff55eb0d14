#include "viewer/lesson/marks_file.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <system_error>

#include "acquisition/record/recording_reader.h"
#include "acquisition/record/safe_file.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view format_name = "footing marks";
constexpr int format_version = 1;
constexpr std::uintmax_t largest_file = 4U << 20U;
constexpr double longest_recording_s = 1e7;

Problem unusable(const std::string& place, const std::string& what) {
    return {ProblemKind::bad_input, place, what,
            "move this file away to go on without the marks; the recording itself is untouched"};
}

bool is_time(const Json& value) {
    return value.is_number() && value.get<double>() >= 0.0 && value.get<double>() < longest_recording_s;
}

/// One swing's marks; a sentence on what is wrong with them otherwise.
std::optional<std::string> parse_swing(const Json& json, CoachMark& mark) {
    if (!json.is_object() || !json.contains("near_s") || !is_time(json["near_s"]))
        return "a mark does not say near which second its swing is";
    mark.near_s = json["near_s"].get<double>();
    for (const auto& [key, value] : json.items()) {
        if (key == "near_s") continue;
        if (key == "events" && value.is_object()) {
            for (const auto& [name, time] : value.items()) {
                const auto named = std::ranges::find_if(
                    named_events, [&](const NamedEvent& event) { return name == event.name; });
                if (named == named_events.end() || !is_time(time))
                    return "the mark of an event is not one of a swing, or its time is no number of seconds";
                mark.event_s[static_cast<std::size_t>(named - named_events.begin())] = time.get<double>();
            }
        } else if (key == "kind" && value == "shot") {
            mark.kind = SwingKind::shot;
        } else if (key == "kind" && value == "practice") {
            mark.kind = SwingKind::practice;
        } else if (key == "not_a_swing" && value.is_boolean()) {
            mark.marked_as = value.get<bool>() ? MarkedAs::not_a_swing : MarkedAs::swing;
        } else {
            return "a mark says something that this version does not know";
        }
    }
    return std::nullopt;
}

Result<std::string> uuid_of(const std::string& recording) {
    const Result<RecordingReader> reader = RecordingReader::open(recording);
    if (!reader) return reader.problem();
    return reader.value().info().uuid;
}

}  // namespace

std::string marks_path(const std::string& recording) {
    return recording + ".marks.json";
}

std::string marks_text(const CoachMarks& marks, const std::string& recording_uuid) {
    Json swings = Json::array();
    for (const CoachMark& mark : marks.swings) {
        if (mark.empty()) continue;
        Json swing{{"near_s", mark.near_s}};
        for (std::size_t i = 0; i < named_events.size(); ++i) {
            if (mark.event_s[i]) swing["events"][named_events[i].name] = *mark.event_s[i];
        }
        if (mark.kind) swing["kind"] = kind_name(*mark.kind);
        if (mark.marked_as == MarkedAs::not_a_swing) swing["not_a_swing"] = true;
        swings.push_back(std::move(swing));
    }
    const Json json{{"format", format_name},
                    {"version", format_version},
                    {"recording", recording_uuid},
                    {"swings", std::move(swings)}};
    return json.dump(2) + "\n";
}

Result<CoachMarks> parse_marks(std::string_view text, const std::string& recording_uuid,
                               const std::string& place) {
    const Json json = Json::parse(text, nullptr, false);
    if (json.is_discarded() || !json.is_object() || !json.contains("format") || json["format"] != format_name)
        return unusable(place, "this is no file of the coach's marks, or it is damaged");
    if (!json.contains("version") || json["version"] != format_version)
        return unusable(place, "these marks are of a version that this program does not know");
    if (!json.contains("recording") || json["recording"] != recording_uuid)
        return unusable(place, "these marks belong to another recording");
    if (!json.contains("swings") || !json["swings"].is_array())
        return unusable(place, "the marks hold no list of swings");
    CoachMarks marks;
    for (const Json& swing : json["swings"]) {
        CoachMark& mark = marks.swings.emplace_back();
        if (const auto wrong = parse_swing(swing, mark)) return unusable(place, *wrong);
    }
    return marks;
}

Result<CoachMarks> read_marks(const std::string& recording) {
    const std::string path = marks_path(recording);
    std::error_code error;
    if (!std::filesystem::exists(path, error)) return CoachMarks{};
    if (!std::filesystem::is_regular_file(path, error) ||
        std::filesystem::file_size(path, error) > largest_file || error)
        return unusable(path, "this is no file of the coach's marks");
    std::ifstream file(path, std::ios::binary);
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    if (!file.good() && !file.eof()) return unusable(path, "the coach's marks cannot be read");
    const Result<std::string> uuid = uuid_of(recording);
    if (!uuid) return uuid.problem();
    return parse_marks(text, uuid.value(), path);
}

Outcome write_marks(const std::string& recording, const CoachMarks& marks) {
    const Result<std::string> uuid = uuid_of(recording);
    if (!uuid) return uuid.problem();
    const std::string path = marks_path(recording);
    if (std::ranges::all_of(marks.swings, [](const CoachMark& mark) { return mark.empty(); })) {
        std::error_code error;
        std::filesystem::remove(path, error);
        if (error)
            return Problem{ProblemKind::disk_failed, path, "the last mark cannot be taken away",
                           "look whether you may change this folder"};
        return Done{};
    }
    return write_file_safely(path, marks_text(marks, uuid.value()));
}

}  // namespace footing
