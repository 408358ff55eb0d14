#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "viewer/panels/lesson_proof.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"
#include "viewer/panels/words.h"

namespace footing {

namespace {

/// What stands beside the proof, as far as it has room: what is missing first of all.
struct Beside {
    std::vector<CheckLine> lines;
    float width = 0.0F;
};

Beside beside_proof(const ScreenCanvas& canvas, const LessonDesk& desk, float room) {
    using About = CheckLine::About;
    Beside beside;
    for (CheckLine& line : checklist(desk)) {
        if (line.about == About::plates) continue;  // the line above says so
        const bool plain = line.state == CheckLine::State::good;
        const bool once = line.about == About::calibration || line.about == About::consent;
        if (once && plain) continue;  // what stays in order needs no words all day
        beside.lines.push_back(std::move(line));
    }
    const auto width = [&] {
        float sum = 0.0F;
        for (const CheckLine& line : beside.lines)
            sum += canvas.text_width(line.brief, TextSize::small, TextWeight::bold) + canvas.px(24);
        return sum;
    };
    while (width() > room && !beside.lines.empty()) {
        const auto good = std::ranges::find(beside.lines, CheckLine::State::good, &CheckLine::state);
        beside.lines.erase(good != beside.lines.end() ? good : beside.lines.end() - 1);
    }
    beside.width = width();
    return beside;
}

void draw_beside_proof(ScreenCanvas& canvas, Box box, const Beside& beside) {
    for (auto line = beside.lines.rbegin(); line != beside.lines.rend(); ++line) {
        const bool missing = line->state == CheckLine::State::missing;
        const TextWeight weight = missing ? TextWeight::bold : TextWeight::regular;
        const Box place = box.cut_right(canvas.text_width(line->brief, TextSize::small, weight) + 1.0F);
        canvas.text(place, line->brief, TextSize::small, missing ? Ink::alarm : Ink::quiet, Align::right,
                    weight);
        box.cut_right(canvas.px(24));
    }
}

}  // namespace

void draw_lesson_title(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("title");
    const LiveView& live = *state.desk->live;
    const std::string& student = live.lesson->facts.student;
    const LessonProof proof = lesson_proof(*state.desk);
    const bool runs = live.stage == LessonStage::running;
    // A long name has what the proof leaves, and a third at any rate.
    const Beside beside = runs ? beside_proof(canvas, *state.desk, box.width() * 0.66F)
                               : Beside{{}, canvas.text_width(one_line(live.source), TextSize::small)};
    const float proof_width =
        std::max(canvas.text_width(proof.words, TextSize::text, TextWeight::bold) + canvas.px(72),
                 beside.width + canvas.px(24));
    Box left = box;
    Box right = left.cut_right(std::clamp(proof_width, box.width() * 0.3F, box.width() * 0.7F));
    const float first_line = canvas.px(28);
    canvas.text(left.cut_top(first_line), student.empty() ? "student not named" : student, TextSize::heading,
                Ink::ink, Align::left, TextWeight::bold);
    const std::string& club = state.desk->club;
    const std::string& length = state.desk->length;
    const bool said = !club.empty() || !length.empty();
    canvas.text(left,
                said ? fmt::format("next swing: {} {}", club.empty() ? "any wedge" : club, length)
                     : "W sets the wedge, E the length",
                said ? TextSize::text : TextSize::small, said ? Ink::ink : Ink::quiet);

    Box line = right.cut_top(first_line);
    const bool alarm = proof.state == LessonProof::State::alarm;
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
    if (runs) {
        draw_beside_proof(canvas, right, beside);
    } else {
        canvas.text(right, live.source, TextSize::small, Ink::quiet, Align::right);
    }
    if (touch("file", box) == Touch::hovered) explain(one_line(live.file + " · " + live.calibration).c_str());
}

void draw_simulated(ScreenCanvas& canvas, const Box& box, const LessonDesk& desk) {
    canvas.enter("simulated");
    canvas.frame(box, Ink::alarm, 2.0F);
    const float half = canvas.px(6);
    const ImVec2 at{box.left + canvas.px(24), box.middle_y()};
    canvas.fill({at.x - half, at.y - half, at.x + half, at.y + half}, Ink::alarm);
    canvas.text({at.x + canvas.px(16), box.top, box.right - canvas.px(16), box.bottom},
                desk.student ? "Simulated golfer, not plates: none of it is the student's own swing"
                             : "Simulated golfer, not plates: nobody's swings",
                TextSize::heading, Ink::alarm, Align::left, TextWeight::bold);
}

void draw_lesson_alarm(ScreenCanvas& canvas, const Box& box, const std::string& words) {
    canvas.enter("alarm");
    canvas.fill(box, Ink::alarm);
    const float half = canvas.px(6);
    const ImVec2 at{box.left + canvas.px(24), box.middle_y()};
    canvas.fill({at.x - half, at.y - half, at.x + half, at.y + half}, Ink::paper);
    canvas.text({at.x + canvas.px(16), box.top, box.right - canvas.px(16), box.bottom}, words,
                TextSize::heading, Ink::paper, Align::left, TextWeight::bold);
}

}  // namespace footing
