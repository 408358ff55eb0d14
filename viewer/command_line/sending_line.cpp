#include "viewer/command_line/sending_line.h"

#include "viewer/command_line/arguments.h"

namespace footing {

namespace {

constexpr double patience_for_a_reader_s = 60.0;

constexpr const char* udp_help = "HOST:PORT to send datagrams to";
constexpr const char* serial_help = "serial port, PATH[:BAUD]";
constexpr const char* pty_help =
    "make a pty that record can open under this path, and wait a minute for it to be opened";

template <typename Words>
void add_lines(Arguments& verb, Words& udp, Words& serial, Words& pty, int most) {
    Arguments* line = verb.add_option_group("line", "where to send to");
    line->add_option("--udp", udp, udp_help);
    line->add_option("--serial", serial, serial_help);
    line->add_option("--pty", pty, pty_help);
    line->require_option(1, most);
}

}  // namespace

void add_sending_line(Arguments& verb, SendingLineOptions& options) {
    add_lines(verb, options.udp, options.serial, options.pty, 1);
}

Result<std::unique_ptr<EmulatedLine>> open_sending_line(const SendingLineOptions& options) {
    if (!options.udp.empty()) return open_udp_line(options.udp);
    if (!options.serial.empty()) return open_serial_line(options.serial);
    return open_pty_line(options.pty, patience_for_a_reader_s);
}

void add_sending_lines(Arguments& verb, SendingLinesOptions& options) {
    add_lines(verb, options.udp, options.serial, options.pty, 3);
}

Result<std::vector<std::unique_ptr<EmulatedLine>>> open_sending_lines(const SendingLinesOptions& options) {
    std::vector<SendingLineOptions> all;
    for (const std::string& udp : options.udp) all.push_back({udp, "", ""});
    for (const std::string& serial : options.serial) all.push_back({"", serial, ""});
    for (const std::string& pty : options.pty) all.push_back({"", "", pty});
    std::vector<std::unique_ptr<EmulatedLine>> lines;
    for (const SendingLineOptions& one : all) {
        auto line = open_sending_line(one);
        if (!line) return line.problem();
        lines.push_back(std::move(line).value());
    }
    return lines;
}

}  // namespace footing
