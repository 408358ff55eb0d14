#pragma once

namespace footing {

/// How much a report holds. `brief`: its first page, the swings together, how it was measured, cautions.
enum class ReportForm { full, brief };

}  // namespace footing
