#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>
#include <vector>

#include "analysis/report/swing_figure.h"
#include "viewer/panels/grown.h"
#include "viewer/panels/panels.h"

namespace footing {

namespace {

/// A sentence about sway and where the weight is between heels and toes; the latter from the plates' middle.
std::string steadiness_words(const SetUpReading& now) {
    std::string words;
    if (now.sway_m) {
        const double mm = *now.sway_m * 1000.0;
        words = fmt::format("{}  ·  sways {}", now.stance == Stance::still ? "steady" : "moving",
                            mm < 1.0 ? "less than 1 mm" : fmt::format("{:.0f} mm", mm));
    }
    if (now.cop_m) {
        const double mm = now.cop_m->y_m * 1000.0;
        const std::string side = std::abs(mm) < 1.0 ? "between heels and toes"
                                                    : fmt::format("{:.0f} mm towards the {}", std::abs(mm),
                                                                  mm > 0.0 ? "toes" : "heels");
        words += (words.empty() ? "" : "  ·  ") + side;
    }
    return words;
}

/// The rule on the stance's axis, the band through it, and the plumb line: it hangs from where the weight is
/// now, and its bob comes after.
void draw_plumb(ScreenCanvas& canvas, const Box& box, const LessonDesk& desk) {
    const LiveView& live = *desk.live;
    const Box names{box.left, box.top, box.right, box.top + canvas.px(24)};
    canvas.text(names, "trail foot", TextSize::text, Ink::trail);
    canvas.text(names, "lead foot → target", TextSize::text, Ink::lead, Align::right);
    const float left = box.left + canvas.px(16);
    const float right = box.right - canvas.px(16);
    const auto x_of = [&](double share) {
        return left + static_cast<float>(std::clamp(share, 0.0, 1.0)) * (right - left);
    };
    const float top = names.bottom + canvas.px(4);
    const float rule = box.bottom - canvas.px(32);
    const TargetBand& band = live.lesson->band;
    canvas.fill({x_of(band.low), top, x_of(band.high), rule}, Ink::band);
    for (const double edge : {band.low, band.high})
        canvas.line({x_of(edge), top}, {x_of(edge), rule}, Ink::band_edge);
    canvas.line({left, rule}, {right, rule}, Ink::ink, 1.5F);
    for (int percent = 0; percent <= 100; percent += 10) {
        const float x = x_of(percent / 100.0);
        canvas.line({x, rule}, {x, rule + canvas.px(6)}, Ink::ink);
        const float half = canvas.px(32);
        canvas.text({x - half, rule + canvas.px(8), x + half, box.bottom},
                    percent == 100 ? "100 %" : std::to_string(percent), TextSize::small, Ink::quiet,
                    Align::middle);
    }
    const SetUpReading& now = live.set_up;
    if (!now.share || !now.bob_share) return;
    const ImVec2 hook{x_of(*now.share), top};
    const ImVec2 bob{x_of(*now.bob_share), rule - canvas.px(16)};
    canvas.line(hook, bob, Ink::ink, 2.0F);
    canvas.mark(hook, MarkShape::dot, 5.0F, Ink::ink);
    const float wide = canvas.px(9);
    canvas.list().AddTriangleFilled({bob.x - wide, bob.y - canvas.px(10)},
                                    {bob.x + wide, bob.y - canvas.px(10)}, {bob.x, rule},
                                    canvas.colour(Ink::ink));
}

/// The height of lines that are all drawn alike: as `wanted`, or less, so that the widest has room. One that
/// is much too wide is drawn smaller by itself.
float line_height(const ScreenCanvas& canvas, const std::vector<CheckLine>& lines, float width,
                  float wanted) {
    const float heading = canvas.text_height(TextSize::heading);
    float fits = wanted;
    for (const CheckLine& line : lines) {
        const float wide = canvas.text_width(one_line(line.words), TextSize::heading, TextWeight::bold);
        fits = std::min(fits, heading * width / std::max(wide, 1.0F));
    }
    return std::floor(std::max({fits, 0.6F * wanted, heading}));
}

void draw_checklist(ScreenCanvas& canvas, Box box, const std::vector<CheckLine>& lines, const Grown& grown) {
    const float row_height = std::floor(std::min(
        grown.words_px(56), box.height() / static_cast<float>(std::max<std::size_t>(lines.size(), 1))));
    const float mark_width = grown.px(40);
    const float height = line_height(canvas, lines, box.width() - mark_width, 0.66F * row_height);
    for (const CheckLine& line : lines) {
        Box row = box.cut_top(row_height);
        const Box mark = row.cut_left(mark_width);
        const ImVec2 at{mark.left + grown.px(12), row.top + height / 2.0F};
        const bool missing = line.state == CheckLine::State::missing;
        const float half = grown.px(8);
        if (missing) {
            canvas.fill({at.x - half, at.y - half, at.x + half, at.y + half}, Ink::alarm);
        } else {
            canvas.mark(at, line.state == CheckLine::State::good ? MarkShape::dot : MarkShape::ring,
                        half / canvas.scale(), Ink::ink);
        }
        const Ink ink = missing ? Ink::alarm : line.state == CheckLine::State::good ? Ink::quiet : Ink::ink;
        canvas.large_text({row.left, row.top, row.right, row.top + height}, line.words,
                          ScreenCanvas::LargeFace::words, ink);
    }
}

/// What stands there while there is no set-up to show: plates, zero, weight, disk, and what to do next.
void draw_getting_ready(ScreenCanvas& canvas, Box box, const ViewState& state) {
    const LessonDesk& desk = *state.desk;
    const LiveView& live = *desk.live;
    const Grown grown(box, state);
    std::string head = "Step on";
    std::string below = "The next set-up shows as soon as somebody stands there.";
    if (desk.student && desk.student->consent == Consent::refused) {
        head = "Recording stops";
        below = "The student does not want to be recorded. What was recorded until now is kept.";
    } else if (live.stage == LessonStage::looking_for_plates) {
        head = "Looking for the plates";
        below = live.hint.empty() ? live.source : fmt::format("{:.0f} s  ·  {}", live.waited_s, live.hint);
    } else if (live.stage == LessonStage::closing) {
        head = "Closing the recording";
        below = "All of it is on the disk already.";
    } else if (live.stage == LessonStage::failed) {
        head = "The lesson cannot go on";
        below = live.problem ? sentence(*live.problem) : "";
    } else if (live.progress.is_partly_silent() && !live.progress.is_silent()) {
        head = "One plate is silent";
        below = "Check its power and cable; the other one is recorded, the share comes back with it.";
    } else if (live.progress.is_silent()) {
        head = "The plates are silent";
        below = "Check power and cable; recording goes on as soon as they are back.";
    } else if (!live.zero_age_s && live.zero_advice == ZeroAdvice::none_yet) {
        head = "Leave the plates empty";
        below = "A second is enough for the zero.";
    }
    canvas.large_text(box.cut_top(grown.words_px(112)), head, ScreenCanvas::LargeFace::words, Ink::ink);
    const float wide = canvas.text_width(one_line(below), TextSize::heading, TextWeight::bold);
    const float large = grown.words_px(34);
    if (wide * large / canvas.text_height(TextSize::heading) <= box.width()) {
        canvas.large_text(box.cut_top(large), below, ScreenCanvas::LargeFace::words, Ink::quiet);
    } else {
        box.top = canvas.paragraph({box.left, box.top, box.right, box.top + canvas.px(112)}, below,
                                   TextSize::heading, Ink::ink);
    }
    box.cut_top(grown.px(24));
    const bool to_be_ready =
        live.stage == LessonStage::running || live.stage == LessonStage::looking_for_plates;
    if (to_be_ready) draw_checklist(canvas, box, checklist(desk), grown);
}

/// How many frames are lost and what helps, where else the steadiness stands.
void draw_loss(ScreenCanvas& canvas, Box box, const Grown& grown, const LiveView& live) {
    const bool all_room = live.set_up.stance == Stance::moving;  // no verdict stands there
    box.cut_top(grown.px(8));
    const std::string percent = fmt::format("{:.0f} % of the frames do not come.", 100.0 * live.recent_loss);
    const char* remedy = "Use a cable, or a quieter network.";
    if (all_room) {
        canvas.large_text(box.cut_top(grown.px(52)), percent, ScreenCanvas::LargeFace::words, Ink::alarm);
        canvas.large_text(box.cut_top(grown.px(52)), remedy, ScreenCanvas::LargeFace::words, Ink::alarm);
    } else {
        canvas.large_text(box.cut_top(grown.px(30)), percent + " " + remedy, ScreenCanvas::LargeFace::words,
                          Ink::alarm);
    }
}

}  // namespace

void draw_set_up(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("set-up");
    const LiveView& live = *state.desk->live;
    const SetUpReading& now = live.set_up;
    if (live.stage != LessonStage::running || now.stance == Stance::nobody || live.progress.is_silent() ||
        live.progress.is_partly_silent())
        return draw_getting_ready(canvas, box, state);

    // Read from 3 m: all of this grows with the window, not with the design's slower scale.
    const Grown sizes(box, state);
    const auto grown = [&sizes](float design_px) { return sizes.px(design_px); };
    Box rest = box;
    Box head = rest.cut_top(grown(306));
    rest.cut_top(canvas.px(8));
    const std::optional<double> share = now.settled ? std::optional(now.settled->value) : now.share;
    Box figure = head.cut_left(grown(464));
    const Box unit_words = figure.cut_bottom(grown(30));
    const std::string number = share ? fmt::format("{:.0f}", *share * 100.0) : "–";
    canvas.large_text(figure, number, ScreenCanvas::LargeFace::digits, Ink::ink);
    canvas.large_text({unit_words.left + grown(8), unit_words.top, unit_words.right, unit_words.bottom},
                      "% on the lead foot", ScreenCanvas::LargeFace::words, Ink::ink);
    head.cut_left(grown(24));

    const SetUpWords words = set_up_words(live);
    head.cut_top(grown(12));
    Box first = head.cut_top(grown(124));
    if (words.verdict) {
        const Box mark = first.cut_left(grown(88));
        canvas.mark({mark.left + grown(36), mark.top + grown(64)}, mark_of(*words.verdict),
                    grown(30) / canvas.scale(), Ink::ink);
    }
    canvas.large_text(first, words.first, ScreenCanvas::LargeFace::words, Ink::ink);
    if (!words.second.empty())
        canvas.large_text(head.cut_top(grown(124)), words.second, ScreenCanvas::LargeFace::words, Ink::ink);
    if (is_lossy(live)) {
        draw_loss(canvas, head, sizes, live);
    } else {
        head.cut_top(grown(8));
        canvas.large_text(head.cut_top(grown(30)), steadiness_words(now), ScreenCanvas::LargeFace::words,
                          Ink::quiet);
    }
    draw_plumb(canvas, rest, *state.desk);
}

}  // namespace footing
