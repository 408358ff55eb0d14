#include "viewer/command_line/live_line.h"

#include <fmt/format.h>
#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <utility>

#include "acquisition/device/live_source.h"
#include "acquisition/device/serial_link.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/frame/count_words.h"
#include "acquisition/import/layout_file.h"
#include "acquisition/join/joined_device.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/say.h"

namespace footing {

Arguments* add_live_line(Arguments& verb, LiveLineOptions& options) {
    Arguments* line = verb.add_option_group("line", "where the frames come from");
    line->add_option("--udp", options.udp,
                     "HOST:PORT of this computer to listen on; 0.0.0.0 is every interface");
    line->add_option("--serial", options.serial, "serial port, PATH[:BAUD]");
    verb.add_option("--layout", options.layout,
                    "description of a device that does not describe itself (JSON)");
    verb.add_option("--wait", options.wait_s, "seconds to wait for the first device")
        ->check(number_between(0.1, 86400.0))
        ->capture_default_str();
    return line;
}

Result<std::unique_ptr<FrameSource>> make_live_source(const LiveLineOptions& options, const Clock& clock,
                                                      std::function<void(const std::string&)> tell) {
    LiveSourceOptions live;
    live.tell = std::move(tell);
    if (!live.tell) live.tell = tell_line;
    if (!options.layout.empty()) {
        Result<DeviceDescription> layout = read_layout_file(options.layout);
        if (!layout) return layout.problem();
        live.layout = std::move(layout).value();
    }
    std::unique_ptr<Link> link;
    if (!options.udp.empty()) {
        const Result<HostPort> bind = parse_host_port(options.udp);
        if (!bind) return bind.problem();
        UdpLinkOptions udp;
        udp.bind = bind.value();
        link = std::make_unique<UdpLink>(udp, clock);
    } else {
        const Result<SerialPort> port = parse_serial_port(options.serial);
        if (!port) return port.problem();
        link = std::make_unique<SerialLink>(port.value(), clock);
    }
    return std::unique_ptr<FrameSource>(
        std::make_unique<LiveSource>(std::move(link), std::move(live), clock));
}

void add_live_lines(Arguments& verb, LiveLinesOptions& options, LinesAre lines) {
    Arguments* line = verb.add_option_group("line", "where the frames come from");
    line->add_option("--udp", options.udp,
                     "HOST:PORT of this computer to listen on; 0.0.0.0 is every interface");
    line->add_option("--serial", options.serial,
                     "serial port, PATH[:BAUD]; plates that are devices of their own: one line for each, the "
                     "first one's clock is the time base");
    if (lines == LinesAre::needed) line->require_option(1, 2);
    verb.add_option("--layout", options.layouts,
                    "description of a device that does not describe itself (JSON); with several lines one "
                    "for each, those of --udp first");
    verb.add_option("--wait", options.wait_s, "seconds to wait for the first device")
        ->check(number_between(0.1, 86400.0))
        ->capture_default_str();
}

Outcome check_live_lines(const LiveLinesOptions& options) {
    const std::size_t lines = options.udp.size() + options.serial.size();
    if (lines > most_joined_devices) {
        return Problem{ProblemKind::command_line, "--udp, --serial",
                       fmt::format("{} lines are more than the {} devices that can be recorded together",
                                   lines, most_joined_devices),
                       "leave some out"};
    }
    for (const auto* named : {&options.udp, &options.serial}) {
        for (auto one = named->begin(); one != named->end(); ++one) {
            if (std::find(named->begin(), one, *one) == one) continue;
            return Problem{ProblemKind::command_line, *one, "this line is named twice",
                           "name each plate's own line once"};
        }
    }
    for (const std::string& udp : options.udp) {
        if (const auto named = parse_host_port(udp); !named) return named.problem();
    }
    if (!options.layouts.empty() && options.layouts.size() != lines) {
        return Problem{ProblemKind::command_line, "--layout",
                       fmt::format("is given {} for {}", count_words(options.layouts.size(), "time", "times"),
                                   count_words(lines, "line", "lines")),
                       "give one for each line, or none"};
    }
    return Done{};
}

Result<std::vector<std::unique_ptr<FrameSource>>> make_live_sources(
    const LiveLinesOptions& options, const Clock& clock,
    const std::function<void(const std::string&)>& tell) {
    if (Outcome sound = check_live_lines(options); !sound) return sound.problem();
    std::vector<LiveLineOptions> lines;
    for (const std::string& udp : options.udp) lines.push_back({udp, "", "", options.wait_s});
    for (const std::string& serial : options.serial) lines.push_back({"", serial, "", options.wait_s});
    std::vector<std::unique_ptr<FrameSource>> sources;
    for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!options.layouts.empty()) lines[i].layout = options.layouts[i];
        Result<std::unique_ptr<FrameSource>> source = make_live_source(lines[i], clock, tell);
        if (!source) return source.problem();
        sources.push_back(std::move(source).value());
    }
    return sources;
}

bool EnterKey::pressed() {
    if (over_) return false;
    bool enter = false;
    pollfd input{STDIN_FILENO, POLLIN, 0};
    while (::poll(&input, 1, 0) > 0) {
        std::array<char, 256> typed{};
        const ssize_t count = ::read(STDIN_FILENO, typed.data(), typed.size());
        if (count <= 0) {
            over_ = true;
            break;
        }
        enter = enter || std::find(typed.begin(), typed.begin() + count, '\n') != typed.begin() + count;
    }
    return enter;
}

}  // namespace footing
