#pragma once

#include <optional>

#include "analysis/pressure/load_trace.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/strike_lag.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_motion.h"

namespace footing {

/// What the share and the load show between the turn and the finish; an impact is estimated from it.
struct ReturnMarks {
    double fastest_s = 0.0;  ///< share's highest speed
    double half_s = 0.0;     ///< half of the return done
    double nine_tenths_s = 0.0;
    std::optional<double> push_peak_s;  ///< largest load
    std::optional<double> push_over_s;  ///< load back at that of the address after its peak
    std::optional<double>
        load_lowest_s;  ///< lowest load after the peak, where it goes below that of the address
};
[[nodiscard]] ReturnMarks return_marks(const SwingMotion& motion, const StanceSignals& signals,
                                       const SwingCandidate& swing);

/// The first rising edge of the trigger between two times; half a sample's rounding, or the frames that were
/// lost before it.
[[nodiscard]] std::optional<Event> triggered_impact(const LoadTrace& trace, double from_s, double to_s);

/// When each witness tells that the ball was struck, as golfers do on average (docs/formulas.md, F26).
[[nodiscard]] StrikeWitnesses strike_witnesses(const ReturnMarks& marks);

/// From the witnesses alone, and from what is known of the golfer.
[[nodiscard]] Event estimated_impact(const StrikeWitnesses& witnesses, const StrikeLags& lags = {});

}  // namespace footing
