#include "viewer/lesson/marks_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <optional>

#include "analysis/report/text_safety.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view format_name = "footing marks";
constexpr int format_version = 1;
constexpr std::string_view trusted_trigger = "never misses";
constexpr double longest_recording_s = 1e7;

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

}  // namespace

Problem unusable_marks(const std::string& place, const std::string& what) {
    return {ProblemKind::bad_input, place, what,
            "move this file away to go on without the marks; the recording itself is untouched"};
}

std::string order_words(const CoachMark& mark, const OutOfOrder& pair) {
    return fmt::format("{} must come after {}; marked are {:.3f} s and {:.3f} s",
                       named_events[pair.later].name, named_events[pair.earlier].name,
                       *mark.event_s[pair.later], *mark.event_s[pair.earlier]);
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
    Json json{
        {"format", format_name}, {"version", format_version}, {"recording", written_uuid(recording_uuid)}};
    if (marks.trigger == TriggerTrust::never_misses) json["trigger"] = trusted_trigger;
    json["swings"] = std::move(swings);
    return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

Result<CoachMarks> parse_marks(std::string_view text, const MarkedRecording& recording,
                               const std::string& place) {
    const Json json = Json::parse(text, nullptr, false);
    if (json.is_discarded() || !json.is_object() || !json.contains("format") || json["format"] != format_name)
        return unusable_marks(place, "this is no file of the coach's marks, or it is damaged");
    if (!json.contains("version") || json["version"] != format_version)
        return unusable_marks(place, "these marks are of a version that this program does not know");
    if (!json.contains("recording") || json["recording"] != written_uuid(recording.uuid))
        return unusable_marks(place, "these marks belong to another recording");
    if (!json.contains("swings") || !json["swings"].is_array())
        return unusable_marks(place, "the marks hold no list of swings");
    CoachMarks marks;
    if (json.contains("trigger")) {
        if (json["trigger"] != trusted_trigger)
            return unusable_marks(place, "the marks say of the trigger what this version does not know");
        marks.trigger = TriggerTrust::never_misses;
    }
    for (const Json& swing : json["swings"]) {
        CoachMark& mark = marks.swings.emplace_back();
        if (const auto wrong = parse_swing(swing, mark)) return unusable_marks(place, *wrong);
        if (const auto wrong = what_is_wrong(marks.swings, recording.duration_s))
            return unusable_marks(place, *wrong);
    }
    return marks;
}

}  // namespace footing
