#include "acquisition/join/frame_joiner.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace footing {

FrameJoiner::FrameJoiner(std::vector<std::size_t> values, std::size_t most_waiting)
    : most_waiting_(most_waiting) {
    std::size_t first = 0;
    for (const std::size_t count : values) {
        Device device;
        device.values = count;
        device.first = first;
        first += count;
        devices_.push_back(std::move(device));
    }
    joined_.resize(first);
    counts_.resize(first);
}

void FrameJoiner::take_frame(std::size_t device, const FrameView& frame, std::int64_t host_ns,
                             FrameSink& sink) {
    Device& of = devices_.at(device);
    if (value_count(frame.values) != of.values) return;
    physical_ = std::holds_alternative<std::span<const double>>(frame.values);
    Waiting waiting;
    if (!spare_.empty()) {
        waiting.values = std::move(spare_.back());
        spare_.pop_back();
    }
    waiting.values.resize(of.values);
    std::visit([&](const auto& values) { std::copy(values.begin(), values.end(), waiting.values.begin()); },
               frame.values);
    waiting.stamp = frame.stamp;
    // A fit that is renewed may set time back a little; the order of a device's frames stays.
    waiting.host_ns = of.any ? std::max(host_ns, of.newest_ns + 1) : host_ns;
    waiting.starts_anew = std::exchange(of.starts_anew, false);
    waiting.restart = of.restart;
    of.newest_ns = waiting.host_ns;
    of.any = true;
    of.frames.push_back(std::move(waiting));
    if (device != 0 && of.frames.size() > most_waiting_) pop(of);
    while (!devices_.front().frames.empty()) {
        const bool full = devices_.front().frames.size() > most_waiting_;
        if (step(sink, full) == Step::must_wait) break;
    }
}

void FrameJoiner::take_gap(std::size_t device, const Gap& gap) {
    if (gap.frames_missing != 0) return;  // the counters show it
    devices_.at(device).starts_anew = true;
    devices_.at(device).restart = gap;
}

void FrameJoiner::finish(FrameSink& sink) {
    while (!devices_.front().frames.empty()) {
        if (step(sink, true) == Step::must_wait) break;
    }
}

FrameJoiner::Step FrameJoiner::step(FrameSink& sink, bool over) {
    Device& base = devices_.front();
    const std::int64_t at_ns = base.frames.front().host_ns;
    Step verdict = Step::handed_out;
    for (std::size_t device = 1; device < devices_.size(); ++device) {
        const Step seen = look_at(devices_[device], at_ns, over);
        if (seen == Step::must_wait) return seen;
        if (seen == Step::left_out) verdict = seen;
    }
    if (base.frames.front().starts_anew) sink.take_gap(base.frames.front().restart);
    if (verdict == Step::handed_out) {
        hand_out(base.frames.front(), sink);
    } else {
        ++left_out_;
    }
    pop(base);
    return verdict;
}

/// Lets go of the frames that are over, and says whether there is a pair around the instant.
FrameJoiner::Step FrameJoiner::look_at(Device& device, std::int64_t at_ns, bool over) {
    while (device.frames.size() >= 2 && device.frames[1].host_ns <= at_ns) pop(device);
    if (device.frames.empty()) return over ? Step::left_out : Step::must_wait;
    const Waiting& before = device.frames.front();
    if (before.host_ns > at_ns) return Step::left_out;
    if (before.host_ns == at_ns) return Step::handed_out;
    if (device.frames.size() < 2) return over ? Step::left_out : Step::must_wait;
    const Waiting& after = device.frames[1];
    const bool neighbours = after.stamp.counter == before.stamp.counter + 1 && !after.starts_anew;
    return neighbours ? Step::handed_out : Step::left_out;
}

void FrameJoiner::pop(Device& device) {
    device.inputs = static_cast<std::uint16_t>(device.inputs | device.frames.front().stamp.inputs);
    spare_.push_back(std::move(device.frames.front().values));
    device.frames.pop_front();
}

void FrameJoiner::hand_out(const Waiting& base, FrameSink& sink) {
    FrameStamp stamp = base.stamp;
    std::copy(base.values.begin(), base.values.end(), joined_.begin());
    for (std::size_t i = 1; i < devices_.size(); ++i) {
        Device& device = devices_[i];
        const Waiting& before = device.frames.front();
        stamp.inputs = static_cast<std::uint16_t>(stamp.inputs | before.stamp.inputs | device.inputs);
        device.inputs = 0;
        const auto place = joined_.begin() + static_cast<std::ptrdiff_t>(device.first);
        if (before.host_ns == base.host_ns) {
            std::copy(before.values.begin(), before.values.end(), place);
            continue;
        }
        const Waiting& after = device.frames[1];
        const double part = static_cast<double>(base.host_ns - before.host_ns) /
                            static_cast<double>(after.host_ns - before.host_ns);
        std::transform(before.values.begin(), before.values.end(), after.values.begin(), place,
                       [part](double a, double b) { return a + part * (b - a); });
    }
    if (physical_) {
        sink.take_frame({stamp, std::span<const double>(joined_)});
        return;
    }
    std::transform(joined_.begin(), joined_.end(), counts_.begin(),
                   [](double value) { return static_cast<std::int32_t>(std::lround(value)); });
    sink.take_frame({stamp, std::span<const std::int32_t>(counts_)});
}

}  // namespace footing
