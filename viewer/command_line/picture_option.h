#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/record/safe_file.h"
#include "analysis/report/figure.h"

namespace footing {

inline constexpr double picture_width_px = 736.0;

/// Fails with command_line when a picture's name ends in neither .svg nor .png; an empty name is no picture.
[[nodiscard]] Outcome check_picture_name(const std::string& file);

/// Draws a figure for print into a file, in the form that its name's suffix asks for. Fails with disk_failed.
[[nodiscard]] Outcome write_picture(const std::string& file, const Figure& figure,
                                    FileReaders readers = FileReaders::as_usual);

}  // namespace footing
