#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

struct Proof {
    enum class Sound { good, alarm } sound = Sound::good;
    std::string words;
};

/// 12345678 as "12 345 678".
std::string grouped(std::uint64_t number) {
    std::string digits = std::to_string(number);
    for (auto at = static_cast<std::ptrdiff_t>(digits.size()) - 3; at > 0; at -= 3)
        digits.insert(static_cast<std::size_t>(at), " ");
    return digits;
}

Proof proof_of(const LiveView& live) {
    const RecordingProgress& progress = live.progress;
    switch (live.stage) {
        case LessonStage::looking_for_plates:
            return {Proof::Sound::good, "not recording yet"};
        case LessonStage::closing:
            return {Proof::Sound::good, "closing the recording"};
        case LessonStage::closed:
            return {Proof::Sound::good, "recording closed"};
        case LessonStage::failed:
            return {Proof::Sound::alarm, "NOT RECORDING"};
        case LessonStage::running:
            break;
    }
    if (progress.problem) return {Proof::Sound::alarm, "NOT RECORDING: " + progress.problem->what};
    if (progress.is_silent())
        return {Proof::Sound::alarm, fmt::format("STALLED: no frame for {:.1f} s", progress.newest_age_s)};
    for (const DeviceProgress& device : progress.devices) {
        if (device.is_silent())
            return {Proof::Sound::alarm, fmt::format("ONE PLATE STALLED for {:.1f} s", device.newest_age_s)};
    }
    return {Proof::Sound::good,
            fmt::format("recording {}  ·  {} frames, newest {:.0f} ms  ·  {:.1f} MB",
                        clock_words(progress.duration_s, 0), grouped(progress.frames_on_disk),
                        std::floor(progress.newest_age_s * 1000.0),
                        static_cast<double>(progress.bytes_on_disk) * 1e-6)};
}

std::string beside_proof(const LessonDesk& desk) {
    using About = CheckLine::About;
    std::string words;
    for (const CheckLine& line : checklist(desk)) {
        if (line.about == About::plates) continue;  // the line above says so
        const bool plain = line.state == CheckLine::State::good;
        const bool once = line.about == About::calibration || line.about == About::consent;
        if (once && plain) continue;  // what stays in order needs no words all day
        words += words.empty() ? "" : "  ·  ";
        words += line.about == About::calibration ? "not calibrated"
                 : line.about == About::consent   ? "consent not given"
                                                  : line.words;
    }
    return words;
}

}  // namespace

void draw_lesson_title(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("title");
    const LiveView& live = *state.desk->live;
    const std::string& student = live.lesson->facts.student;
    const Proof proof = proof_of(live);
    const std::string beside = live.stage == LessonStage::running ? beside_proof(*state.desk) : live.source;
    // A long name has what the proof leaves, and a third at any rate.
    const float proof_width = std::max(canvas.text_width(proof.words, TextSize::text, TextWeight::bold),
                                       canvas.text_width(one_line(beside), TextSize::small)) +
                              canvas.px(72);
    Box left = box;
    Box right = left.cut_right(std::clamp(proof_width, box.width() * 0.3F, box.width() * 0.7F));
    const float first_line = canvas.px(28);
    canvas.text(left.cut_top(first_line), student.empty() ? "student not named" : student, TextSize::heading,
                Ink::ink, Align::left, TextWeight::bold);
    const std::string& club = state.desk->club;
    const std::string& length = state.desk->length;
    canvas.text(left,
                club.empty() && length.empty()
                    ? "W sets the wedge, E the length"
                    : fmt::format("next: {} {}", club.empty() ? "any wedge" : club, length),
                TextSize::small, Ink::quiet);

    Box line = right.cut_top(first_line);
    const bool alarm = proof.sound == Proof::Sound::alarm;
    const float words = std::min(canvas.text_width(proof.words, TextSize::text, TextWeight::bold) + 1.0F,
                                 line.width() - canvas.px(28));
    Box text = line;
    if (alarm) text.right -= canvas.px(10);
    text.left = text.right - words;
    const ImVec2 at{text.left - canvas.px(16), line.middle_y()};
    if (alarm) {  // a square on a bar, where all is well a dot
        canvas.fill({at.x - canvas.px(10), line.top + canvas.px(2), line.right, line.bottom - canvas.px(2)},
                    Ink::alarm);
        const float half = canvas.px(5);
        canvas.fill({at.x - half, at.y - half, at.x + half, at.y + half}, Ink::paper);
    } else if (live.stage == LessonStage::running) {
        canvas.mark(at, MarkShape::dot, 5.0F, Ink::ink);
    } else {
        canvas.mark(at, MarkShape::ring, 5.0F, Ink::quiet);
    }
    canvas.text(text, proof.words, TextSize::text, alarm ? Ink::paper : Ink::ink, Align::right,
                alarm ? TextWeight::bold : TextWeight::regular);
    canvas.text(right, beside, TextSize::small, Ink::quiet, Align::right);
    if (touch("file", box) == Touch::hovered) explain(one_line(live.file + " · " + live.calibration).c_str());
}

}  // namespace footing
