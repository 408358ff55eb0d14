#include "viewer/command_line/sending_line.h"

#include "viewer/command_line/arguments.h"

namespace footing {

namespace {

constexpr double patience_for_a_reader_s = 60.0;

}  // namespace

void add_sending_line(Arguments& verb, SendingLineOptions& options) {
    Arguments* line = verb.add_option_group("line", "where to send to");
    line->add_option("--udp", options.udp, "HOST:PORT to send datagrams to");
    line->add_option("--serial", options.serial, "serial port, PATH[:BAUD]");
    line->add_option(
        "--pty", options.pty,
        "make a pty that record can open under this path, and wait a minute for it to be opened");
    line->require_option(1);
}

Result<std::unique_ptr<EmulatedLine>> open_sending_line(const SendingLineOptions& options) {
    if (!options.udp.empty()) return open_udp_line(options.udp);
    if (!options.serial.empty()) return open_serial_line(options.serial);
    return open_pty_line(options.pty, patience_for_a_reader_s);
}

}  // namespace footing
