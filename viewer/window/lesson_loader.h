#pragma once

#include <functional>
#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/frame/work_watch.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// Reads and analyses one recording. Called on worker threads; its result is handed back as a value. Given up
/// by way of the watch, it ends soon with given_up().
using LessonLoader = std::function<Result<LessonResult>(const std::string& path, WorkWatch& watch)>;

}  // namespace footing
