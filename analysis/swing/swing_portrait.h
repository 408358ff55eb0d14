#pragma once

#include <vector>

namespace footing {

/// What of a swing shows whether another movement was made by the same golfer in the same way.
struct SwingPortrait {
    std::vector<double> load;   ///< 0.9 s about the push's peak, at the rate of StanceSignals, less its mean,
                                ///< as a vector of length 1
    std::vector<double> share;  ///< the same of the lead share
    double address_share = 0.0;  ///< lead share before the takeaway
    double rest_level = 0.0;     ///< SwingSign::rest_level
    double log_push = 0.0;       ///< natural logarithm of SwingSign::push
    double log_away = 0.0;       ///< natural logarithm of SwingSign::away_s
    double lateness_s = 0.0;     ///< SwingSign::lateness_s
};

}  // namespace footing
