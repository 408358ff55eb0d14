#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "analysis/report/drawn_sample.h"
#include "analysis/report/gap_marks.h"
#include "analysis/report/number_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"

namespace footing {

namespace {

/// Runs of samples that belong together: all measured, or all bridged over lost frames.
struct Run {
    std::vector<FigurePoint> points;
    LineStyle style = LineStyle::solid;
};

/// A bridged stretch that is no longer than a dash looks like the line beside it, and is drawn with it: of a
/// lossy line there are hundreds.
std::vector<Run> without_short_dashes(std::vector<Run> runs, double dash_px) {
    std::vector<Run> drawn;
    for (Run& run : runs) {
        const double along = std::hypot(run.points.back().x - run.points.front().x,
                                        run.points.back().y - run.points.front().y);
        if (along < dash_px) run.style = LineStyle::solid;
        const bool goes_on = !drawn.empty() && drawn.back().style == run.style &&
                             drawn.back().points.back().x == run.points.front().x &&
                             drawn.back().points.back().y == run.points.front().y;
        if (!goes_on) {
            drawn.push_back(std::move(run));
            continue;
        }
        std::vector<FigurePoint>& points = drawn.back().points;
        points.insert(points.end(), run.points.begin() + 1, run.points.end());
    }
    return drawn;
}

std::vector<Run> runs_of(const SwingPicture& picture, const Swing& swing) {
    const LoadTrace& trace = picture.lesson.trace;
    const double zero = zero_of(swing);
    std::vector<Run> runs;
    bool broken = true;
    const std::size_t end = sample_from(trace, swing.to_s);
    for (std::size_t i = sample_from(trace, swing.from_s); i < end; ++i) {
        const double share = drawn_share(picture.lesson, i);
        if (!known(share)) {
            broken = true;
            continue;
        }
        const FigurePoint point{picture.scale.x_of_share(share), picture.scale.y_of(trace.time_s[i] - zero)};
        const bool bridged = i < trace.bridged.size() && trace.bridged[i] != 0;
        const LineStyle style = bridged ? LineStyle::dashed : LineStyle::solid;
        if (broken || runs.back().style != style) {
            Run run{{}, style};
            if (!broken) run.points.push_back(runs.back().points.back());
            runs.push_back(std::move(run));
        }
        runs.back().points.push_back(point);
        broken = false;
    }
    constexpr double dash_px = 4.0;
    return without_short_dashes(std::move(runs), picture.px(dash_px));
}

struct EventRow {
    const char* name;
    std::optional<Event> SwingEvents::*event;
    std::optional<ShareValue> SwingShares::*share;
    int importance;
    bool judged;  ///< carries a verdict mark, else a plain dot
};

// Impact is what the coach came for, then where the weight was lowest, then where it began.
constexpr EventRow event_rows[] = {
    {"address", &SwingEvents::address, &SwingShares::address, 4, true},
    {"takeaway", &SwingEvents::takeaway, nullptr, 1, false},
    {"turnaround", &SwingEvents::turnaround, &SwingShares::turnaround, 5, true},
    {"top", &SwingEvents::top, &SwingShares::top, 2, false},
    {"impact", &SwingEvents::impact, &SwingShares::impact, 6, true},
    {"finish", &SwingEvents::finish, &SwingShares::finish, 3, true},
};

/// Null when the event carries no share, or it is not known.
const ShareValue* share_of(const Swing& swing, const EventRow& row) {
    if (row.share == nullptr) return nullptr;
    const auto& share = swing.lead_share.*row.share;
    return share ? &*share : nullptr;
}

double share_at_time(const LessonResult& lesson, double time_s) {
    const std::size_t sample = sample_from(lesson.trace, time_s);
    return sample < lesson.trace.size() ? drawn_share(lesson, sample) : unknown;
}

}  // namespace

MarkShape mark_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::inside:
            return MarkShape::diamond;
        case Verdict::below:
            return MarkShape::triangle_left;
        case Verdict::above:
            return MarkShape::triangle_right;
        case Verdict::too_close:
            return MarkShape::diamond_hollow;
    }
    return MarkShape::diamond_hollow;
}

MarkShape mark_towards(Verdict verdict, TargetSide target_side) {
    const MarkShape shape = mark_of(verdict);
    if (target_side == TargetSide::right) return shape;
    if (shape == MarkShape::triangle_left) return MarkShape::triangle_right;
    return shape == MarkShape::triangle_right ? MarkShape::triangle_left : shape;
}

std::vector<const Swing*> chosen_swings(const LessonResult& lesson, const SwingFigureOptions& options) {
    std::vector<const Swing*> chosen;
    for (const std::size_t place : options.swings) {
        if (place < lesson.swings.size()) chosen.push_back(&lesson.swings[place]);
    }
    return chosen;
}

std::size_t sample_from(const LoadTrace& trace, double time_s) {
    return static_cast<std::size_t>(std::lower_bound(trace.time_s.begin(), trace.time_s.end(), time_s) -
                                    trace.time_s.begin());
}

bool has_shares(const LessonResult& lesson) {
    const LoadTrace& trace = lesson.trace;
    return std::any_of(trace.left_n.begin(), trace.left_n.end(), known) &&
           std::any_of(trace.right_n.begin(), trace.right_n.end(), known);
}

void draw_notice(SwingPicture& picture, const std::string& notice, const std::string& short_notice) {
    const FigureBox& box = picture.scale.trace;
    const bool fits = picture.px(text_width(notice, TextSize::small)) < box.width();
    const double x = 0.5 * (box.left + box.right);
    const double y = box.top + picture.px(24.0);
    picture.kit.area(
        {x - 0.5 * box.width() + 1.0, y - picture.px(14.0), x + 0.5 * box.width() - 1.0, y + picture.px(6.0)},
        Ink::paper);
    picture.kit.text({x, y}, fits ? notice : short_notice, Ink::quiet, Align::middle);
}

void draw_foot_names(SwingPicture& picture, double names_y) {
    const FigureBox& trace = picture.scale.trace;
    const bool right = picture.options.target_side == TargetSide::right;
    const double room = trace.width();
    const bool short_names =
        room < picture.px(text_width("trail foot lead foot → target", TextSize::small) + 16.0);
    const std::string trail = short_names ? "trail" : "trail foot";
    const std::string lead_name = short_names ? "lead" : "lead foot";
    const std::string lead = right ? lead_name + " → target" : "target ← " + lead_name;
    picture.kit.text({trace.left, names_y}, right ? trail : lead, right ? Ink::trail : Ink::lead);
    picture.kit.text({trace.right, names_y}, right ? lead : trail, right ? Ink::lead : Ink::trail,
                     Align::right);
}

void draw_band(SwingPicture& picture, double top, double bottom) {
    const TargetBand band = picture.band_shown();
    const double low = picture.scale.x_of_share(band.low);
    const double high = picture.scale.x_of_share(band.high);
    picture.kit.area({std::min(low, high), top, std::max(low, high), bottom}, Ink::band);
    // The edges leave out the row of numerals, which would be struck through.
    const double numerals_bottom = picture.scale.trace.top - picture.px(6.0 + 6.0);
    const double numerals_top = numerals_bottom - picture.px(18.0);
    for (const double x : {low, high}) {
        if (top < numerals_top) picture.kit.line({x, top}, {x, numerals_top}, Ink::band_edge, 1.0);
        picture.kit.line({x, std::max(top, numerals_bottom)}, {x, bottom}, Ink::band_edge, 1.0);
    }
}

void draw_rule(SwingPicture& picture, double rule_y) {
    const SwingScale& scale = picture.scale;
    const double numeral = picture.px(text_width("100", TextSize::small) + 12.0);
    int step = 10;
    for (const int wider : {20, 25, 50}) {
        if (scale.trace.width() * step / 100.0 >= numeral) break;
        step = wider;
    }
    for (int percent = 0; percent <= 100; percent += 5) {
        const double x = scale.x_of_share(percent / 100.0);
        const double length = percent % 10 == 0 ? 6.0 : 3.0;
        if (percent % 10 == 0 || scale.trace.width() >= 320.0) {
            picture.kit.line({x, rule_y - picture.px(length)}, {x, rule_y}, Ink::ink, 1.0);
        }
    }
    for (int percent = 0; percent <= 100; percent += step) {
        const std::string text = percent == 100 ? "100 %" : fmt::format("{}", percent);
        picture.kit.text({scale.x_of_share(percent / 100.0), rule_y - picture.px(10.0)}, text, Ink::quiet,
                         Align::middle);
    }
    picture.kit.line({scale.trace.left, rule_y}, {scale.trace.right, rule_y}, Ink::ink, 1.5);
    const double middle = scale.x_of_share(0.5);
    picture.kit.line({middle, rule_y}, {middle, scale.trace.bottom}, Ink::grid, 1.0);
}

void draw_time_grid(SwingPicture& picture) {
    const SwingScale& scale = picture.scale;
    const double px_per_s = scale.trace.height() / (scale.to_s - scale.from_s);
    double step = 10.0;
    for (const double finer : {5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05}) {
        if (finer * px_per_s < picture.px(28.0)) break;
        step = finer;
    }
    const int decimals = step < 0.1 ? 2 : step < 1.0 ? 1 : 0;
    const double first = std::ceil(scale.from_s / step);
    for (double tick = first; tick * step <= scale.to_s; tick += 1.0) {
        const double y = scale.y_of(tick * step);
        picture.kit.line({scale.trace.left, y}, {scale.trace.right, y}, Ink::grid, tick == 0.0 ? 1.5 : 1.0);
    }
    for (double tick = first; tick * step <= scale.to_s; tick += 1.0) {
        const double y = scale.y_of(tick * step);
        const double baseline =
            std::clamp(y + picture.px(4.5), scale.trace.top + picture.px(9.0), scale.trace.bottom);
        picture.kit.text({scale.trace.right + picture.px(8.0), baseline},
                         number_words(tick * step, tick == 0.0 ? 0 : decimals) + " s", Ink::quiet);
    }
}

void draw_loss(SwingPicture& picture) {
    const SwingScale& scale = picture.scale;
    if (picture.swings.empty()) return;
    const FigureBox& trace = scale.trace;
    const double zero = zero_of(*picture.swings.front());
    const GapMarks gaps = gap_marks(picture.lesson.facts.gaps, {zero + scale.from_s, zero + scale.to_s},
                                    trace.height(), picture.px(3.0));
    const bool right = scale.target_side == TargetSide::right;
    const double trail_x = right ? trace.left + picture.px(8.0) : trace.right - picture.px(8.0);
    const Align from_trail = right ? Align::left : Align::right;
    for (const GapMark& gap : gaps.marks) {
        const double top = trace.top + gap.from_px;
        const double bottom = trace.top + gap.to_px;
        if (gap.look == GapLook::tick) {
            picture.kit.area({trace.right - picture.px(6.0), top, trace.right, bottom}, Ink::loss, 0.5);
            continue;
        }
        picture.kit.area({trace.left, top, trace.right, bottom}, Ink::loss, 0.35);
        picture.kit.line({trace.left, top}, {trace.right, top}, Ink::loss, 1.0);
        picture.kit.line({trace.left, bottom}, {trace.right, bottom}, Ink::loss, 1.0);
        if (bottom - top >= picture.px(16.0))
            picture.kit.text({trail_x, 0.5 * (top + bottom) + picture.px(4.5)}, "frames lost", Ink::ink,
                             from_trail);
    }
    if (gaps.short_gaps == 0) return;
    // On ground of its own, so that no line goes through the words.
    const std::string words = short_gap_words(gaps.short_gaps);
    const double wide = picture.px(text_width(words, TextSize::small));
    const double left = from_trail == Align::left ? trail_x : trail_x - wide;
    picture.kit.area({left - picture.px(2.0), trace.bottom - picture.px(18.0), left + wide + picture.px(2.0),
                      trace.bottom - picture.px(1.0)},
                     Ink::paper);
    picture.kit.text({trail_x, trace.bottom - picture.px(6.0)}, words, Ink::quiet, from_trail);
}

void draw_traces(SwingPicture& picture) {
    if (!has_shares(picture.lesson)) {
        draw_notice(picture, "no lead share: the feet cannot be told apart here", "no lead share");
        return;
    }
    for (std::size_t i = picture.swings.size(); i-- > 0;) {
        const bool looked_at = i == 0;
        for (Run& run : runs_of(picture, *picture.swings[i])) {
            picture.kit.path(thinned_down(run.points), looked_at ? Ink::lead : Ink::quiet,
                             looked_at ? 2.0 : 1.5, run.style, looked_at ? 1.0 : 0.7);
        }
    }
}

void draw_events(SwingPicture& picture) {
    if (picture.swings.empty()) return;
    const Swing& swing = *picture.swings.front();
    const SwingScale& scale = picture.scale;
    const double zero = zero_of(swing);
    std::vector<Label> labels;
    for (std::size_t i = 0; i < std::size(event_rows); ++i) {
        const auto& event = swing.events.*event_rows[i].event;
        if (!event) continue;
        labels.push_back({scale.y_of(event->time_s - zero), 0.0, event_rows[i].importance, i});
    }
    // Closer together, and a little beyond the trace, before one is left out.
    const double least = picture.px(14.0);
    const double height = scale.trace.bottom - scale.trace.top;
    const auto count = static_cast<double>(std::max<std::size_t>(1, labels.size()));
    const double lack = std::clamp(least * count - height, 0.0, picture.px(36.0));
    const double spacing = std::clamp((height + lack) / count, least, picture.px(17.0));
    const double half = 0.5 * spacing;
    labels = spread_labels(std::move(labels), spacing, scale.trace.top - 0.7 * lack + half,
                           scale.trace.bottom + 0.3 * lack - half);

    const double name_x = picture.px(picture.options.edge);
    const double gutter = scale.trace.left - picture.px(24.0);
    const bool with_values = gutter - name_x > picture.px(150.0);
    for (const Label& label : labels) {
        const EventRow& row = event_rows[label.key];
        const auto& event = swing.events.*row.event;
        const ShareValue* share = share_of(swing, row);
        const double traced = share_at_time(picture.lesson, event->time_s);
        const double shown = share ? share->value : traced;
        const double mark_x =
            known(shown) ? scale.x_of_share(std::clamp(shown, 0.0, 1.0)) : scale.trace.right;
        const LineStyle style =
            event->source == EventSource::estimated ? LineStyle::dashed : LineStyle::solid;
        picture.kit.path({{gutter + picture.px(4.0), label.y},
                          {gutter + picture.px(8.0), label.y},
                          {scale.trace.left, label.wanted_y}},
                         Ink::quiet, 1.0);
        picture.kit.line({scale.trace.left, label.wanted_y}, {mark_x, label.wanted_y}, Ink::quiet, 1.0, style,
                         0.8);
        const bool weighty = row.importance >= 4;
        const double baseline = label.y + picture.px(4.5);
        picture.kit.text({name_x, baseline}, row.name, weighty ? Ink::ink : Ink::quiet);
        if (with_values && share) {
            picture.kit.text({gutter, baseline}, share_words(*share), weighty ? Ink::ink : Ink::quiet,
                             Align::right, TextSize::small,
                             row.judged ? TextWeight::bold : TextWeight::regular);
        }
    }

    const auto draw_mark = [&](const EventRow& row) {
        const auto& event = swing.events.*row.event;
        if (!event) return;
        const ShareValue* share = share_of(swing, row);
        const double shown = share ? share->value : share_at_time(picture.lesson, event->time_s);
        if (!known(shown)) return;
        const FigurePoint at{scale.x_of_share(std::clamp(shown, 0.0, 1.0)), scale.y_of(event->time_s - zero)};
        if (!row.judged || !share) {
            picture.kit.mark(at, MarkShape::dot, picture.px(2.5), Ink::ink);
            return;
        }
        const double reach = std::isfinite(share->u) ? 2.0 * share->u * scale.trace.width() : 0.0;
        if (reach > picture.px(7.0)) {
            picture.kit.line({std::max(at.x - reach, scale.trace.left), at.y},
                             {std::min(at.x + reach, scale.trace.right), at.y}, Ink::ink, 1.5);
        }
        picture.kit.mark(at, mark_towards(share->verdict, scale.target_side), picture.px(6.0), Ink::ink);
    };
    for (const EventRow& row : event_rows) {
        if (!row.judged) draw_mark(row);
    }
    for (const EventRow& row : event_rows) {
        if (row.judged) draw_mark(row);
    }
}

void draw_head(SwingPicture& picture) {
    const std::optional<double>& head = picture.options.head_time_s;
    if (!head || picture.swings.empty()) return;
    const SwingScale& scale = picture.scale;
    const double from_zero = *head - scale.zero_s;
    if (from_zero < scale.from_s || from_zero > scale.to_s) return;
    const double y = scale.y_of(from_zero);
    picture.kit.line({scale.trace.left, y}, {scale.trace.right, y}, Ink::ink, 1.0);
    const double share = share_at_time(picture.lesson, *head);
    if (!known(share)) return;
    const FigurePoint at{scale.x_of_share(share), y};
    picture.kit.mark(at, MarkShape::dot, picture.px(5.0), Ink::lead);
    if (picture.options.head_label == HeadLabel::none) return;
    // At the trail's end of the head's line: the trace is hardly ever there. Leaders under it give way.
    const bool right = scale.target_side == TargetSide::right;
    const std::string text = share_short(share);
    const double width = picture.px(text_width(text, TextSize::text, TextWeight::bold));
    const double x = right ? scale.trace.left + picture.px(4.0) : scale.trace.right - picture.px(4.0) - width;
    const double top = y - scale.trace.top > picture.px(24.0) ? y - picture.px(24.0) : y + picture.px(2.0);
    picture.kit.area({x - picture.px(4.0), top, x + width + picture.px(4.0), top + picture.px(22.0)},
                     Ink::paper);
    picture.kit.text({x, top + picture.px(17.0)}, text, Ink::lead, Align::left, TextSize::text,
                     TextWeight::bold);
}

}  // namespace footing
