#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/statistics/curve_set.h"
#include "analysis/swing/share_curve.h"
#include "analysis/swing/swing.h"

namespace footing {

/// A number by which swings of a set, and sets, are compared.
struct ComparedNumber {
    const char* name;   ///< in files
    const char* words;  ///< for people
    const char* unit;   ///< for people
    double per_unit;    ///< from metres, seconds, fractions to that unit
    std::optional<double> (*value)(const Swing& swing);
    std::optional<double> (*u)(const Swing& swing);  ///< standard uncertainty of one, where it is known
};
[[nodiscard]] std::span<const ComparedNumber> compared_numbers();

/// How alike the swings of a set are in one number (docs/formulas.md, F46).
struct Consistency {
    std::vector<double> values;       ///< in order of time, of the swings that have it
    std::vector<std::size_t> places;  ///< of those swings
    double mean = 0.0;
    double sd = 0.0;                          ///< with n - 1
    std::optional<double> typical_error;      ///< from swing to swing, without slow drift
    std::optional<double> detectable_change;  ///< of one swing against another, 95 %
    std::optional<std::size_t> drifts_from;  ///< the place of the swing from which the values left their mean
    double common_u = 0.0;  ///< what all values may share: at most the smallest uncertainty of one of them
};

/// Which swings go together. `counted`: the shots, or all where there are fewer than three of them.
enum class SetKind { counted, shots, practice, all };
inline constexpr std::size_t fewest_counted_shots = 3;

/// Swings of one kind taken together. Places are those in the list of swings.
struct SwingSet {
    SetKind kind = SetKind::all;  ///< what was taken; never `counted`
    std::vector<std::size_t> places;
    std::vector<std::optional<Consistency>> numbers;  ///< one entry a ComparedNumber; absent under two values
    CurveAxis axis;
    std::vector<std::size_t> curve_places;  ///< the swings whose share is known throughout
    Curves curves;                          ///< their lead share on the axis
    std::optional<CurveSet> together;       ///< absent for fewer than three
    std::vector<OddCurve> odd;  ///< of all; `curve` is a place in `curves`; absent for fewer than five
};
inline constexpr double odd_below_p = 0.05;

/// `left_out`: places of swings that the coach set aside, ascending.
[[nodiscard]] SwingSet swing_set(const LoadTrace& trace, Hand hand, const std::vector<Swing>& swings,
                                 SetKind kind, std::span<const std::size_t> left_out = {});

}  // namespace footing
