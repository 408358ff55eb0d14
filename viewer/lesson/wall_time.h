#pragma once

#include <cstdint>
#include <string>

namespace footing {

/// "2026-11-25 10:20:44 +0100 (Europe/Berlin)" of a moment in UTC and an IANA zone; an unknown zone is told
/// as UTC.
[[nodiscard]] std::string wall_time(std::int64_t utc_ns, const std::string& zone);

/// "2026-11-25_102044" of a moment in UTC and an IANA zone, for names of files.
[[nodiscard]] std::string file_stamp(std::int64_t utc_ns, const std::string& zone);

/// "10:20" of a moment in UTC and an IANA zone.
[[nodiscard]] std::string time_of_day(std::int64_t utc_ns, const std::string& zone);

/// ISO 8601 date, "2026-11-25", of a moment in UTC.
[[nodiscard]] std::string iso_date(std::int64_t utc_ns);

}  // namespace footing
