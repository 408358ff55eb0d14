#include "acquisition/device/endpoint.h"

#include <charconv>
#include <filesystem>
#include <optional>

namespace footing {

namespace {

template <typename Number>
std::optional<Number> whole_number(std::string_view text) {
    Number number{};
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (text.empty() || error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return number;
}

}  // namespace

Result<HostPort> parse_host_port(std::string_view text) {
    const std::size_t colon = text.rfind(':');
    const auto port =
        colon == std::string_view::npos ? std::nullopt : whole_number<std::uint16_t>(text.substr(colon + 1));
    std::string_view host = text.substr(0, port ? colon : 0);
    if (host.size() > 2 && host.front() == '[' && host.back() == ']') {
        host = host.substr(1, host.size() - 2);
    } else if (host.find_first_of(":[]") != std::string_view::npos) {
        host = {};
    }
    if (!port || host.empty()) {
        return Problem{ProblemKind::command_line, std::string(text), "this is not HOST:PORT",
                       "write for example 127.0.0.1:9750 or [::1]:9750"};
    }
    if (*port == 0) {
        // The system would choose one by chance, and the sender could not know which.
        return Problem{ProblemKind::command_line, std::string(text),
                       "port 0 is no port that plates can send to",
                       "write the port that they are set to, for example 0.0.0.0:9750"};
    }
    return HostPort{std::string(host), *port};
}

Result<SerialPort> parse_serial_port(std::string_view text) {
    std::error_code ignored;
    SerialPort port;
    const std::size_t colon = text.rfind(':');
    const bool whole =
        colon == std::string_view::npos || std::filesystem::exists(std::filesystem::path(text), ignored);
    port.path = text.substr(0, whole ? text.size() : colon);
    if (!whole) {
        const auto baud = whole_number<std::uint32_t>(text.substr(colon + 1));
        if (!baud || *baud == 0) {
            return Problem{ProblemKind::command_line, std::string(text),
                           "what stands behind the colon is no speed",
                           "write for example /dev/ttyUSB0:115200"};
        }
        port.baud = *baud;
    }
    if (port.path.empty()) {
        return Problem{ProblemKind::command_line, std::string(text), "this names no serial port",
                       "write for example /dev/ttyUSB0:115200"};
    }
    return port;
}

}  // namespace footing
