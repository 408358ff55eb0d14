#include "acquisition/record/fold_devices.h"

#include <algorithm>
#include <deque>
#include <utility>
#include <vector>

#include "acquisition/join/frame_joiner.h"
#include "acquisition/record/salvage.h"

namespace footing {

namespace {

constexpr std::size_t most_waiting = 65'536;
constexpr std::size_t block_frames = 4096;

/// First: each device for itself, as it came.
class DevicePass final : public DeviceSink {
  public:
    DevicePass(RecordingWriter& writer, std::size_t devices) {
        for (std::size_t device = 0; device < devices; ++device) {
            devices_.emplace_back(
                [&writer, device](const FrameView& frame) { return writer.append_device(device, frame); });
        }
    }

    Outcome take_frame(std::size_t device, const FrameView& frame) override {
        return devices_.at(device).take(frame);
    }
    void take_gap(std::size_t device, const Gap& gap) override { devices_.at(device).take(gap); }

    [[nodiscard]] const Salvage& device(std::size_t device) const { return devices_[device]; }

  private:
    std::deque<Salvage> devices_;
};

/// Then: all together, by the clocks as fitted over the whole lesson.
class JoinPass final : public DeviceSink, private FrameSink {
  public:
    JoinPass(RecordingWriter& writer, const RecordingInfo& info, std::vector<ClockLine> clocks)
        : clocks_(std::move(clocks)),
          newest_(clocks_.size()),
          joiner_(values_of(info), most_waiting),
          joined_([&writer](const FrameView& frame) { return writer.append(frame); }) {}

    Outcome take_frame(std::size_t device, const FrameView& frame) override {
        std::optional<std::uint64_t>& newest = newest_.at(device);
        if (newest && frame.stamp.counter <= *newest) return Done{};
        newest = frame.stamp.counter;
        joiner_.take_frame(device, frame, clocks_[device].host_time_ns(frame.stamp.device_time_us), *this);
        return outcome_;
    }
    void take_gap(std::size_t device, const Gap& gap) override { joiner_.take_gap(device, gap); }

    Outcome finish() {
        joiner_.finish(*this);
        return outcome_;
    }
    [[nodiscard]] const Salvage& joined() const { return joined_; }

  private:
    static std::vector<std::size_t> values_of(const RecordingInfo& info) {
        std::vector<std::size_t> values;
        for (const JoinedDevice& device : info.devices)
            values.push_back(values_per_frame(device.device.layout));
        return values;
    }

    void take_frame(const FrameView& frame) override {
        if (outcome_.ok()) outcome_ = joined_.take(frame);
    }
    void take_gap(const Gap& gap) override { joined_.take(gap); }

    std::vector<ClockLine> clocks_;
    std::vector<std::optional<std::uint64_t>> newest_;
    FrameJoiner joiner_;
    Salvage joined_;
    Outcome outcome_ = Done{};
};

/// Reads one device's frames one after the other, over what is damaged.
class DeviceReading {
  public:
    DeviceReading(RecordingReader& reader, std::size_t device, std::vector<DamagedStretch> damaged)
        : reader_(reader), device_(device), damaged_(std::move(damaged)) {}

    /// Makes sure that there is a frame, or that there is none any more.
    Outcome fetch() {
        while (next_ >= block_.size() && position_ < frames()) {
            next_ = 0;
            block_ = {};
            if (stretch_ < damaged_.size() && position_ == damaged_[stretch_].first_frame) {
                position_ += damaged_[stretch_++].frame_count;
                continue;
            }
            const std::uint64_t end = stretch_ < damaged_.size() ? damaged_[stretch_].first_frame : frames();
            Result<FrameBlock> read = reader_.read_device(
                device_, position_,
                static_cast<std::size_t>(std::min<std::uint64_t>(end - position_, block_frames)));
            if (!read.ok()) return read.problem();
            block_ = std::move(read).value();
            position_ += block_.size();
        }
        return Done{};
    }
    [[nodiscard]] bool has_frame() const { return next_ < block_.size(); }
    [[nodiscard]] std::int64_t host_time_ns() const { return block_.stamps[next_].host_time_ns; }

    Outcome hand_out(DeviceSink& sink) {
        const FrameView frame = block_.frame(next_++);
        const std::vector<Gap>& gaps = reader_.info().devices[device_].gaps;
        while (gaps_told_ < gaps.size() && gaps[gaps_told_].after_counter < frame.stamp.counter)
            sink.take_gap(device_, gaps[gaps_told_++]);
        return sink.take_frame(device_, frame);
    }

  private:
    [[nodiscard]] std::uint64_t frames() const { return reader_.info().devices[device_].frame_count; }

    RecordingReader& reader_;
    std::size_t device_;
    std::vector<DamagedStretch> damaged_;
    std::size_t stretch_ = 0;
    std::uint64_t position_ = 0;
    FrameBlock block_;
    std::size_t next_ = 0;
    std::size_t gaps_told_ = 0;
};

std::uint64_t frames_missing_in(const std::vector<Gap>& gaps) {
    std::uint64_t missing = 0;
    for (const Gap& gap : gaps) missing += gap.frames_missing;
    return missing;
}

}  // namespace

Result<DevicesFolded> fold_devices(const DeviceFeed& feed, RecordingWriter& writer, RecordingInfo& info) {
    DevicesFolded folded;
    DevicePass devices(writer, info.devices.size());
    if (Outcome done = feed(devices); !done.ok()) return done.problem();
    std::vector<ClockLine> clocks;
    for (std::size_t i = 0; i < info.devices.size(); ++i) {
        const Salvage& salvage = devices.device(i);
        JoinedDevice& device = info.devices[i];
        clocks.push_back(salvage.clock_line());
        device.clock = clock_fit_of(clocks.back());
        device.gaps = salvage.gaps();
        device.frame_count = salvage.frames();
        device.losses.frames = salvage.frames();
        device.losses.lost = std::max(device.losses.lost, frames_missing_in(device.gaps));
        folded.device_frames += salvage.frames();
        folded.frames_in_holes += salvage.frames_in_holes();
        if (salvage.newest())
            folded.newest_host_ns = std::max(folded.newest_host_ns, salvage.newest()->host_time_ns);
    }
    JoinPass together(writer, info, std::move(clocks));
    if (Outcome done = feed(together); !done.ok()) return done.problem();
    if (Outcome done = together.finish(); !done.ok()) return done.problem();
    const Salvage& joined = together.joined();
    folded.frames = joined.frames();
    folded.duration_s = joined.duration_s();
    info.frame_count = joined.frames();
    info.losses.frames = joined.frames();
    info.gaps = joined.gaps();
    info.clock = info.devices.front().clock;
    return folded;
}

DeviceFeed feed_of(RecordingReader& reader, const RecordingCheck& check) {
    return [&reader, &check](DeviceSink& sink) -> Outcome {
        std::vector<DeviceReading> devices;
        for (std::size_t i = 0; i < reader.info().devices.size(); ++i)
            devices.emplace_back(reader, i, check.devices.at(i));
        while (true) {
            DeviceReading* next = nullptr;
            for (DeviceReading& device : devices) {
                if (Outcome done = device.fetch(); !done.ok()) return done;
                if (!device.has_frame()) continue;
                if (next == nullptr || device.host_time_ns() < next->host_time_ns()) next = &device;
            }
            if (next == nullptr) return Done{};
            if (Outcome done = next->hand_out(sink); !done.ok()) return done;
        }
    };
}

}  // namespace footing
