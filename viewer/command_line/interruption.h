#pragma once

#include <atomic>

namespace footing {

/// From here on an end that the person or the system asks for (Ctrl-C, SIGTERM, a terminal that is closed)
/// only sets interruption(), so that a verb can finish what it began. Not asked until then. Nor does a reader
/// of what is said here end the verb when that one ends: a lesson is more than the log of it.
void heed_interruption();

/// Whether the end was asked for since heed_interruption().
[[nodiscard]] const std::atomic<bool>& interruption();

}  // namespace footing
