#pragma once

#include <arpa/inet.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/decode/description.h"
#include "acquisition/decode/wire_encoder.h"
#include "acquisition/record/fold.h"
#include "tests/record/samples.h"
#include "tests/support/child_process.h"

/// `footing record` is a process of its own, this one is the device: it sends over UDP in real time, kills
/// the recorder at a random instant, and knows what it had sent by then.
namespace footing::samples {

struct KillResult {
    enum class End { opened, not_opened, invented_samples, never_started } end = End::never_started;
    std::uint64_t frames_sent = 0;  ///< before the kill
    std::uint64_t frames_kept = 0;
    double seconds_lost = 0.0;  ///< of the sender's frames at the end
};

class UdpSender {
  public:
    explicit UdpSender(int port) : socket_(::socket(AF_INET, SOCK_DGRAM, 0)) {
        address_.sin_family = AF_INET;
        address_.sin_port = htons(static_cast<std::uint16_t>(port));
        address_.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    }
    UdpSender(const UdpSender&) = delete;
    UdpSender& operator=(const UdpSender&) = delete;
    ~UdpSender() { ::close(socket_); }
    void send(const std::vector<std::byte>& packet) const {
        ::sendto(socket_, packet.data(), packet.size(), 0, reinterpret_cast<const sockaddr*>(&address_),
                 sizeof address_);
    }

  private:
    int socket_;
    sockaddr_in address_{};
};

/// One cycle at 1 kHz x 8 cells; `live_ms`: how long frames are sent before the kill.
inline KillResult kill_a_recorder(const std::string& program, const std::filesystem::path& folder,
                                  int live_ms) {
    using namespace std::chrono;
    const std::filesystem::path out = folder / ("k" + new_uuid() + ".h5");
    const std::filesystem::path journal = out.string() + ".journal";
    const int port = test::free_udp_port();
    const std::string address = "127.0.0.1:" + std::to_string(port);
    test::ChildProcess recorder({program, "record", "--udp", address, "--out", out.string(), "--quiet"});
    const UdpSender sender(port);
    const std::vector<std::byte> description =
        encode_description({4711, 100, 0, 0}, description_json(two_plates()));

    KillResult result;
    std::error_code ignored;
    const auto give_up = steady_clock::now() + seconds(20);
    while (!std::filesystem::exists(journal, ignored)) {
        if (steady_clock::now() > give_up) return result;
        sender.send(description);
        std::this_thread::sleep_for(milliseconds(5));
    }
    std::vector<std::int32_t> counts(8);
    const auto begin = steady_clock::now();
    const auto end = begin + milliseconds(live_ms);
    while (steady_clock::now() < end) {
        const auto due =
            static_cast<std::uint64_t>(duration_cast<milliseconds>(steady_clock::now() - begin).count());
        for (; result.frames_sent <= due; ++result.frames_sent) {
            const std::uint64_t index = result.frames_sent;
            for (std::size_t cell = 0; cell < counts.size(); ++cell) counts[cell] = count_at(index, cell);
            const FrameStamp stamp = stamp_at(index);
            sender.send(encode_cells(
                {4711, static_cast<std::uint32_t>(stamp.counter), stamp.device_time_us, stamp.inputs},
                counts));
        }
        std::this_thread::sleep_for(microseconds(300));
    }
    recorder.send_signal(SIGKILL);
    recorder.wait();

    result.end = KillResult::End::not_opened;
    const std::filesystem::path saved = out.string() + ".saved.h5";
    if (!recover(journal, saved).ok()) return result;
    Result<RecordingReader> reader = RecordingReader::open(saved);
    if (!reader.ok()) return result;
    Result<FrameBlock> frames =
        reader.value().read(0, static_cast<std::size_t>(reader.value().frame_count()));
    if (!frames.ok()) return result;
    result.end = KillResult::End::opened;
    result.frames_kept = frames.value().size();
    for (std::size_t i = 0; i < frames.value().size(); ++i) {
        const auto& values = std::get<std::vector<std::int32_t>>(frames.value().values);
        const std::uint64_t index = frames.value().stamps[i].counter - 100;
        for (std::size_t cell = 0; cell < 8; ++cell) {
            if (values[i * 8 + cell] != count_at(index, cell)) result.end = KillResult::End::invented_samples;
        }
    }
    const std::uint64_t newest = result.frames_kept == 0 ? 0 : frames.value().stamps.back().counter - 100 + 1;
    result.seconds_lost = static_cast<double>(result.frames_sent - newest) / 1000.0;
    std::filesystem::remove(saved, ignored);
    std::filesystem::remove(journal, ignored);
    return result;
}

}  // namespace footing::samples
