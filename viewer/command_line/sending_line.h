#pragma once

#include <memory>
#include <string>

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

/// Adds --udp, --serial and --pty, of which one must be given.
void add_sending_line(Arguments& verb, SendingLineOptions& options);

/// Opens it; for a pty waits a minute for a reader. Problems are those of emulated_line.h.
[[nodiscard]] Result<std::unique_ptr<EmulatedLine>> open_sending_line(const SendingLineOptions& options);

}  // namespace footing
