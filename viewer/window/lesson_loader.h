#pragma once

#include <functional>
#include <string>

#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// Reads and analyses one recording. Called on worker threads; its result is handed back as a value.
using LessonLoader = std::function<Result<LessonResult>(const std::string& path)>;

}  // namespace footing
