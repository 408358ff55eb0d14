#include "acquisition/record/replay_source.h"

#include <algorithm>
#include <chrono>
#include <optional>
#include <thread>
#include <utility>
#include <variant>

#include "acquisition/frame/units.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/recording_reader.h"

namespace footing {

namespace {

constexpr std::size_t block_frames = 16384;
/// Handed out in one poll, so that a stop is never waited for long.
constexpr std::size_t most_frames_a_poll = 1024;

}  // namespace

struct ReplaySource::State {
    State(std::filesystem::path file, Pace how_fast, const Clock& time)
        : path(std::move(file)), pace(how_fast), clock(time) {}

    /// Makes sure that there is a frame at `next` in `block`, or that `ended` is set. Gaps met on the way are
    /// kept to be told before it.
    Outcome fetch() {
        while (next >= block.size() && !ended) {
            next = 0;
            block.stamps.clear();
            if (recording) {
                Result<FrameBlock> read = recording->read(position, block_frames);
                if (!read.ok()) return read.problem();
                block = std::move(read).value();
                position += block.size();
                ended = block.size() == 0;
                continue;
            }
            std::optional<JournalItem> item = journal->next();
            if (!item || std::holds_alternative<JournalEnd>(*item)) {
                ended = true;
            } else if (auto* frames = std::get_if<FrameBlock>(&*item)) {
                block = std::move(*frames);
            } else if (const auto* gap = std::get_if<Gap>(&*item)) {
                gaps.push_back(*gap);
            }
        }
        return Done{};
    }

    /// Tells the gaps that lie before the frame with this counter.
    void tell_gaps(std::uint64_t counter, FrameSink& sink) {
        while (gaps_told < gaps.size() && gaps[gaps_told].after_counter < counter) {
            const Gap& gap = gaps[gaps_told++];
            losses.lost += gap.frames_missing;
            sink.take_gap(gap);
        }
    }

    [[nodiscard]] bool is_due(const FrameStamp& stamp) const {
        if (pace == Pace::as_fast_as_possible) return true;
        return clock.steady_ns() - began_ns >=
               static_cast<std::int64_t>(stamp.device_time_us - first_time_us) * 1000;
    }

    std::filesystem::path path;
    Pace pace;
    const Clock& clock;
    std::optional<RecordingReader> recording;
    std::optional<JournalReader> journal;
    RecordingInfo info;
    FrameBlock block;
    std::size_t next = 0;
    std::uint64_t position = 0;
    std::vector<Gap> gaps;
    std::size_t gaps_told = 0;
    bool ended = false;
    bool begun = false;
    std::int64_t began_ns = 0;
    std::uint64_t first_time_us = 0;
    LossCounters losses;
};

ReplaySource::ReplaySource(std::filesystem::path path, Pace pace, const Clock& clock)
    : state_(std::make_unique<State>(std::move(path), pace, clock)) {}
ReplaySource::~ReplaySource() = default;

Result<DeviceDescription> ReplaySource::open(std::chrono::milliseconds) {
    State& state = *state_;
    if (looks_like_journal(state.path)) {
        Result<JournalReader> opened = JournalReader::open(state.path);
        if (!opened.ok()) return opened.problem();
        state.info = opened.value().info();
        if (!state.info.devices.empty()) {
            return Problem{
                ProblemKind::bad_input, state.path.string(),
                "is the journal of several devices, which are not joined yet",
                "make a recording of it: footing recover " + state.path.string() + " --out FILE.h5"};
        }
        state.journal.emplace(std::move(opened).value());
    } else {
        Result<RecordingReader> opened = RecordingReader::open(state.path);
        if (!opened.ok()) return opened.problem();
        state.info = opened.value().info();
        state.gaps = state.info.gaps;
        state.recording.emplace(std::move(opened).value());
    }
    state.losses = state.info.losses;
    state.losses.frames = 0;
    state.losses.lost = 0;
    return state.info.device;
}

Result<SourceState> ReplaySource::poll(FrameSink& sink, std::chrono::milliseconds patience) {
    State& state = *state_;
    const auto most_wait = std::chrono::nanoseconds(patience);
    for (std::size_t handed_out = 0; handed_out < most_frames_a_poll;) {
        if (Outcome done = state.fetch(); !done.ok()) return done.problem();
        if (state.next >= state.block.size()) {
            state.tell_gaps(~std::uint64_t{0}, sink);
            return SourceState::finished;
        }
        const FrameView frame = state.block.frame(state.next);
        if (!std::exchange(state.begun, true)) {
            state.began_ns = state.clock.steady_ns();
            state.first_time_us = frame.stamp.device_time_us;
        }
        if (!state.is_due(frame.stamp)) {
            if (handed_out > 0) break;
            const std::int64_t due_ns =
                state.began_ns +
                static_cast<std::int64_t>(frame.stamp.device_time_us - state.first_time_us) * 1000;
            const auto wait =
                std::chrono::nanoseconds(std::max<std::int64_t>(due_ns - state.clock.steady_ns(), 0));
            std::this_thread::sleep_for(std::min<std::chrono::nanoseconds>(wait, most_wait));
            if (!state.is_due(frame.stamp)) break;
        }
        state.tell_gaps(frame.stamp.counter, sink);
        sink.take_frame(frame);
        ++state.losses.frames;
        ++state.next;
        ++handed_out;
    }
    return SourceState::running;
}

LossCounters ReplaySource::losses() const {
    return state_->losses;
}
std::string ReplaySource::name() const {
    return state_->path.filename().string();
}
const RecordingInfo& ReplaySource::info() const {
    return state_->info;
}

}  // namespace footing
