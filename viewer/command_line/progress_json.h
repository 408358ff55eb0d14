#pragma once

#include <nlohmann/json.hpp>

#include "viewer/book/student_progress.h"

namespace footing {

/// A student's progress for other programs: metres, seconds, fractions; null where not known or silent.
[[nodiscard]] nlohmann::ordered_json progress_json(const StudentProgress& progress, DistanceUnit unit);

}  // namespace footing
