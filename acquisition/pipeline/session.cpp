#include "acquisition/pipeline/session.h"

#include <algorithm>
#include <cmath>

#include "acquisition/pipeline/queue_record.h"

namespace footing {

namespace {

/// Every counter, in one order, so that publishing and reading them cannot disagree.
constexpr std::array counter_members = {
    &LossCounters::frames,          &LossCounters::lost,           &LossCounters::duplicated,
    &LossCounters::reordered,       &LossCounters::damaged,        &LossCounters::foreign,
    &LossCounters::socket_overflow, &LossCounters::queue_overflow, &LossCounters::incomplete_grids};
static_assert(sizeof(LossCounters) == counter_members.size() * sizeof(std::uint64_t));

std::size_t frames_in(double depth_s, double rate_hz) {
    return static_cast<std::size_t>(std::ceil(std::max(0.0, depth_s * rate_hz)));
}

}  // namespace

/// Puts what the source hands out into both queues. Lives on the device thread.
class Session::Distributor final : public FrameSink {
  public:
    explicit Distributor(Session& session) : session_(session) {}

    void take_frame(const FrameView& frame) override {
        wait_for_room();
        record(frame);
        session_.live_queue_->push_frame(frame);
        session_.newest_host_time_ns_.store(frame.stamp.host_time_ns, std::memory_order_relaxed);
    }

    void take_gap(const Gap& gap) override {
        wait_for_room();
        // While frames overflow, one gap that spans all of them will stand for this one too.
        if (!overflowing_ && !session_.recorder_queue_->push_gap(gap)) overflowing_ = true;
        session_.live_queue_->push_gap(gap);
    }

    [[nodiscard]] std::uint64_t overflow() const { return overflow_; }

  private:
    void record(const FrameView& frame) {
        if (overflowing_ && newest_recorded_) {
            if (!session_.recorder_queue_->has_room()) {
                ++overflow_;
                return;
            }
            const FrameStamp& before = *newest_recorded_;
            const std::uint64_t step = frame.stamp.counter - before.counter;
            const Gap hole{before.counter, step - 1, before.device_time_us, frame.stamp.device_time_us};
            overflowing_ = !session_.recorder_queue_->push_gap(hole);
        }
        if (session_.recorder_queue_->push_frame(frame)) {
            newest_recorded_ = frame.stamp;
        } else {
            ++overflow_;
            overflowing_ = true;
        }
    }

    void wait_for_room() const {
        if (session_.options_.full_queue == FullQueue::lose_and_count) return;
        const bool both = session_.options_.full_queue == FullQueue::wait_for_both;
        while (!session_.stop_asked_.load(std::memory_order_relaxed) &&
               !(session_.recorder_queue_->has_room() && (!both || session_.live_queue_->has_room()))) {
            std::this_thread::sleep_for(std::chrono::microseconds(100));
        }
    }

    Session& session_;
    std::optional<FrameStamp> newest_recorded_;
    bool overflowing_ = false;
    std::uint64_t overflow_ = 0;
};

Session::Session(std::unique_ptr<FrameSource> source, SessionOptions options)
    : source_(std::move(source)), options_(options), name_(source_->name()) {}

Session::~Session() {
    stop();
}

Result<DeviceDescription> Session::start(std::chrono::milliseconds patience) {
    auto device = source_->open(patience);
    name_ = source_->name();
    if (!device) return device;
    const std::size_t values = values_per_frame(device.value().layout);
    const double rate_hz = device.value().rate_hz;
    const std::size_t record = most_record_bytes(values);
    recorder_queue_ =
        std::make_unique<FrameQueue>(std::clamp(frames_in(options_.recorder_depth_s, rate_hz) * record,
                                                options_.least_recorder_bytes, options_.most_recorder_bytes),
                                     values);
    const std::size_t live_frames =
        std::max(frames_in(options_.live_depth_s, rate_hz), options_.least_live_frames);
    live_queue_ =
        std::make_unique<LiveQueue>(std::min(live_frames, options_.most_live_bytes / record), values);
    distributor_ = std::make_unique<Distributor>(*this);
    state_.store(SessionState::waiting, std::memory_order_release);
    device_thread_ = std::thread([this] { poll_until_stopped(); });
    return device;
}

void Session::stop() {
    stop_asked_.store(true, std::memory_order_relaxed);
    if (device_thread_.joinable()) device_thread_.join();
}

void Session::poll_until_stopped() {
    const auto poll_once = [this](std::chrono::milliseconds patience) {
        const auto state = source_->poll(*distributor_, patience);
        publish(source_->losses());
        if (!state) {
            problem_ = state.problem();
            state_.store(SessionState::failed, std::memory_order_release);
            return false;
        }
        if (state.value() == SourceState::finished) return false;
        state_.store(state.value() == SourceState::running ? SessionState::running : SessionState::waiting,
                     std::memory_order_release);
        return true;
    };
    bool going = true;
    while (going && !stop_asked_.load(std::memory_order_relaxed)) going = poll_once(options_.poll_patience);
    if (going && options_.full_queue == FullQueue::lose_and_count) poll_once(std::chrono::milliseconds(0));
    if (state() != SessionState::failed) state_.store(SessionState::finished, std::memory_order_release);
}

void Session::publish(const LossCounters& counters) {
    LossCounters all = counters;
    all.queue_overflow += distributor_->overflow();
    for (std::size_t i = 0; i < counter_members.size(); ++i) {
        losses_[i].store(all.*counter_members[i], std::memory_order_relaxed);
    }
}

LossCounters Session::losses() const {
    LossCounters counters;
    for (std::size_t i = 0; i < counter_members.size(); ++i) {
        counters.*counter_members[i] = losses_[i].load(std::memory_order_relaxed);
    }
    return counters;
}

std::optional<Problem> Session::problem() const {
    if (state() != SessionState::failed) return std::nullopt;
    return problem_;
}

}  // namespace footing
