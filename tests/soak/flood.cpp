// Strangers send 100,000 packets a second to the port on which `footing record` listens to plates at 1 kHz:
// random bytes of any length, whole frames of another device, and whole frames that pretend to be the plates.
// Prints what was sent, what was recorded, how the strangers' packets were counted, and the recorder's
// memory; fails when a frame of the plates is missing, when one of a stranger is in the recording, or when
// memory grew (R21).
//
//     flood_soak [--seconds 60] [--rate 100000]
#include <fmt/format.h>
#include <signal.h>
#include <sys/resource.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include "acquisition/record/recording_reader.h"
#include "tests/field/sending_plates.h"
#include "tests/soak/memory.h"
#include "tests/support/child_process.h"

namespace {

using namespace footing;
using namespace std::chrono_literals;

/// Sends as many packets a second as was asked for, in bursts of 64, from three ports.
class Flood {
  public:
    Flood(std::uint16_t port, double rate) : rate_(rate) {
        for (int& one : sockets_) {
            one = ::socket(AF_INET, SOCK_DGRAM, 0);
            sockaddr_in to{};
            to.sin_family = AF_INET;
            to.sin_port = htons(port);
            to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
            must(::connect(one, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0);
        }
        std::mt19937 chance(21);
        for (std::size_t i = 0; i < burst; ++i) {
            std::vector<std::byte> packet;
            if (i % 3 == 1) packet = cells(static_cast<std::uint32_t>(chance()), test_serial + 1);
            if (i % 3 == 2) packet = cells(static_cast<std::uint32_t>(chance()), test_serial);
            if (i % 3 == 0) {
                packet.resize(chance() % 1600);
                for (std::byte& byte : packet) byte = static_cast<std::byte>(chance());
            }
            packets_.push_back(packet);
        }
        thread_ = std::thread([this] { run(); });
    }
    ~Flood() {
        stop();
        for (const int one : sockets_) ::close(one);
    }
    Flood(const Flood&) = delete;
    Flood& operator=(const Flood&) = delete;
    void stop() {
        over_ = true;
        if (thread_.joinable()) thread_.join();
    }
    [[nodiscard]] std::uint64_t sent() const { return sent_; }

  private:
    static constexpr std::size_t burst = 64;

    void run() {
        std::vector<iovec> pieces(burst);
        std::vector<mmsghdr> messages(burst);
        for (std::size_t i = 0; i < burst; ++i) {
            pieces[i] = {packets_[i].data(), packets_[i].size()};
            messages[i].msg_hdr.msg_iov = &pieces[i];
            messages[i].msg_hdr.msg_iovlen = 1;
        }
        const auto begin = std::chrono::steady_clock::now();
        for (std::uint64_t turn = 0; !over_; ++turn) {
            std::this_thread::sleep_until(
                begin + std::chrono::duration_cast<std::chrono::nanoseconds>(
                            std::chrono::duration<double>(static_cast<double>(turn * burst) / rate_)));
            const int count = ::sendmmsg(sockets_[turn % 3], messages.data(), burst, 0);
            sent_ += count > 0 ? static_cast<std::uint64_t>(count) : 0;
        }
    }

    double rate_;
    std::array<int, 3> sockets_{};
    std::vector<std::vector<std::byte>> packets_;
    std::atomic<bool> over_{false};
    std::atomic<std::uint64_t> sent_{0};
    std::thread thread_;
};

int fail(const std::string& why) {
    fmt::print("FAILED: {}\n", why);
    return 1;
}

int run(double seconds, double rate) {
    const test::ScratchFolder scratch;
    const int port = test::free_udp_port();
    const std::string file = scratch / "a.h5";
    test::ChildProcess recorder(
        {FOOTING_PROGRAM, "record", "--udp", "127.0.0.1:" + std::to_string(port), "--out", file}, "/dev/null",
        scratch / "err");
    const std::string process = std::to_string(recorder.id());
    double mb_before = 0.0;
    double mb_after = 0.0;
    std::uint64_t strange = 0;
    std::chrono::duration<double> flooded{};
    {
        SendingPlates plates(static_cast<std::uint16_t>(port));
        for (int i = 0; !std::filesystem::exists(file + ".journal"); ++i) {
            if (i > 2000) return fail(test::read_file(scratch / "err"));
            std::this_thread::sleep_for(10ms);
        }
        std::this_thread::sleep_for(500ms);
        mb_before = memory_mb("VmRSS:", process);
        const auto begin = std::chrono::steady_clock::now();
        Flood flood(static_cast<std::uint16_t>(port), rate);
        std::this_thread::sleep_for(std::chrono::duration<double>(seconds));
        flood.stop();
        flooded = std::chrono::steady_clock::now() - begin;
        strange = flood.sent();
        std::this_thread::sleep_for(500ms);
        mb_after = memory_mb("VmRSS:", process);
    }
    std::this_thread::sleep_for(200ms);
    rusage before{};
    ::getrusage(RUSAGE_CHILDREN, &before);
    recorder.send_signal(SIGINT);
    const int code = recorder.wait();
    rusage after{};
    ::getrusage(RUSAGE_CHILDREN, &after);
    if (code != 0)
        return fail(fmt::format("the recorder ended with {}: {}", code, test::read_file(scratch / "err")));

    auto reader = RecordingReader::open(file);
    if (!reader.ok()) return fail(sentence(reader.problem()));
    const auto frames = reader.value().read(0, static_cast<std::size_t>(reader.value().frame_count()));
    if (!frames.ok()) return fail(sentence(frames.problem()));
    const std::vector<FrameStamp>& stamps = frames.value().stamps;
    const std::uint64_t due = stamps.back().counter - stamps.front().counter + 1;
    const RecordingInfo& info = reader.value().info();
    fmt::print("  strangers sent {} packets in {:.1f} s: {:.0f} a second (asked for {:.0f})\n", strange,
               flooded.count(), static_cast<double>(strange) / flooded.count(), rate);
    fmt::print("  plates: {} frames from first to last, {} recorded, {} lost, {} gaps\n", due, stamps.size(),
               due - stamps.size(), info.gaps.size());
    fmt::print("  counted: foreign {}, damaged {}, dropped by the system {}; recording {}{}\n",
               info.losses.foreign, info.losses.damaged, info.losses.socket_overflow,
               outcome_name(info.outcome), info.cause.empty() ? "" : " (" + info.cause + ")");
    const auto seconds_of = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + 1e-6 * time.tv_usec;
    };
    fmt::print("  recorder: memory {:.1f} MB before, {:.1f} MB after; processor {:.1f} s\n", mb_before,
               mb_after,
               seconds_of(after.ru_utime) - seconds_of(before.ru_utime) + seconds_of(after.ru_stime) -
                   seconds_of(before.ru_stime));
    if (due != stamps.size() || !info.gaps.empty()) return fail("frames of the plates were lost");
    if (info.losses.foreign > strange) return fail("more strangers' packets were counted than were sent");
    if (info.losses.damaged + info.losses.duplicated + info.losses.reordered > 0)
        return fail("strangers' packets were taken for the plates'");
    // The queues' own memory comes into use in their first minute or two, flood or not; beyond that nothing
    // grows.
    if (mb_after > mb_before + 32.0) return fail("memory grew by more than 32 MB");
    return 0;
}

}  // namespace

int main(int count, char** words) {
    double seconds = 60.0;
    double rate = 100'000.0;
    for (int i = 1; i + 1 < count; i += 2) {
        if (std::string(words[i]) == "--seconds") seconds = std::strtod(words[i + 1], nullptr);
        if (std::string(words[i]) == "--rate") rate = std::strtod(words[i + 1], nullptr);
    }
    return run(seconds, rate);
}
