#include "analysis/swing/swing_set.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/statistics/moving_average_chart.h"
#include "analysis/statistics/repeatability.h"
#include "analysis/statistics/summary.h"

namespace footing {

namespace {

constexpr std::size_t curve_points = 101;
constexpr std::size_t fewest_for_drift = 8;
/// Spread of shares below this is not believed: noise and sway alone make so much.
constexpr double least_share_sd = 0.001;

template <std::optional<ShareValue> SwingShares::*member>
std::optional<double> share(const Swing& swing) {
    const auto& value = swing.lead_share.*member;
    return value ? std::optional(value->value) : std::nullopt;
}
template <std::optional<ShareValue> SwingShares::*member>
std::optional<double> share_u(const Swing& swing) {
    const auto& value = swing.lead_share.*member;
    return value ? std::optional(value->u) : std::nullopt;
}
template <double Tempo::*member>
std::optional<double> tempo(const Swing& swing) {
    return swing.tempo ? std::optional((*swing.tempo).*member) : std::nullopt;
}
std::optional<double> load_return(const Swing& swing) {
    return swing.numbers.load_return ? std::optional(swing.numbers.load_return->peak_per_s) : std::nullopt;
}
std::optional<double> cop_path(const Swing& swing) {
    return swing.numbers.cop_travel ? std::optional(swing.numbers.cop_travel->path_m) : std::nullopt;
}
std::optional<double> not_told(const Swing&) {
    return std::nullopt;
}

constexpr std::array<ComparedNumber, 9> all_numbers{{
    {"address_share", "share at address", "%", 100.0, share<&SwingShares::address>,
     share_u<&SwingShares::address>},
    {"lowest_share", "lowest share", "%", 100.0, share<&SwingShares::lowest>, share_u<&SwingShares::lowest>},
    {"impact_share", "share at impact", "%", 100.0, share<&SwingShares::impact>,
     share_u<&SwingShares::impact>},
    {"finish_share", "share at finish", "%", 100.0, share<&SwingShares::finish>,
     share_u<&SwingShares::finish>},
    {"backswing_s", "backswing", "s", 1.0, tempo<&Tempo::backswing_s>, not_told},
    {"downswing_s", "downswing", "s", 1.0, tempo<&Tempo::downswing_s>, not_told},
    {"tempo_ratio", "tempo", ": 1", 1.0, tempo<&Tempo::ratio>, not_told},
    {"load_return_per_s", "load's return", "%/s", 100.0, load_return, not_told},
    {"cop_path_m", "CoP path", "cm", 100.0, cop_path, not_told},
}};

std::vector<std::size_t> places_of(const std::vector<Swing>& swings, SetKind kind,
                                   std::span<const std::size_t> left_out) {
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < swings.size(); ++i) {
        if (std::ranges::binary_search(left_out, i)) continue;
        const bool belongs = kind == SetKind::all ||
                             (kind == SetKind::shots && swings[i].kind == SwingKind::shot) ||
                             (kind == SetKind::practice && swings[i].kind == SwingKind::practice);
        if (belongs) places.push_back(i);
    }
    return places;
}

SetKind decided(SetKind kind, const std::vector<Swing>& swings, std::span<const std::size_t> left_out) {
    if (kind != SetKind::counted) return kind;
    return places_of(swings, SetKind::shots, left_out).size() >= fewest_counted_shots ? SetKind::shots
                                                                                      : SetKind::all;
}

std::optional<Consistency> consistency(const std::vector<Swing>& swings,
                                       const std::vector<std::size_t>& places, const ComparedNumber& number) {
    Consistency set;
    std::optional<double> least_u;
    for (const std::size_t place : places) {
        const std::optional<double> value = number.value(swings[place]);
        if (!value || !std::isfinite(*value)) continue;
        set.values.push_back(*value);
        set.places.push_back(place);
        const std::optional<double> u = number.u(swings[place]);
        if (u && std::isfinite(*u)) least_u = least_u ? std::min(*least_u, *u) : *u;
    }
    if (set.values.size() < 2) return std::nullopt;
    set.mean = mean(set.values);
    set.sd = standard_deviation(set.values);
    set.common_u = least_u.value_or(0.0);
    set.typical_error = typical_error_in_a_row(set.values);
    if (set.typical_error) set.detectable_change = minimal_detectable_change(*set.typical_error);
    if (set.typical_error && set.values.size() >= fewest_for_drift && *set.typical_error > 0.0) {
        const auto chart = moving_average_chart(set.values, set.mean, *set.typical_error);
        if (chart.first_beyond) set.drifts_from = set.places[*chart.first_beyond];
    }
    return set;
}

}  // namespace

std::span<const ComparedNumber> compared_numbers() {
    return all_numbers;
}

SwingSet swing_set(const LoadTrace& trace, Hand hand, const std::vector<Swing>& swings, SetKind kind,
                   std::span<const std::size_t> left_out) {
    SwingSet set;
    set.kind = decided(kind, swings, left_out);
    set.places = places_of(swings, set.kind, left_out);
    for (const ComparedNumber& number : all_numbers)
        set.numbers.push_back(consistency(swings, set.places, number));
    std::vector<Landmarks> marks;
    std::vector<std::size_t> marked;
    for (const std::size_t place : set.places) {
        const auto landmarks = landmarks_of(swings[place].events);
        if (!landmarks || !swings[place].lead_share.address) continue;
        marks.push_back(*landmarks);
        marked.push_back(place);
    }
    set.axis = mean_axis(marks, curve_points);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        std::vector<double> curve = share_curve(trace, hand, marks[i], set.axis);
        if (!std::ranges::all_of(curve, known)) continue;
        set.curves.push_back(std::move(curve));
        set.curve_places.push_back(marked[i]);
    }
    set.together = curve_set(set.curves, least_share_sd);
    set.odd = odd_curves(set.curves, least_share_sd);
    return set;
}

}  // namespace footing
