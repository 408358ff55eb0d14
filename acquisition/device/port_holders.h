#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

namespace footing {

/// Who holds a port, as far as the operating system lets this user see. Nothing is opened to find out.
struct PortHolder {
    enum class State {
        nobody,
        held,
        not_known,  ///< nobody was seen, but not every program could be looked into
    } state = State::nobody;
    std::string words;  ///< for held: "name (process number)", or empty when only a lock tells of it
};

/// Of a device node: looks at what files each other program has open, and at the table of file locks.
[[nodiscard]] PortHolder holder_of_file(const std::filesystem::path& processes,
                                        const std::filesystem::path& file);

/// Of a UDP port of this computer, whatever the address. Never not_known: held without words instead.
[[nodiscard]] PortHolder holder_of_udp_port(const std::filesystem::path& processes, std::uint16_t port);

/// First line of a small text file, printable ASCII only; empty when there is none.
[[nodiscard]] std::string first_line_of(const std::filesystem::path& file);

}  // namespace footing
