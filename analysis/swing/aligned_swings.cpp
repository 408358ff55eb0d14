#include "analysis/swing/aligned_swings.h"

#include <algorithm>
#include <cmath>

#include "analysis/pressure/trace_piece.h"
#include "analysis/swing/share_curve.h"

namespace footing {

namespace {

constexpr std::size_t curve_points = 201;
constexpr double before_takeaway_s = 0.25;
constexpr double around_s = 0.5;  // for the filter
/// Spread of shares below this is not believed: noise and sway alone make so much.
constexpr double least_share_sd = 0.001;

struct Span {
    double from_s = 0.0;
    double to_s = 0.0;
};

/// From the event: what all swings have in common.
std::optional<Span> common_span(std::span<const SwingToAlign> swings, AlignedOn event) {
    std::optional<Span> wanted;  // the widest that anybody's swing takes
    std::optional<Span> kept;    // the narrowest that is there of everybody's
    for (const SwingToAlign& one : swings) {
        const auto& zero = one.swing->events.*event;
        if (!zero) continue;
        const SwingEvents& events = one.swing->events;
        const double from_s = (events.takeaway ? events.takeaway->time_s : one.swing->from_s) - zero->time_s;
        const double to_s = (events.finish ? events.finish->time_s : one.swing->to_s) - zero->time_s;
        const Span there{one.swing->from_s - zero->time_s, one.swing->to_s - zero->time_s};
        wanted = wanted ? Span{std::min(wanted->from_s, from_s), std::max(wanted->to_s, to_s)}
                        : Span{from_s, to_s};
        kept = kept ? Span{std::max(kept->from_s, there.from_s), std::min(kept->to_s, there.to_s)} : there;
    }
    if (!wanted) return std::nullopt;
    const Span span{std::max(wanted->from_s - before_takeaway_s, kept->from_s),
                    std::min(wanted->to_s, kept->to_s)};
    return span.to_s > span.from_s ? std::optional(span) : std::nullopt;
}

std::vector<double> curve_of(const SwingToAlign& one, double zero_s, const std::vector<double>& axis_s) {
    const double from_s = zero_s + axis_s.front();
    const double to_s = zero_s + axis_s.back();
    const LoadTrace piece = trace_piece(*one.trace, 0.0, from_s - around_s, to_s + around_s);
    std::vector<double> curve(axis_s.size(), unknown);
    if (piece.size() < 2) return curve;
    const double first_s = piece.time_s.front();
    const ShareCourse course(piece, one.hand, from_s - first_s, to_s - first_s);
    for (std::size_t i = 0; i < axis_s.size(); ++i) curve[i] = course.at(zero_s + axis_s[i] - first_s);
    return curve;
}

void take_together(AlignedSwings& aligned) {
    for (AlignedGroup& group : aligned.groups) {
        Curves curves;
        for (const std::size_t place : group.curves) curves.push_back(aligned.curves[place]);
        group.together = curve_set(curves, least_share_sd);
        group.odd = odd_curves(curves, least_share_sd);
    }
}

}  // namespace

AlignedSwings align_swings(std::span<const SwingToAlign> swings, AlignedOn event) {
    AlignedSwings aligned;
    aligned.left_out = swings.size();
    const std::optional<Span> span = common_span(swings, event);
    if (!span) return aligned;
    for (std::size_t i = 0; i < curve_points; ++i) {
        aligned.time_s.push_back(std::lerp(span->from_s, span->to_s,
                                           static_cast<double>(i) / static_cast<double>(curve_points - 1)));
    }
    std::array<std::size_t, named_events.size()> counted{};
    for (std::size_t place = 0; place < swings.size(); ++place) {
        const SwingToAlign& one = swings[place];
        const auto& zero = one.swing->events.*event;
        if (!zero || one.group >= aligned_groups) continue;
        std::vector<double> curve = curve_of(one, zero->time_s, aligned.time_s);
        if (!std::ranges::all_of(curve, known)) continue;
        aligned.groups[one.group].curves.push_back(aligned.curves.size());
        aligned.curves.push_back(std::move(curve));
        aligned.given.push_back(place);
        --aligned.left_out;
        for (std::size_t i = 0; i < named_events.size(); ++i) {
            const auto& at = one.swing->events.*named_events[i].member;
            if (!at) continue;
            aligned.event_s[i] = aligned.event_s[i].value_or(0.0) + at->time_s - zero->time_s;
            ++counted[i];
        }
    }
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        if (aligned.event_s[i]) *aligned.event_s[i] /= static_cast<double>(counted[i]);
    }
    take_together(aligned);
    return aligned;
}

}  // namespace footing
