#pragma once

#include <string>

#include "acquisition/export/c3d_writer.h"
#include "acquisition/frame/result.h"
#include "analysis/report/lesson_result.h"

namespace footing {

/// A lesson as force plates for other programs: vertical force and the moments that put the centre of
/// pressure where it was, one plate a foot where the feet are told apart, else one for both; the trigger, and
/// where lost frames were bridged, as channels of their own; the events of the swings. Shear and the free
/// moment are no part of a lesson's loads: they are 0. A measured impact is called "impact"; an estimated one
/// "impact estimate", so that nobody takes it for a trigger.
[[nodiscard]] C3dContent c3d_of(const LessonResult& lesson);

/// Writes it (R14, R15: never over an existing file). Returns what was made, in a sentence or two for people.
/// Fails with command_line when the name is taken, bad_input, disk_failed.
[[nodiscard]] Result<std::string> export_c3d(const LessonResult& lesson, const std::string& path);

}  // namespace footing
