#include "acquisition/device/device_survey.h"

#include <arpa/inet.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <optional>
#include <utility>

#include "acquisition/decode/description.h"
#include "acquisition/decode/packet_decoder.h"
#include "acquisition/device/port_holders.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/frame/units.h"

namespace footing {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_devices_heard = 64;
constexpr std::size_t most_parents = 6;
constexpr std::chrono::milliseconds listening_step{50};

/// Maker and product of the USB device that a tty belongs to: in its own folder's parents.
std::string hardware_words(const fs::path& tty_folder) {
    std::error_code error;
    fs::path folder = fs::canonical(tty_folder / "device", error);
    for (std::size_t i = 0; i < most_parents && !error && folder.has_relative_path(); ++i) {
        const std::string product = first_line_of(folder / "product");
        if (!product.empty()) {
            const std::string maker = first_line_of(folder / "manufacturer");
            return maker.empty() ? product : maker + " " + product;
        }
        folder = folder.parent_path();
    }
    return "";
}

/// The name under serial/by-id that leads to this node; empty when there is none.
std::string stable_path(const fs::path& devices, const fs::path& node) {
    std::error_code error;
    const fs::path target = fs::canonical(node, error);
    for (const auto& entry : fs::directory_iterator(devices / "serial" / "by-id", error)) {
        std::error_code broken;
        if (fs::canonical(entry.path(), broken) == target && !broken) return entry.path().string();
    }
    return "";
}

std::string sender_text(const SenderAddress& sender) {
    const bool is_v4 = std::all_of(sender.address.begin() + 4, sender.address.end(),
                                   [](std::byte one) { return one == std::byte{0}; });
    std::array<char, INET6_ADDRSTRLEN> text{};
    ::inet_ntop(is_v4 ? AF_INET : AF_INET6, sender.address.data(), text.data(), text.size());
    const std::string address = is_v4 ? text.data() : "[" + std::string(text.data()) + "]";
    return address + ":" + std::to_string(sender.port);
}

/// Keeps one entry a sender and serial number. Called by survey_network alone, which may allocate.
class Listener final : public PieceTaker {
  public:
    explicit Listener(NetworkSurvey& survey) : survey_(survey) {}

    void take_piece(const Piece& piece) override {
        const auto packet = decode_datagram(piece.bytes);
        if (!packet) {
            ++survey_.other_packets;
            return;
        }
        DeviceHeard* heard = entry(sender_text(piece.sender), packet->head.serial);
        if (heard == nullptr) return;
        if (packet->kind != wire::PacketKind::description) {
            ++heard->packets;
            return;
        }
        auto device = parse_description(description_text(*packet), heard->sender);
        if (!device) {
            ++survey_.other_packets;
            return;
        }
        heard->device = std::move(device).value();
        heard->described = true;
    }

  private:
    DeviceHeard* entry(const std::string& sender, std::uint32_t serial) {
        for (DeviceHeard& heard : survey_.devices) {
            if (heard.sender == sender && heard.serial == serial) return &heard;
        }
        if (survey_.devices.size() >= most_devices_heard) return nullptr;
        survey_.devices.push_back({sender, serial, false, {}, 0});
        return &survey_.devices.back();
    }

    NetworkSurvey& survey_;
};

}  // namespace

std::vector<SerialPortSeen> survey_serial_ports(const SystemFolders& folders) {
    std::vector<SerialPortSeen> ports;
    std::error_code error;
    for (const auto& entry : fs::directory_iterator(folders.devices, error)) {
        const std::string name = entry.path().filename().string();
        if (!name.starts_with("ttyACM") && !name.starts_with("ttyUSB")) continue;
        SerialPortSeen port;
        port.node = entry.path().string();
        port.path = stable_path(folders.devices, entry.path());
        if (port.path.empty()) port.path = port.node;
        port.words = hardware_words(folders.hardware / "class" / "tty" / name);
        const PortHolder holder = holder_of_file(folders.processes, entry.path());
        port.use = holder.state == PortHolder::State::held     ? SerialPortSeen::Use::in_use
                   : holder.state == PortHolder::State::nobody ? SerialPortSeen::Use::free
                                                               : SerialPortSeen::Use::not_known;
        port.holder = holder.words;
        ports.push_back(std::move(port));
    }
    std::ranges::sort(ports, {}, &SerialPortSeen::node);
    return ports;
}

Result<NetworkSurvey> survey_network(const HostPort& bind, double seconds, const Clock& clock,
                                     const std::atomic<bool>& stop, const SystemFolders& folders) {
    NetworkSurvey survey;
    UdpLink link({bind}, clock);
    if (Outcome opened = link.open(); !opened) {
        const PortHolder holder = holder_of_udp_port(folders.processes, bind.port);
        if (holder.state == PortHolder::State::nobody) return opened.problem();
        survey.state = NetworkSurvey::State::taken;
        survey.holder = holder.words;
        return survey;
    }
    Listener listener(survey);
    const std::int64_t start_ns = clock.steady_ns();
    while (!stop && survey.seconds < seconds) {
        if (Outcome received = link.receive(listener, listening_step); !received) return received.problem();
        survey.seconds = static_cast<double>(clock.steady_ns() - start_ns) * seconds_per_ns;
    }
    return survey;
}

}  // namespace footing
