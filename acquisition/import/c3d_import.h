#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/frame/units.h"
#include "acquisition/frame/work_watch.h"

namespace footing {

/// Which plate of a C3D file somebody stood on, and with what.
struct C3dPlateUse {
    enum class Foot { left, right, whole };
    Foot foot = Foot::whole;
    std::size_t plate = 1;  ///< 1-based, as the file counts them
    friend bool operator==(const C3dPlateUse&, const C3dPlateUse&) = default;
};

/// "left=2,right=1", "lead=1,trail=2" (by the hand) or "whole=1". Fails with command_line when it is neither.
[[nodiscard]] Result<std::vector<C3dPlateUse>> parse_plate_uses(std::string_view text, Hand hand);

/// An axis of the file's own frame of reference.
enum class C3dAxis { plus_x, minus_x, plus_y, minus_y, plus_z, minus_z };

/// "+x", "-y", … Fails with command_line for other words.
[[nodiscard]] Result<C3dAxis> parse_c3d_axis(std::string_view text);

struct C3dImportOptions {
    Hand hand = Hand::right;
    std::vector<C3dPlateUse> plates;  ///< empty: by their position, see import_c3d
    std::optional<C3dAxis> ahead;     ///< where the toes point to; absent: from which plate is left and right
    enum class Baseline {
        as_recorded,
        subtracted  ///< the mean over the unloaded frames that the file itself names (FORCE_PLATFORM:ZERO)
    } baseline = Baseline::as_recorded;
    std::string program_version;
    WorkWatch* watch = nullptr;  ///< told how far it is, and asked whether to go on
};

/// What an import made, for people.
struct C3dImportSummary {
    std::uint64_t frames = 0;
    double rate_hz = 0.0;
    double duration_s = 0.0;
    std::vector<std::string> notes;   ///< what was assumed, turned round or missing; also in the recording
    std::vector<std::string> doubts;  ///< what looks like other units; also in the recording
};

/// Imports the force plates of a C3D file (open biomechanics standard, c3d.org) as a recording of kind
/// components. Types 2, 3 and 4; every byte order; whole and floating-point data. The file is hostile until
/// checked.
///
/// Mapping to the plate frame (docs/c3d_import.md): z is the normal of the plates, away from the plate's own
/// z axis, which points down in C3D. Golfer's x is that edge of the left plate which lies nearest to the line
/// from the left plate's centre to the right one's; the origin lies midway between the two. Forces become
/// those of the ground on the feet: whichever sign the file uses, a standing person loads the plate with
/// positive Fz. Moments are taken about the centre of the plate's surface. Where nobody says which plate is
/// which, the left plate is the one with the smaller coordinate along the file's axis that the two lie along;
/// a note in the recording says so.
///
/// The start is the file's date of last change, as C3D has none of its own. Events become notes; an event
/// called "impact" or "trigger" also sets the trigger input for 5 ms. Frames that were lost before an export
/// of this program are lost again (c3d_bridged.h).
///
/// Fails with bad_input (no C3D file, no plates, another type, absurd corners, values that are not numbers),
/// command_line (a plate named that is not there) or disk_failed.
[[nodiscard]] Result<C3dImportSummary> import_c3d(const std::filesystem::path& c3d,
                                                  const std::filesystem::path& recording,
                                                  const C3dImportOptions& options);

}  // namespace footing
