#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/record/h5_structure.h"
#include "acquisition/record/recording_format.h"

namespace footing {

/// Checks that the file holds known groups and datasets only, each of the right type, rank and unit, and the
/// same number of frames in all of /frames. Fails with bad_input, naming `place` and the dataset.
[[nodiscard]] Outcome check_format(const h5::Structure& structure, const std::string& place);

/// The one of the five datasets of values that this file has, after check_format.
[[nodiscard]] recording::DatasetFormat value_format_of(const h5::Structure& structure);

}  // namespace footing
