#pragma once

#include <atomic>

#include "acquisition/frame/work_watch.h"

namespace footing {

/// From here on an end that the person or the system asks for (Ctrl-C, SIGTERM, a terminal that is closed)
/// only sets interruption(), so that a verb can finish what it began. Not asked until then. Nor does a reader
/// of what is said here end the verb when that one ends: a lesson is more than the log of it.
void heed_interruption();

/// The same for work that takes a watch: an end that is asked for gives it up, and it leaves nothing
/// half-made behind.
[[nodiscard]] WorkWatch& heed_interruption_by_watch();

/// Whether the end was asked for since heed_interruption().
[[nodiscard]] const std::atomic<bool>& interruption();

}  // namespace footing
