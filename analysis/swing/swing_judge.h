#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/coach_marks.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/strike_lag.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_motion.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// The swings of a recording, each by itself: its events, what the coach marked instead, and its numbers.
/// What all swings together tell comes after (analyse_swings). Holds on to what it is given, but not to the
/// portraits of earlier swings.
class SwingJudge {
  public:
    SwingJudge(const LoadTrace& trace, Hand hand, const TargetBand& band, const SwingOptions& options,
               const CoachMarks& marks, std::span<const SwingPortrait> earlier);

    /// How many swings were found.
    [[nodiscard]] std::size_t found() const { return found_.size(); }

    /// The swing that was found as the `place`th, from 0, struck as `lags` say where nothing else tells when;
    /// nothing where the coach says that it is none.
    [[nodiscard]] std::optional<Swing> judge(std::size_t place, const StrikeLags& lags) const;

  private:
    [[nodiscard]] std::optional<StrikeWitnesses> strike_after_witnesses_s(const SwingMotion& motion,
                                                                          const SwingCandidate& swing,
                                                                          const SwingEvents& events) const;
    void measure(Swing& swing, const SwingMotion& motion, const SwingCandidate& found, double until_s) const;

    const LoadTrace& trace_;
    Hand hand_;
    const TargetBand& band_;
    const SwingOptions& options_;
    const CoachMarks& marks_;
    StanceSignals signals_;
    std::vector<SwingCandidate> found_;
};

/// Whether the trigger told of the strike.
[[nodiscard]] bool is_struck(const SwingEvents& events);

}  // namespace footing
