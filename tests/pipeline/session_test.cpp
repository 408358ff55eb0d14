#include "acquisition/pipeline/session.h"

#include <doctest/doctest.h>

#include <array>
#include <thread>

#include "tests/decode/collecting_sink.h"

using namespace footing;
using namespace std::chrono_literals;

namespace {

/// Frames from a script, as fast as they are taken.
class ScriptedSource final : public FrameSource {
  public:
    struct Script {
        std::uint64_t frames = 1000;
        std::uint64_t frames_a_poll = 50;
        std::optional<Problem> refuse_open;
        std::optional<std::uint64_t> fail_after;  ///< frames
        std::uint64_t gap_after = ~0ULL;          ///< frames; three are missing
        SourceState at_end = SourceState::finished;
    };

    explicit ScriptedSource(Script script) : script_(std::move(script)) {}

    Result<DeviceDescription> open(std::chrono::milliseconds) override {
        if (script_.refuse_open) return *script_.refuse_open;
        DeviceDescription device;
        device.rate_hz = 1000.0;
        device.layout.plates = {{"left", {}, {{}, {}}}};
        return device;
    }

    Result<SourceState> poll(FrameSink& sink, std::chrono::milliseconds patience) override {
        for (std::uint64_t i = 0; i < script_.frames_a_poll && sent_ < script_.frames; ++i) {
            if (script_.fail_after == sent_) {
                return Problem{ProblemKind::device_failed, "the script", "it says so", ""};
            }
            if (sent_ == script_.gap_after) {
                sink.take_gap({counter_ - 1, 3, (counter_ - 1) * 1000, (counter_ + 3) * 1000});
                counter_ += 3;
                losses_.lost += 3;
            }
            const std::array<std::int32_t, 2> counts = {static_cast<std::int32_t>(counter_), 7};
            sink.take_frame({{counter_, counter_ * 1000, static_cast<std::int64_t>(counter_), 0},
                             std::span<const std::int32_t>(counts)});
            ++counter_;
            ++sent_;
            ++losses_.frames;
        }
        if (sent_ < script_.frames) return SourceState::running;
        if (script_.at_end != SourceState::finished) std::this_thread::sleep_for(patience);
        return script_.at_end;
    }

    [[nodiscard]] LossCounters losses() const override { return losses_; }
    [[nodiscard]] std::string name() const override { return "the script"; }

  private:
    Script script_;
    std::uint64_t sent_ = 0;
    std::uint64_t counter_ = 1;
    LossCounters losses_;
};

void wait_for(const Session& session, SessionState state) {
    while (session.state() != state) std::this_thread::sleep_for(1ms);
}

}  // namespace

TEST_CASE("A session brings every frame and gap to both queues and ends when the source does") {
    ScriptedSource::Script script;
    script.gap_after = 500;
    SessionOptions options;
    options.least_live_frames = 2000;
    Session session(std::make_unique<ScriptedSource>(script), options);
    CHECK(session.state() == SessionState::idle);
    const auto device = session.start(1s);
    REQUIRE(device.ok());
    CHECK(device.value().rate_hz == 1000.0);
    wait_for(session, SessionState::finished);
    CollectingSink recorder;
    CollectingSink screen;
    CHECK(session.recorder_queue().drain(recorder) == 1000);
    CHECK(session.live_queue().drain(screen) == 1000);
    CHECK(recorder.stamps == screen.stamps);
    CHECK(recorder.values == screen.values);
    REQUIRE(recorder.gaps.size() == 1);
    CHECK(recorder.gaps == screen.gaps);
    CHECK(recorder.gaps[0] == Gap{500, 3, 500'000, 504'000});
    CHECK(session.losses().frames == 1000);
    CHECK(session.losses().lost == 3);
    CHECK(session.losses().queue_overflow == 0);
    CHECK(session.newest_host_time_ns() == 1003);
    CHECK(session.name() == "the script");
    CHECK_FALSE(session.problem().has_value());
    session.stop();
    session.stop();
}

TEST_CASE("What the recorder has no room for is counted, and one gap stands in its place") {
    ScriptedSource::Script script;
    script.frames = 5000;
    script.gap_after = 4000;
    SessionOptions options;
    options.recorder_depth_s = 0.0;
    options.least_recorder_bytes = 20'000;
    Session session(std::make_unique<ScriptedSource>(script), options);
    REQUIRE(session.start(1s).ok());
    wait_for(session, SessionState::finished);
    const std::uint64_t overflow = session.losses().queue_overflow;
    CHECK(overflow > 4000);
    CollectingSink recorder;
    session.recorder_queue().drain(recorder);
    CHECK(recorder.stamps.size() + overflow == 5000);
    // The first frames are there, whole and in order: nothing was overwritten.
    for (std::size_t i = 0; i < recorder.stamps.size(); ++i) CHECK(recorder.stamps[i].counter == i + 1);
}

TEST_CASE("After an overflow the recorder is told of the hole before the next frame") {
    ScriptedSource::Script script;
    script.frames = 3'000'000;
    script.frames_a_poll = 1;
    SessionOptions options;
    options.recorder_depth_s = 0.0;
    options.least_recorder_bytes = 5000;
    Session session(std::make_unique<ScriptedSource>(script), options);
    REQUIRE(session.start(1s).ok());
    CollectingSink recorder;
    while (recorder.gaps.size() < 5 && session.state() != SessionState::finished) {
        std::this_thread::sleep_for(1ms);
        session.recorder_queue().drain(recorder);
    }
    session.stop();
    session.recorder_queue().drain(recorder);
    REQUIRE(recorder.gaps.size() >= 5);
    std::uint64_t next = 1;
    for (const auto& event : recorder.events) {
        if (event.what == CollectingSink::Event::What::gap) {
            CHECK(event.gap.after_counter == next - 1);
            next += event.gap.frames_missing;
        } else {
            REQUIRE(event.stamp.counter == next);
            ++next;
        }
    }
}

TEST_CASE("A session that may wait loses nothing however small its queues") {
    ScriptedSource::Script script;
    script.frames = 20'000;
    SessionOptions options;
    options.full_queue = FullQueue::wait_for_both;
    options.recorder_depth_s = 0.0;
    options.least_recorder_bytes = 4000;
    options.live_depth_s = 0.0;
    options.least_live_frames = 16;
    Session session(std::make_unique<ScriptedSource>(script), options);
    REQUIRE(session.start(1s).ok());
    CollectingSink recorder;
    CollectingSink screen;
    while (recorder.stamps.size() < script.frames || screen.stamps.size() < script.frames) {
        session.recorder_queue().drain(recorder);
        session.live_queue().drain(screen);
    }
    CHECK(recorder.stamps == screen.stamps);
    CHECK(session.live_queue().given_way() == 0);
    CHECK(session.losses().queue_overflow == 0);
}

TEST_CASE("A source that cannot be opened, or fails later, is told as a problem") {
    ScriptedSource::Script refused;
    refused.refuse_open =
        Problem{ProblemKind::device_failed, "port 7", "another program holds it", "close it"};
    Session never(std::make_unique<ScriptedSource>(refused));
    const auto device = never.start(1s);
    REQUIRE_FALSE(device.ok());
    CHECK(device.problem().place == "port 7");
    CHECK(never.state() == SessionState::idle);

    ScriptedSource::Script failing;
    failing.fail_after = 120;
    Session session(std::make_unique<ScriptedSource>(failing));
    REQUIRE(session.start(1s).ok());
    wait_for(session, SessionState::failed);
    REQUIRE(session.problem().has_value());
    CHECK(session.problem()->what == "it says so");
    CollectingSink recorder;
    CHECK(session.recorder_queue().drain(recorder) == 120);
    session.stop();
    CHECK(session.state() == SessionState::failed);
}

TEST_CASE("A silent source shows, and stop ends the session") {
    ScriptedSource::Script script;
    script.at_end = SourceState::waiting;
    Session session(std::make_unique<ScriptedSource>(script));
    REQUIRE(session.start(1s).ok());
    while (session.losses().frames < script.frames || session.state() != SessionState::waiting) {
        std::this_thread::sleep_for(1ms);
    }
    session.stop();
    CHECK(session.state() == SessionState::finished);
    CollectingSink recorder;
    CHECK(session.recorder_queue().drain(recorder) == 1000);
}
