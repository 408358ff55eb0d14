#include "acquisition/device/play_transmission.h"

#include <algorithm>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "acquisition/decode/description.h"
#include "acquisition/device/line_pacer.h"
#include "acquisition/frame/units.h"

namespace footing {

namespace {

using Bytes = std::vector<std::byte>;

/// Sends what the recording hands out, and waits in between. A sink must not block the thread of a device;
/// this one is called by nobody but play(), on a recording that can wait.
class Player final : public FrameSink {
  public:
    Player(const PlayWireForm& form, EmulatedLine& line, double speed, const std::atomic<bool>& stop)
        : form_(form), line_(line), stop_(stop), pacer_(speed, stop) {}

    Outcome begin() {
        if (Outcome ready = line_.wait_for_reader(stop_); !ready) return ready;
        for (int i = 0; i < descriptions_before_frames && going_on(); ++i) {
            send_description(FrameStamp{});
            std::this_thread::sleep_for(between_first_descriptions);
        }
        pacer_.start();
        return outcome();
    }

    void take_frame(const FrameView& frame) override {
        if (!going_on()) return;
        if (!first_) first_ = frame.stamp;
        pacer_.wait_until(time_of(frame.stamp));
        if (!going_on()) return;
        const std::vector<Bytes> packets = form_.packets(frame);
        if (packets.empty() || packets.front().empty()) {
            problem_ = Problem{ProblemKind::bad_input, "frame " + std::to_string(frame.stamp.counter),
                               "does not fit the device's description", "check the recording with verify"};
            return;
        }
        for (const Bytes& packet : packets) {
            put(packet);
            ++count_.packets;
        }
        ++count_.frames;
        if (pacer_.description_due()) send_description(frame.stamp);
    }

    void take_gap(const Gap& gap) override {
        if (!going_on()) return;
        if (gap.frames_missing == 0) {
            ++count_.restarts;
        } else {
            ++count_.gaps;
            count_.frames_missing += gap.frames_missing;
        }
    }

    [[nodiscard]] bool going_on() const {
        return !stop_ && !problem_ && count_.end != PlayCount::End::reader_gone;
    }

    [[nodiscard]] Outcome outcome() const {
        if (problem_) return *problem_;
        return Done{};
    }

    Result<PlayCount> finish() {
        if (problem_) return *problem_;
        if (stop_) count_.end = PlayCount::End::stopped;
        if (count_.end == PlayCount::End::recording_over) line_.drain(stop_);
        return count_;
    }

  private:
    /// By the device's clock; by its counter where the clock stands still, as on boards that have none.
    [[nodiscard]] double time_of(const FrameStamp& stamp) const {
        if (stamp.device_time_us > first_->device_time_us) {
            return static_cast<double>(stamp.device_time_us - first_->device_time_us) * seconds_per_us;
        }
        const double rate_hz = form_.description().rate_hz;
        return rate_hz > 0.0 ? static_cast<double>(stamp.counter - first_->counter) / rate_hz : 0.0;
    }

    void send_description(const FrameStamp& newest) {
        put(encode_description(form_.head(newest), description_json(form_.description())));
        ++count_.descriptions;
    }

    void put(const Bytes& packet) {
        if (!going_on()) return;
        const auto reader = line_.framing() == EmulatedLine::Framing::stream
                                ? line_.send(stream_form(packet), stop_)
                                : line_.send(packet, stop_);
        if (!reader) {
            problem_ = reader.problem();
        } else if (reader.value() == EmulatedLine::Reader::gone) {
            count_.end = PlayCount::End::reader_gone;
        }
        pacer_.packet_sent();
    }

    const PlayWireForm& form_;
    EmulatedLine& line_;
    const std::atomic<bool>& stop_;
    LinePacer pacer_;
    PlayCount count_;
    std::optional<FrameStamp> first_;
    std::optional<Problem> problem_;
};

}  // namespace

Result<PlayCount> play(FrameSource& frames, const PlayWireForm& form, EmulatedLine& line, double speed,
                       const std::atomic<bool>& stop) {
    Player player(form, line, speed, stop);
    if (Outcome begun = player.begin(); !begun) return begun.problem();
    while (player.going_on()) {
        const auto state = frames.poll(player, std::chrono::milliseconds(0));
        if (!state) return state.problem();
        if (state.value() == SourceState::finished) break;
    }
    return player.finish();
}

}  // namespace footing
