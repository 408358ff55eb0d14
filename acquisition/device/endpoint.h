#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "acquisition/frame/result.h"

namespace footing {

struct HostPort {
    std::string host;  ///< name or address; without the brackets of [::1]:9750
    std::uint16_t port = 0;
};

/// "HOST:PORT", the port not 0. Fails with command_line.
[[nodiscard]] Result<HostPort> parse_host_port(std::string_view text);

struct SerialPort {
    std::string path;
    std::uint32_t baud = 115'200;
};

/// "PATH" or "PATH:BAUD". A path that exists as it stands is taken whole: stable paths may hold colons. Fails
/// with command_line.
[[nodiscard]] Result<SerialPort> parse_serial_port(std::string_view text);

}  // namespace footing
