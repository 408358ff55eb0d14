#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_options.h"

namespace footing {

/// How long before the turn the backswing must be seen to be under way.
inline constexpr double under_way_before_turn_s = 0.06;

/// Entries of the signals: the first, and one past the last.
struct EntryRange {
    std::size_t begin = 0;
    std::size_t end = 0;
};

/// The place of an entry in a column.
template <typename T>
auto place_at(const std::vector<T>& column, std::size_t i) {
    return column.begin() + static_cast<std::ptrdiff_t>(i);
}

[[nodiscard]] double mean(const std::vector<double>& column, EntryRange range);

/// What the backswing, the return to the lead foot and the hold of a candidate show, each by itself
/// (docs/formulas.md, F22); SwingRules decides by all together. Looks at signals and options that
/// outlive it.
class SwingEvidence {
  public:
    /// `quiet_load_bw`: how much the load may move in what counts as still.
    SwingEvidence(const StanceSignals& signals, const SwingOptions& options, double quiet_load_bw)
        : s_(signals), o_(options), quiet_load_(quiet_load_bw) {}

    /// Of the load above that of the address, from the end of the quiet spell to half a second after the
    /// return; body weights times seconds.
    [[nodiscard]] double impulse(const SwingCandidate& c, double address_bw) const;
    /// The share rests nearer the lead foot than it began, not only for a moment.
    [[nodiscard]] bool rests_beyond(const SwingCandidate& c, std::size_t hold_end, double address_share,
                                    double part) const;
    /// For how long before the turn the share was more than half of the backswing away.
    [[nodiscard]] double away_s(const SwingCandidate& c, double address_share) const;
    [[nodiscard]] bool was_struck(const SwingCandidate& c) const;
    /// A step: the lead foot in the air at any time, the trail foot before the return, or after it without a
    /// push.
    [[nodiscard]] bool foot_lifted(const SwingCandidate& c, EntryRange whole) const;
    /// The backswing is seen before the turn in share or forward CoP: by so many usual changes.
    [[nodiscard]] bool departed(const SwingCandidate& c, EntryRange address, double usual_changes) const;
    [[nodiscard]] bool is_held(const SwingCandidate& c, std::size_t hold_end) const;
    /// In a swing the load is quiet until the downswing, rises, and sinks afterwards; who bends, jumps or
    /// gets up again sinks first, or has moved up and down before.
    [[nodiscard]] bool push_comes_first(const SwingCandidate& c, double address_bw) const;
    /// For how long the load is above half of the push.
    [[nodiscard]] double push_s(const SwingCandidate& c, double address_bw) const;
    [[nodiscard]] bool load_comes_to_rest(const SwingCandidate& c, double address_bw) const;
    /// The load was at rest before the body began to push.
    [[nodiscard]] bool load_was_at_rest(const SwingCandidate& c, double address_bw) const;
    /// What a push gives the body's rise the body must take back before it rests again (momentum closure), so
    /// the load sinks about as much, before or after; something that taps the plates or is put down on them
    /// takes nothing back. The part of the push's impulse that is left over, 0 to 1.
    [[nodiscard]] double impulse_left(const SwingCandidate& c, double address_bw) const;

    /// Whoever bent down some seconds before gets up now: then the load sank and braked once already, by at
    /// least half of this push.
    [[nodiscard]] bool bent_before(const SwingCandidate& c, double address_bw) const;

  private:
    const StanceSignals& s_;
    const SwingOptions& o_;
    double quiet_load_;
};

}  // namespace footing
