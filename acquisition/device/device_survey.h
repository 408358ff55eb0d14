#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "acquisition/device/endpoint.h"
#include "acquisition/frame/clock.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

/// Where the operating system tells of itself; a test gives folders of its own.
struct SystemFolders {
    std::filesystem::path devices = "/dev";
    std::filesystem::path hardware = "/sys";
    std::filesystem::path processes = "/proc";
};

/// A USB serial port that is plugged in.
struct SerialPortSeen {
    std::string path;   ///< stable over unplugging (serial/by-id/…) where there is one, else the node
    std::string node;   ///< /dev/ttyACM0, …
    std::string words;  ///< maker and product as the hardware says; may be empty
    enum class Use {
        free,
        in_use,
        not_known,  ///< nobody is seen to hold it, but this user may not look into every program
    } use = Use::free;
    std::string holder;  ///< "record (1234)", for in_use, as far as known
};

/// The serial ports of USB devices (ttyACM*, ttyUSB*), by node. Opens none of them: who holds one is learnt
/// from the programs' open files and from the table of file locks.
[[nodiscard]] std::vector<SerialPortSeen> survey_serial_ports(const SystemFolders& folders = {});

/// A device that was heard on the network.
struct DeviceHeard {
    std::string sender;  ///< address and port
    std::uint32_t serial = 0;
    bool described = false;  ///< whether its description came; what follows is known only then
    DeviceDescription device;
    std::uint64_t packets = 0;  ///< with frames in them
};

struct NetworkSurvey {
    enum class State {
        listened,
        taken,  ///< another program listens on the port, so nothing could be heard
    } state = State::listened;
    std::string holder;  ///< of a taken port, as far as known
    double seconds = 0.0;
    std::vector<DeviceHeard> devices;  ///< in the order in which they were first heard, at most 64
    std::uint64_t other_packets = 0;   ///< that are no packet of wire format 1, or damaged
};

/// Listens on a UDP port for devices. Blocks for `seconds`, or until `stop` becomes true. A port that another
/// program holds is told as taken; it is not disturbed. Fails with device_failed when this computer has no
/// such address.
[[nodiscard]] Result<NetworkSurvey> survey_network(const HostPort& bind, double seconds, const Clock& clock,
                                                   const std::atomic<bool>& stop,
                                                   const SystemFolders& folders = {});

}  // namespace footing
