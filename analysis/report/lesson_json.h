#pragma once

#include <string>

#include "analysis/report/lesson_result.h"

namespace footing {

/// The object of `footing analyse --json`, indented. Times are seconds from the first frame;
/// lead shares are fractions; cop_m is in the stance frame, metres. What is not known is absent (events,
/// shares, measures) or null (body weight, an uncertainty); every number is finite. Text that is not UTF-8 is
/// made so. `strikes_without_swing_s` has the instants at which the trigger told of a strike where no swing
/// was found; `swings_as_other_hand` how many swings the other hand would have, where it seems the right one, else 0.
[[nodiscard]] std::string lesson_json(const LessonResult& lesson);

}  // namespace footing
