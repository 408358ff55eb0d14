#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing_options.h"

namespace footing {

/// What the quiet parts of a recording look like, so that "still" fits the player and the plates.
struct StanceLevels {
    double body_weight_n = 0.0;       ///< 0 when nobody stood still
    double usual_share_change = 0.0;  ///< median change of share over the quiet window, standing
    double usual_load_change_bw = 0.0;
    double usual_forward_change_m = 0.0;
};

/// How far apart the feet are taken to be where they cannot be told apart.
inline constexpr double assumed_stance_m = 0.4;

/// A recording at about 100 Hz, smoothed, in which swings are looked for. A swing's weight shift has nothing
/// above some 8 Hz, so a coarse look loses nothing and is the same at every sampling rate (docs/formulas.md,
/// F19).
struct StanceSignals : StanceLevels {
    double rate_hz = 0.0;
    std::size_t instants_per_entry = 1;  ///< sampling instants of the trace in one entry
    bool feet_known = true;
    /// Lead share; where the feet cannot be told apart, the CoP across the stance told as a share, for a
    /// stance of 0.4 m.
    std::vector<double> share;
    std::vector<double> load_bw;       ///< total load in body weights
    std::vector<double> forward_m;     ///< CoP along the feet
    std::vector<std::uint8_t> usable;  ///< 1: somebody stands there and the frames came
    std::vector<std::uint8_t> struck;  ///< 1: the trigger says that a ball was struck in this entry

    [[nodiscard]] std::size_t size() const { return share.size(); }
    [[nodiscard]] double time_s(double entry) const {
        return (entry * static_cast<double>(instants_per_entry) +
                0.5 * static_cast<double>(instants_per_entry - 1)) /
               (rate_hz * static_cast<double>(instants_per_entry));
    }
    [[nodiscard]] std::size_t entries(double seconds) const {
        return static_cast<std::size_t>(seconds * rate_hz + 0.5);
    }
};

/// Whether all entries from `from` to before `to` are usable.
[[nodiscard]] bool all_usable(const StanceSignals& signals, std::size_t from, std::size_t to);

/// `levels`: those of a longer stretch, where the trace is too short to tell; else they are its own.
[[nodiscard]] StanceSignals stance_signals(const LoadTrace& trace, Hand hand, const SwingOptions& options,
                                           const std::optional<StanceLevels>& levels = std::nullopt);

}  // namespace footing
