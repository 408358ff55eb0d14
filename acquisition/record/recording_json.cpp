#include "acquisition/record/recording_json.h"

#include <cmath>
#include <nlohmann/json.hpp>

#include "acquisition/decode/description.h"
#include "acquisition/join/joined_device.h"

namespace footing {

namespace {

using Json = nlohmann::ordered_json;

Json pair_json(const ClockPair& pair) {
    return {{"steady_ns", pair.steady_ns}, {"utc_ns", pair.utc_ns}};
}

ClockPair read_pair(const Json& json) {
    return {json.at("steady_ns").get<std::int64_t>(), json.at("utc_ns").get<std::int64_t>()};
}

double finite(const Json& json) {
    const double number = json.get<double>();
    if (!std::isfinite(number)) throw std::domain_error("a number is not finite");
    return number;
}

ClockFit read_clock(const Json& json) {
    ClockFit fit;
    fit.slope = finite(json.at("slope"));
    fit.offset_ns = finite(json.at("offset_ns"));
    fit.residual_sd_ns = finite(json.at("residual_sd_ns"));
    if (!json.contains("knots")) return fit;
    fit.fit_residual_ns = finite(json.at("fit_residual_ns"));
    fit.worst_late_ns = finite(json.at("worst_late_ns"));
    for (const Json& knot : json.at("knots")) {
        fit.knots.push_back({knot.at(0).get<std::uint64_t>(), knot.at(1).get<std::int64_t>()});
    }
    return fit;
}

Json clock_json(const ClockFit& fit) {
    Json json{{"slope", fit.slope}, {"offset_ns", fit.offset_ns}, {"residual_sd_ns", fit.residual_sd_ns}};
    if (fit.knots.empty()) return json;  // as it was written before there were knots
    json["fit_residual_ns"] = fit.fit_residual_ns;
    json["worst_late_ns"] = fit.worst_late_ns;
    Json& knots = json["knots"] = Json::array();
    for (const ClockKnot& knot : fit.knots)
        knots.push_back(Json::array({knot.device_time_us, knot.host_time_ns}));
    return json;
}

DeviceDescription read_device(const Json& json, std::string_view place) {
    Result<DeviceDescription> device = parse_description(json.dump(), place);
    if (!device.ok()) throw std::domain_error(device.problem().what);
    return std::move(device).value();
}

Json device_json(const DeviceDescription& device) {
    return Json::parse(description_json(device), nullptr, false);
}

LossCounters read_losses(const Json& json) {
    LossCounters losses;
    for (const NamedLoss& loss : named_losses) losses.*loss.member = json.at(loss.name).get<std::uint64_t>();
    return losses;
}

Json losses_json(const LossCounters& losses) {
    Json json;
    for (const NamedLoss& loss : named_losses) json[loss.name] = losses.*loss.member;
    return json;
}

JoinedDevice read_joined(const Json& json, std::string_view place) {
    JoinedDevice joined;
    joined.device = read_device(json.at("device"), place);
    joined.origin = json.at("origin").get<std::string>();
    joined.calibration_json = json.at("calibration").get<std::string>();
    joined.losses = read_losses(json.at("losses"));
    joined.clock = read_clock(json.at("clock"));
    return joined;
}

Json joined_json(const JoinedDevice& joined) {
    return {{"device", device_json(joined.device)},
            {"origin", joined.origin},
            {"calibration", joined.calibration_json},
            {"losses", losses_json(joined.losses)},
            {"clock", clock_json(joined.clock)}};
}

RecordingInfo read_info(const Json& json, std::string_view place) {
    RecordingInfo info;
    info.uuid = json.at("uuid").get<std::string>();
    info.zone = json.at("zone").get<std::string>();
    info.start = read_pair(json.at("start"));
    info.end = read_pair(json.at("end"));
    info.clock = read_clock(json.at("clock"));
    const std::string hand = json.at("hand").get<std::string>();
    if (hand != "right" && hand != "left") throw std::domain_error("hand is neither right nor left");
    info.hand = hand == "left" ? Hand::left : Hand::right;
    info.program_version = json.at("program_version").get<std::string>();
    info.origin = json.at("origin").get<std::string>();
    info.device = read_device(json.at("device"), place);
    info.calibration_json = json.at("calibration").get<std::string>();
    info.losses = read_losses(json.at("losses"));
    const auto outcome = outcome_from_name(json.at("outcome").get<std::string>());
    if (!outcome) throw std::domain_error("the outcome is none of clean, lossy, truncated, incomplete");
    info.outcome = *outcome;
    info.cause = json.at("cause").get<std::string>();
    if (!json.contains("devices")) return info;
    for (const Json& device : json.at("devices")) info.devices.push_back(read_joined(device, place));
    if (info.devices.size() > most_joined_devices) throw std::domain_error("there are too many devices");
    std::size_t values = 0;
    for (const JoinedDevice& device : info.devices) values += values_per_frame(device.device.layout);
    if (values != values_per_frame(info.device.layout))
        throw std::domain_error("the devices do not make up the whole");
    return info;
}

}  // namespace

std::string recording_json(const RecordingInfo& info) {
    Json json;
    json["uuid"] = info.uuid;
    json["zone"] = info.zone;
    json["start"] = pair_json(info.start);
    json["end"] = pair_json(info.end);
    json["clock"] = clock_json(info.clock);
    json["hand"] = info.hand == Hand::left ? "left" : "right";
    json["program_version"] = info.program_version;
    json["origin"] = info.origin;
    json["device"] = device_json(info.device);
    json["calibration"] = info.calibration_json;
    json["losses"] = losses_json(info.losses);
    json["outcome"] = outcome_name(info.outcome);
    json["cause"] = info.cause;
    for (const JoinedDevice& device : info.devices) json["devices"].push_back(joined_json(device));
    return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

std::string joined_device_json(const JoinedDevice& device) {
    return joined_json(device).dump(-1, ' ', false, Json::error_handler_t::replace);
}

Result<JoinedDevice> parse_joined_device_json(std::string_view json, std::string_view place) {
    // As below.
    try {
        return read_joined(Json::parse(json), place);
    } catch (const std::exception& error) {
        return Problem{ProblemKind::bad_input, std::string(place),
                       std::string("what is said of the device cannot be read: ") + error.what(), ""};
    }
}

Result<RecordingInfo> parse_recording_json(std::string_view json, std::string_view place) {
    // The library reports by exceptions only; they end here.
    try {
        return read_info(Json::parse(json), place);
    } catch (const std::exception& error) {
        return Problem{ProblemKind::bad_input, std::string(place),
                       std::string("the facts of the recording cannot be read: ") + error.what(), ""};
    }
}

std::optional<RecordingOutcome> outcome_from_name(std::string_view name) {
    for (const RecordingOutcome outcome : {RecordingOutcome::clean, RecordingOutcome::lossy,
                                           RecordingOutcome::truncated, RecordingOutcome::incomplete}) {
        if (outcome_name(outcome) == name) return outcome;
    }
    return std::nullopt;
}

}  // namespace footing
