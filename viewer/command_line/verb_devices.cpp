#include <fmt/format.h>

#include <memory>
#include <nlohmann/json.hpp>
#include <string>

#include "acquisition/device/device_survey.h"
#include "acquisition/frame/count_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"

namespace footing {

namespace {

struct DevicesOptions {
    std::string udp = "0.0.0.0:9750";
    double seconds = 2.5;
    std::string json;
};

const char* use_name(SerialPortSeen::Use use) {
    switch (use) {
        case SerialPortSeen::Use::free:
            return "free";
        case SerialPortSeen::Use::in_use:
            return "in_use";
        case SerialPortSeen::Use::not_known:
            break;
    }
    return "not_known";
}

std::string use_words(const SerialPortSeen& port) {
    switch (port.use) {
        case SerialPortSeen::Use::free:
            return "free";
        case SerialPortSeen::Use::in_use:
            return port.holder.empty() ? "in use" : "in use by " + shown_words(port.holder);
        case SerialPortSeen::Use::not_known:
            break;
    }
    return "free as far as this user may see";
}

/// "plates: left (4 cells), right (4 cells)", "a mat of 48 x 48".
std::string layout_words(const PlateLayout& layout) {
    if (layout.grid) return fmt::format("a mat of {} x {}", layout.grid->rows, layout.grid->columns);
    std::string words;
    for (const Plate& plate : layout.plates) {
        words += words.empty() ? "plates: " : ", ";
        words += plate.cells.empty() ? shown_words(plate.name) + " (components)"
                                     : fmt::format("{} ({})", shown_words(plate.name),
                                                   count_words(plate.cells.size(), "cell", "cells"));
    }
    return words;
}

nlohmann::ordered_json survey_json(const std::vector<SerialPortSeen>& ports, const HostPort& bind,
                                   const NetworkSurvey& network) {
    using nlohmann::ordered_json;
    ordered_json serial = ordered_json::array();
    for (const SerialPortSeen& port : ports) {
        serial.push_back(
            {{"path", port.path},
             {"node", port.node},
             {"hardware", port.words},
             {"use", use_name(port.use)},
             {"held_by", port.holder.empty() ? ordered_json(nullptr) : ordered_json(port.holder)}});
    }
    ordered_json devices = ordered_json::array();
    for (const DeviceHeard& heard : network.devices) {
        ordered_json device = {
            {"sender", heard.sender}, {"serial", heard.serial}, {"frame_packets", heard.packets}};
        if (heard.described) {
            ordered_json plates = ordered_json::array();
            for (const Plate& plate : heard.device.layout.plates) {
                plates.push_back({{"name", plate.name}, {"cells", plate.cells.size()}});
            }
            device["name"] = heard.device.name;
            device["rate_hz"] = heard.device.rate_hz;
            device["plates"] = std::move(plates);
            if (heard.device.layout.grid) {
                device["grid"] = {{"rows", heard.device.layout.grid->rows},
                                  {"columns", heard.device.layout.grid->columns}};
            }
        }
        devices.push_back(std::move(device));
    }
    const bool taken = network.state == NetworkSurvey::State::taken;
    return {{"serial_ports", std::move(serial)},
            {"udp",
             {{"host", bind.host},
              {"port", bind.port},
              {"state", taken ? "taken" : "listened"},
              {"held_by", network.holder.empty() ? ordered_json(nullptr) : ordered_json(network.holder)},
              {"seconds", network.seconds},
              {"devices", std::move(devices)},
              {"other_packets", network.other_packets}}}};
}

std::string survey_table(const std::vector<SerialPortSeen>& ports, const HostPort& bind,
                         const NetworkSurvey& network) {
    std::string text = ports.empty() ? "No serial port of a USB device is plugged in.\n" : "Serial ports\n";
    for (const SerialPortSeen& port : ports) {
        text += fmt::format("  {}\n    {}{}{}\n", shown_words(port.path), shown_words(port.words),
                            port.words.empty() ? "" : "; ", use_words(port));
    }
    if (network.state == NetworkSurvey::State::taken) {
        return text + fmt::format(
                          "UDP port {} is taken by {}: a recorder is running, or another program that "
                          "listens. What it hears cannot be heard here.\n",
                          bind.port,
                          network.holder.empty() ? "another program" : shown_words(network.holder));
    }
    text += network.devices.empty()
                ? fmt::format("Nothing heard on UDP port {} in {:.1f} s.\n", bind.port, network.seconds)
                : fmt::format("Heard on UDP port {} in {:.1f} s\n", bind.port, network.seconds);
    for (const DeviceHeard& heard : network.devices) {
        if (heard.described) {
            text += fmt::format("  {} (serial number {}) at {}\n    {}; {:.6g} Hz; {} of frames\n",
                                shown_words(heard.device.name), heard.serial, heard.sender,
                                layout_words(heard.device.layout), heard.device.rate_hz,
                                count_words(heard.packets, "packet", "packets"));
        } else {
            text += fmt::format("  serial number {} at {}\n    has not described itself; {} of frames\n",
                                heard.serial, heard.sender, count_words(heard.packets, "packet", "packets"));
        }
    }
    if (network.other_packets > 0) {
        text += fmt::format("  {} damaged or of another kind\n",
                            count_words(network.other_packets, "packet that is", "packets that are"));
    }
    return text;
}

Outcome list_devices(const DevicesOptions& options) {
    const auto bind = parse_host_port(options.udp);
    if (!bind) return bind.problem();
    const std::vector<SerialPortSeen> ports = survey_serial_ports();
    heed_interruption();
    const SystemClock clock;
    const auto network = survey_network(bind.value(), options.seconds, clock, interruption());
    if (!network) return network.problem();
    if (options.json != "-") say_text(survey_table(ports, bind.value(), network.value()));
    if (options.json.empty()) return Done{};
    return write_text(options.json,
                      survey_json(ports, bind.value(), network.value())
                              .dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) +
                          "\n");
}

}  // namespace

void add_devices(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<DevicesOptions>();
    Arguments* verb =
        program.add_subcommand("devices", "what is plugged in or heard, without opening what is in use");
    verb->add_option("--udp", options->udp, "HOST:PORT to listen on")->capture_default_str();
    verb->add_option("--seconds", options->seconds,
                     "how long to listen; devices tell of themselves each second")
        ->check(number_between(0.0, 3600.0))
        ->capture_default_str();
    verb->add_option("--json", options->json,
                     "write what was found as JSON to this file; - writes only JSON to standard output");
    verb->callback([options, &outcome] {
        if (const Outcome done = list_devices(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
