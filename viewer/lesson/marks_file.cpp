#include "viewer/lesson/marks_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <system_error>

#include "acquisition/record/recording_reader.h"
#include "acquisition/record/safe_file.h"
#include "analysis/report/text_safety.h"

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
            for (const auto& item : value.items()) {
                const std::string& name = item.key();
                const Json& time = item.value();
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

/// A swing and what is looked at about it last a few seconds.
constexpr double farthest_from_swing_s = 10.0;
/// The device's times and the even time of the analysis differ by less.
constexpr double beyond_the_end_s = 1.0;
constexpr std::size_t longest_uuid = 64;

/// As it stands in the file of the marks: JSON holds UTF-8 only.
std::string written_uuid(const std::string& uuid) {
    return clean_text(uuid, longest_uuid);
}

/// What is wrong with the last of some marks; nothing where it is sound.
std::optional<std::string> what_is_wrong(const std::vector<CoachMark>& marks, double duration_s) {
    const CoachMark& mark = marks.back();
    const double end_s = duration_s + beyond_the_end_s;
    if (mark.near_s > end_s)
        return fmt::format("a mark is of a swing near {:.3f} s, beyond the recording's end", mark.near_s);
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        if (!mark.event_s[i]) continue;
        if (*mark.event_s[i] > end_s || std::abs(*mark.event_s[i] - mark.near_s) > farthest_from_swing_s)
            return fmt::format("{} is marked at {:.3f} s, which is not within its swing near {:.3f} s",
                               named_events[i].name, *mark.event_s[i], mark.near_s);
    }
    if (const auto pair = out_of_order(mark))
        return fmt::format("of the swing near {:.3f} s {}", mark.near_s, order_words(mark, *pair));
    const bool twice = std::any_of(marks.begin(), marks.end() - 1, [&](const CoachMark& other) {
        return std::abs(other.near_s - mark.near_s) <= same_swing_s;
    });
    if (twice) return fmt::format("the swing near {:.3f} s is marked twice", mark.near_s);
    return std::nullopt;
}

Result<MarkedRecording> marked_recording(const std::string& recording) {
    Result<RecordingReader> reader = RecordingReader::open(recording);
    if (!reader) return reader.problem();
    MarkedRecording marked{reader.value().info().uuid, 0.0};
    const std::uint64_t frames = reader.value().frame_count();
    if (frames == 0) return marked;
    const Result<FrameBlock> first = reader.value().read(0, 1, HostTimes::left_out);
    if (!first) return first.problem();
    const Result<FrameBlock> last = reader.value().read(frames - 1, 1, HostTimes::left_out);
    if (!last) return last.problem();
    if (first.value().size() == 0 || last.value().size() == 0) return marked;
    marked.duration_s = 1e-6 * (static_cast<double>(last.value().stamps.front().device_time_us) -
                                static_cast<double>(first.value().stamps.front().device_time_us));
    return marked;
}

}  // namespace

Result<std::string> recording_uuid(const std::string& recording) {
    const Result<RecordingReader> reader = RecordingReader::open(recording);
    if (!reader) return reader.problem();
    return reader.value().info().uuid;
}

std::string order_words(const CoachMark& mark, const OutOfOrder& pair) {
    return fmt::format("{} must come after {}, which is marked at {:.3f} s", named_events[pair.later].name,
                       named_events[pair.earlier].name, *mark.event_s[pair.earlier]);
}

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
                    {"recording", written_uuid(recording_uuid)},
                    {"swings", std::move(swings)}};
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<CoachMarks> parse_marks(std::string_view text, const MarkedRecording& recording,
                               const std::string& place) {
    const Json json = Json::parse(text, nullptr, false);
    if (json.is_discarded() || !json.is_object() || !json.contains("format") || json["format"] != format_name)
        return unusable(place, "this is no file of the coach's marks, or it is damaged");
    if (!json.contains("version") || json["version"] != format_version)
        return unusable(place, "these marks are of a version that this program does not know");
    if (!json.contains("recording") || json["recording"] != written_uuid(recording.uuid))
        return unusable(place, "these marks belong to another recording");
    if (!json.contains("swings") || !json["swings"].is_array())
        return unusable(place, "the marks hold no list of swings");
    CoachMarks marks;
    for (const Json& swing : json["swings"]) {
        CoachMark& mark = marks.swings.emplace_back();
        if (const auto wrong = parse_swing(swing, mark)) return unusable(place, *wrong);
        if (const auto wrong = what_is_wrong(marks.swings, recording.duration_s))
            return unusable(place, *wrong);
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
    const Result<MarkedRecording> marked = marked_recording(recording);
    if (!marked) return marked.problem();
    return parse_marks(text, marked.value(), path);
}

Outcome write_marks(const std::string& recording, const CoachMarks& marks) {
    const Result<std::string> uuid = recording_uuid(recording);
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
