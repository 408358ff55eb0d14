#include "analysis/swing/swing_signs.h"

namespace footing {

const std::array<std::string_view, sign_count> sign_names{
    "return_share",  "return_in_usual", "return_s",     "quick_s",      "speed",          "push",
    "push_in_usual", "push_s",          "impulse_left", "unrest_after", "unrest_before",  "sink",
    "rise",          "unload",          "bent_before",  "hold",         "rest_level",     "far_share",
    "far_forward",   "departure_s",     "away_s",       "impulse",      "load_after",     "load_range",
    "range_to_push", "load_rate",       "quiet_s",      "lowest",       "highest_before", "highest",
    "forward_range", "settling",        "back",         "turns",        "crossings",      "lateness_s",
    "stir_before",   "load_repeats",    "share_repeats"};

}  // namespace footing
