#pragma once

#include <memory>
#include <string>
#include <vector>

#include "acquisition/device/emulated_line.h"
#include "acquisition/frame/result.h"

namespace footing {

class Arguments;

/// Where a verb sends frames to: exactly one is set.
struct SendingLineOptions {
    std::string udp;
    std::string serial;
    std::string pty;
};

/// Where several devices send to, a line each.
struct SendingLinesOptions {
    std::vector<std::string> udp;
    std::vector<std::string> serial;
    std::vector<std::string> pty;
};

/// Adds --udp, --serial and --pty, of which one must be given.
void add_sending_line(Arguments& verb, SendingLineOptions& options);

/// Opens it; for a pty waits a minute for a reader. Problems are those of emulated_line.h.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_sending_line(const SendingLineOptions& options);

/// The same where each may be given again.
void add_sending_lines(Arguments& verb, SendingLinesOptions& options);
/// In the order --udp, --serial, --pty.
[[nodiscard]] Result<std::vector<std::unique_ptr<EmulatedLine>>> open_sending_lines(
    const SendingLinesOptions& options);

}  // namespace footing
