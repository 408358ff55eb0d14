#include <doctest/doctest.h>

#include <atomic>
#include <cstdlib>
#include <new>
#include <thread>

#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/pipeline/frame_queue.h"
#include "acquisition/pipeline/live_queue.h"
#include "tests/device/real_lines.h"
#include "tests/device/sent_packets.h"

// The replaced operators below are pairs of malloc and free; g++ sees only one half of each pair.
#pragma GCC diagnostic ignored "-Wmismatched-new-delete"

namespace {
thread_local std::uint64_t allocations = 0;
}

// Every allocation of this program passes here and is counted, for each thread.
void* operator new(std::size_t bytes) {
    ++allocations;
    if (void* memory = std::malloc(bytes > 0 ? bytes : 1)) return memory;
    throw std::bad_alloc();
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

using namespace footing;
using namespace std::chrono_literals;

namespace {

/// What a session does with frames, on this thread.
class BothQueues final : public FrameSink {
  public:
    BothQueues() : recorder_(8U << 20U, 48 * 48), screen_(64, 48 * 48) {}
    void take_frame(const FrameView& frame) override {
        ++frames;
        full += recorder_.push_frame(frame) ? 0U : 1U;
        screen_.push_frame(frame);
    }
    void take_gap(const Gap& gap) override {
        full += recorder_.push_gap(gap) ? 0U : 1U;
        screen_.push_gap(gap);
    }
    std::uint64_t frames = 0;
    std::uint64_t full = 0;

  private:
    FrameQueue recorder_;
    LiveQueue screen_;
};

}  // namespace

// P5
TEST_CASE("From the socket to both queues nothing is allocated, gaps, damage and disorder included") {
    SystemClock clock;
    UdpLink probe({{"127.0.0.1", 0}}, clock);
    REQUIRE(probe.open().ok());
    const std::uint16_t port = probe.local_port();
    probe.close();
    for (const DeviceDescription& device : {eight_cells(), small_mat()}) {
        LiveSource source(std::make_unique<UdpLink>(UdpLinkOptions{{"127.0.0.1", port}}, clock), {}, clock);
        const UdpSender sender(port);
        std::atomic<bool> heard{false};
        std::thread introduction([&] {
            while (!heard) {
                sender.send(described(device));
                std::this_thread::sleep_for(2ms);
            }
        });
        REQUIRE(source.open(10s).ok());
        heard = true;
        introduction.join();
        BothQueues queues;
        const auto send_frame = [&](std::uint32_t counter) {
            if (!device.layout.grid) return sender.send(cells(counter));
            const std::vector<std::uint16_t> image(48 * 48, 5);
            for (const auto& band : encode_grid_bands(test_head(counter), 48, 48, image)) sender.send(band);
        };
        std::uint64_t allocated = 0;
        for (std::uint32_t i = 0; i < 500; ++i) {
            if (i % 50 == 7) continue;                                  // lost
            send_frame(i % 20 == 3 ? i + 1 : i % 20 == 4 ? i - 1 : i);  // out of order
            if (i % 30 == 0) sender.send(std::vector<std::byte>(100));  // damaged
            if (i % 100 == 0) sender.send(described(device, i));
            const std::uint64_t before = allocations;
            const auto state = source.poll(queues, 1ms);
            allocated += allocations - before;
            REQUIRE(state.ok());
        }
        while (queues.frames < 480) REQUIRE(source.poll(queues, 1ms).ok());
        CHECK(allocations > 0);  // the counting itself works: the setting-up above allocated
        CHECK(allocated == 0);
        CHECK(queues.full == 0);
    }
}
