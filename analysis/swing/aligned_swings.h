#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/statistics/curve_set.h"
#include "analysis/swing/swing.h"

namespace footing {

/// A swing to be laid over others, of whatever lesson. Trace and swing outlive the call that they are given
/// to.
struct SwingToAlign {
    const LoadTrace* trace = nullptr;  ///< with the swing in it; there may be holes between swings
    const Swing* swing = nullptr;
    Hand hand = Hand::right;
    std::size_t group = 0;  ///< 0 or 1: those that are taken together
};
inline constexpr std::size_t aligned_groups = 2;

/// Swings of one group: their mean and spread, and which of them is odd.
struct AlignedGroup {
    std::vector<std::size_t> curves;   ///< places in AlignedSwings::curves
    std::optional<CurveSet> together;  ///< absent for fewer than three
    std::vector<OddCurve> odd;         ///< `curve` is a place in `curves` above; absent for fewer than five
};

/// Lead shares of swings on one time axis, which is 0 at the event that they are aligned on. Nothing is
/// stretched: other events lie where they were, so that differences of tempo show. (swing_set() lays swings
/// over each other by four events at once.)
struct AlignedSwings {
    std::vector<double> time_s;      ///< seconds from the event
    Curves curves;                   ///< one entry a point; all known
    std::vector<std::size_t> given;  ///< of each curve, the place of its swing in what was given
    std::array<AlignedGroup, aligned_groups> groups;
    std::array<std::optional<double>, named_events.size()> event_s;  ///< mean over all curves, from the event
    std::size_t left_out = 0;  ///< swings without the event, or whose share is not known throughout
};
using AlignedOn = std::optional<Event> SwingEvents::*;

/// The axis goes from a little before the earliest takeaway to the latest finish, as far as every swing is
/// kept. Lead shares as in swing_set(): zero-lag low pass at 10 Hz.
[[nodiscard]] AlignedSwings align_swings(std::span<const SwingToAlign> swings, AlignedOn event);

}  // namespace footing
