// Streams packets over loopback UDP in real time, through the whole of the acquisition: socket, decoder,
// order of frames, session, both queues; a recorder thread writes the journal, a live thread computes the
// share of the left side. Prints what was sent, what arrived, what was lost, and how long frames took from
// being sent, and from being taken from the socket, to their share.
//
//     wire_bench [--seconds 60] [--journal FILE | --no-journal]

#include <arpa/inet.h>
#include <fmt/format.h>
#include <netinet/in.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <filesystem>
#include <numeric>
#include <string_view>
#include <thread>

#include "acquisition/decode/description.h"
#include "acquisition/decode/wire_encoder.h"
#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/pipeline/session.h"
#include "acquisition/record/journal_writer.h"

namespace {

using namespace footing;
using namespace std::chrono_literals;

struct Settings {
    double seconds = 60.0;
    std::filesystem::path journal =
        std::filesystem::temp_directory_path() / ("footing_wire_bench_" + std::to_string(::getpid()));
    bool with_journal = true;
};

DeviceDescription plates_at(double rate_hz) {
    DeviceDescription device;
    device.name = "bench plates";
    device.serial = 1;
    device.rate_hz = rate_hz;
    const std::vector<PointM> cells = {{-0.1, 0.2}, {0.1, 0.2}, {-0.1, -0.2}, {0.1, -0.2}};
    device.layout.plates = {{"left", {-0.16, 0.0}, cells}, {"right", {0.16, 0.0}, cells}};
    return device;
}

DeviceDescription mat_at(double rate_hz) {
    DeviceDescription device;
    device.name = "bench mat";
    device.serial = 1;
    device.rate_hz = rate_hz;
    device.layout.kind = FrameKind::grid;
    device.layout.grid = Grid{48, 48, 0.01, 0.01, {}};
    return device;
}

/// Sends frames at their due times; each carries the steady clock, in microseconds, as its device time.
class Sender {
  public:
    Sender(const DeviceDescription& device, std::uint16_t port, const Clock& clock)
        : device_(device), clock_(clock) {
        descriptor_ = ::socket(AF_INET, SOCK_DGRAM, 0);
        sockaddr_in to{};
        to.sin_family = AF_INET;
        to.sin_port = htons(port);
        to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        if (::connect(descriptor_, reinterpret_cast<const sockaddr*>(&to), sizeof to) != 0) std::abort();
    }
    ~Sender() { ::close(descriptor_); }
    Sender(const Sender&) = delete;
    Sender& operator=(const Sender&) = delete;

    void introduce() const { send(encode_description(head(), description_json(device_))); }

    void run(double seconds) {
        ::prctl(PR_SET_TIMERSLACK, 1000UL);
        const auto frames = static_cast<std::uint32_t>(seconds * device_.rate_hz);
        const auto start = std::chrono::steady_clock::now();
        for (counter_ = 0; counter_ < frames; ++counter_) {
            const auto due =
                start + std::chrono::nanoseconds(static_cast<std::int64_t>(counter_ * 1e9 / device_.rate_hz));
            std::this_thread::sleep_until(due);
            if (counter_ % static_cast<std::uint32_t>(device_.rate_hz) == 0) introduce();
            if (device_.layout.grid) {
                for (const auto& band : encode_grid_bands(head(), 48, 48, image_)) send(band);
            } else {
                send(encode_cells(head(), counts_));
            }
            sent_ = counter_ + 1;
        }
    }

    [[nodiscard]] std::uint32_t sent() const { return sent_; }
    [[nodiscard]] std::uint64_t refused() const { return refused_; }

  private:
    [[nodiscard]] PacketHead head() const {
        return {device_.serial, counter_, static_cast<std::uint64_t>(clock_.steady_ns() / 1000), 0};
    }
    void send(const std::vector<std::byte>& packet) const {
        if (::send(descriptor_, packet.data(), packet.size(), 0) < 0) ++refused_;
    }

    DeviceDescription device_;
    const Clock& clock_;
    int descriptor_ = -1;
    std::uint32_t counter_ = 0;
    std::atomic<std::uint32_t> sent_{0};
    mutable std::atomic<std::uint64_t> refused_{0};
    std::vector<std::int32_t> counts_ = {1000, 1100, 1200, 1300, 2000, 2100, 2200, 2300};
    std::vector<std::uint16_t> image_ = std::vector<std::uint16_t>(48 * 48, 100);
};

/// The live consumer: the left side's share of the sum, and when it was known.
class LiveShare final : public FrameSink {
  public:
    LiveShare(const Clock& clock, std::size_t frames) : clock_(clock) {
        from_sending_us_.reserve(frames);
        from_arrival_us_.reserve(frames);
    }

    void take_frame(const FrameView& frame) override {
        const double left = std::visit([](const auto& values) { return left_share(values); }, frame.values);
        share_sum_ += left;
        const std::int64_t now_ns = clock_.steady_ns();
        const auto sent_ns = static_cast<std::int64_t>(frame.stamp.device_time_us) * 1000;
        from_sending_us_.push_back(static_cast<float>(now_ns - sent_ns) * 1e-3F);
        from_arrival_us_.push_back(static_cast<float>(now_ns - frame.stamp.host_time_ns) * 1e-3F);
    }
    void take_gap(const Gap& gap) override { missing_ += gap.frames_missing; }

    void print() {
        fmt::print("  live share   frames {}  missing {}  mean share {:.4f}\n", from_sending_us_.size(),
                   missing_,
                   share_sum_ / static_cast<double>(std::max<std::size_t>(1, from_sending_us_.size())));
        print_line("sent -> share", from_sending_us_);
        print_line("arrived -> share", from_arrival_us_);
    }

  private:
    template <typename Value>
    static double left_share(std::span<const Value> values) {
        double left = 0.0;
        double all = 0.0;
        if (values.size() == 8) {
            for (std::size_t i = 0; i < 8; ++i) (i < 4 ? left : all) += static_cast<double>(values[i]);
            all += left;
        } else {
            for (std::size_t i = 0; i < values.size(); ++i) {
                const auto value = static_cast<double>(values[i]);
                if (i % 48 < 24) left += value;
                all += value;
            }
        }
        return all > 0.0 ? left / all : 0.0;
    }

    static void print_line(std::string_view what, std::vector<float>& latencies) {
        if (latencies.empty()) return;
        std::ranges::sort(latencies);
        const auto quantile = [&](double q) {
            return latencies[static_cast<std::size_t>(q * (latencies.size() - 1))];
        };
        fmt::print("  {:<17} p50 {:.0f} us  p99 {:.0f} us  p99.9 {:.0f} us  max {:.0f} us\n", what,
                   quantile(0.5), quantile(0.99), quantile(0.999), latencies.back());
    }

    const Clock& clock_;
    std::vector<float> from_sending_us_;
    std::vector<float> from_arrival_us_;
    double share_sum_ = 0.0;
    std::uint64_t missing_ = 0;
};

/// The recorder: the journal, as in a lesson.
class Recorder final : public FrameSink {
  public:
    Recorder(JournalWriter* journal, const Clock& clock) : journal_(journal), clock_(clock) {}
    void take_frame(const FrameView& frame) override {
        ++frames_;
        if (journal_ != nullptr && !journal_->append(frame, clock_.steady_ns()).ok()) ++failures_;
    }
    void take_gap(const Gap& gap) override {
        missing_ += gap.frames_missing;
        if (journal_ != nullptr && !journal_->append(gap).ok()) ++failures_;
    }
    void print() const {
        fmt::print("  recorder     frames {}  missing {}  failures {}", frames_, missing_, failures_);
        if (journal_ != nullptr) {
            fmt::print("  journal {:.1f} MB with {} frames",
                       static_cast<double>(journal_->bytes_written()) / 1e6, journal_->frames_written());
        }
        fmt::print("\n");
    }

  private:
    JournalWriter* journal_;
    const Clock& clock_;
    std::uint64_t frames_ = 0;
    std::uint64_t missing_ = 0;
    std::uint64_t failures_ = 0;
};

std::uint16_t free_port(const Clock& clock) {
    UdpLink probe({{"127.0.0.1", 0}}, clock);
    if (!probe.open().ok()) std::abort();
    return probe.local_port();
}

int fail(const Problem& problem) {
    fmt::print(stderr, "{}\n", sentence(problem));
    return exit_code(problem.kind);
}

int run(std::string_view title, const DeviceDescription& device, const Settings& settings) {
    const SystemClock clock;
    const std::uint16_t port = free_port(clock);
    auto link = std::make_unique<UdpLink>(UdpLinkOptions{{"127.0.0.1", port}}, clock);
    const UdpLink& udp = *link;
    LiveSourceOptions options;
    options.tell = [](const std::string& line) { fmt::print("  {}\n", line); };
    Session session(std::make_unique<LiveSource>(std::move(link), options, clock));

    Sender sender(device, port, clock);
    std::atomic<bool> heard{false};
    std::thread introduction([&] {
        while (!heard) {
            sender.introduce();
            std::this_thread::sleep_for(10ms);
        }
    });
    const auto started = session.start(10s);
    heard = true;
    introduction.join();
    if (!started) return fail(started.problem());

    RecordingInfo info;
    info.device = started.value();
    std::optional<JournalWriter> journal;
    std::filesystem::remove(settings.journal);
    if (settings.with_journal) {
        auto created = JournalWriter::create(settings.journal, info, clock.steady_ns());
        if (!created) return fail(created.problem());
        journal.emplace(std::move(created).value());
    }

    Recorder recorder(journal ? &*journal : nullptr, clock);
    LiveShare share(clock, static_cast<std::size_t>(settings.seconds * device.rate_hz) + 1000);
    std::atomic<bool> done{false};
    std::thread recorder_thread([&] {
        while (!done) {
            session.recorder_queue().drain(recorder);
            if (journal) (void)journal->keep_up(clock.steady_ns(), session.losses());
            std::this_thread::sleep_for(5ms);
        }
    });
    std::thread live_thread([&] {
        while (!done) {
            session.live_queue().drain(share);
            std::this_thread::sleep_for(200us);
        }
    });
    sender.run(settings.seconds);
    std::this_thread::sleep_for(200ms);
    session.stop();
    done = true;
    recorder_thread.join();
    live_thread.join();
    session.recorder_queue().drain(recorder);
    session.live_queue().drain(share);
    if (journal) (void)journal->close(info);

    const LossCounters losses = session.losses();
    fmt::print("{}: {:.0f} s, receive buffer {} kB\n", title, settings.seconds,
               udp.granted_receive_buffer() >> 10U);
    fmt::print("  sent {} (refused by the system {})  received {}  lost {}\n", sender.sent(),
               sender.refused(), losses.frames, sender.sent() - losses.frames);
    fmt::print(
        "  counters     lost {}  duplicated {}  reordered {}  damaged {}  foreign {}  socket {}  queue {}  "
        "incomplete {}\n",
        losses.lost, losses.duplicated, losses.reordered, losses.damaged, losses.foreign,
        losses.socket_overflow, losses.queue_overflow, losses.incomplete_grids);
    recorder.print();
    share.print();
    fmt::print("  screen queue gave way {}\n", session.live_queue().given_way());
    std::filesystem::remove(settings.journal);
    return 0;
}

}  // namespace

int main(int count, char** arguments) {
    Settings settings;
    for (int i = 1; i < count; ++i) {
        const std::string_view word = arguments[i];
        if (word == "--seconds" && i + 1 < count) {
            settings.seconds = std::strtod(arguments[++i], nullptr);
        } else if (word == "--journal" && i + 1 < count) {
            settings.journal = arguments[++i];
        } else if (word == "--no-journal") {
            settings.with_journal = false;
        } else {
            fmt::print(stderr, "wire_bench [--seconds 60] [--journal FILE | --no-journal]\n");
            return 2;
        }
    }
    const int plates = run("10 kHz x 8 cells", plates_at(10'000.0), settings);
    const int mat = run("500 Hz x 48x48 grid", mat_at(500.0), settings);
    return plates != 0 ? plates : mat;
}
