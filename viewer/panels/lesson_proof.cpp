#include "viewer/panels/lesson_proof.h"

#include <fmt/format.h>

#include <cmath>
#include <cstddef>
#include <cstdint>

#include "viewer/panels/view_state.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// 12345678 as "12 345 678".
std::string grouped(std::uint64_t number) {
    std::string digits = std::to_string(number);
    for (auto at = static_cast<std::ptrdiff_t>(digits.size()) - 3; at > 0; at -= 3)
        digits.insert(static_cast<std::size_t>(at), " ");
    return digits;
}

}  // namespace

LessonProof lesson_proof(const LessonDesk& desk) {
    using State = LessonProof::State;
    const LiveView& live = *desk.live;
    if (desk.student && desk.student->consent == Consent::refused)
        return {State::alarm, "STOPPED: does not want to be recorded"};
    const RecordingProgress& progress = live.progress;
    switch (live.stage) {
        case LessonStage::looking_for_plates:
            return {State::good, "not recording yet"};
        case LessonStage::closing:
            return {State::good, "closing the recording"};
        case LessonStage::closed:
            return {State::good, "recording closed"};
        case LessonStage::failed:
            return {State::alarm, "NOT RECORDING"};
        case LessonStage::running:
            break;
    }
    if (progress.problem) return {State::alarm, "NOT RECORDING: " + progress.problem->what};
    if (progress.is_silent())
        return {State::alarm, fmt::format("STALLED: no frame for {:.1f} s", progress.newest_age_s)};
    for (const DeviceProgress& device : progress.devices) {
        if (device.is_silent())
            return {State::alarm, fmt::format("ONE PLATE STALLED for {:.1f} s", device.newest_age_s)};
    }
    return {State::good, fmt::format("recording {}  ·  {} frames, newest {:.0f} ms  ·  {:.1f} MB",
                                     clock_words(progress.duration_s, 0), grouped(progress.frames_on_disk),
                                     std::floor(progress.newest_age_s * 1000.0),
                                     static_cast<double>(progress.bytes_on_disk) * 1e-6)};
}

std::optional<std::string> lesson_alarm(const ViewState& state) {
    if (!state.desk || !state.desk->live) return std::nullopt;
    const LessonProof proof = lesson_proof(*state.desk);
    if (proof.state == LessonProof::State::good) return std::nullopt;
    return proof.words;
}

}  // namespace footing
