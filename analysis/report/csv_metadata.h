#pragma once

#include <string>

#include "analysis/report/lesson_result.h"

namespace footing {

/// What stands beside the CSV of a lesson and says what its columns are: type, unit and meaning of each, as
/// the W3C's "Metadata Vocabulary for Tabular Data" (recommendation of 2015) asks for; units as schema.org's
/// unitText. The file is to be called NAME.csv-metadata.json, where programs look for it. `csv_name`: the
/// table's own name.
[[nodiscard]] std::string csv_metadata(const LessonResult& lesson, const std::string& csv_name);

}  // namespace footing
