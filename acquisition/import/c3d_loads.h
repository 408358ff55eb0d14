#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"
#include "acquisition/import/c3d_file.h"
#include "acquisition/import/c3d_import.h"
#include "acquisition/import/c3d_stance.h"

namespace footing {

/// The loads in a C3D file as a golfer's plates would report them: components in the plate frame, positive Fz
/// under load, moments about the centre of each plate's surface, baseline taken off if asked for.
class C3dLoads {
  public:
    /// Reads the whole file once to learn its sign and its baseline. `file` must outlive this. Fails as
    /// import_c3d says.
    [[nodiscard]] static Result<C3dLoads> open(const C3dFile& file, const C3dImportOptions& options);

    [[nodiscard]] const PlateLayout& layout() const { return layout_; }
    /// What was assumed or turned round, in words.
    [[nodiscard]] const std::vector<std::string>& remarks() const { return stance_.remarks; }

    /// Samples [first, first + count), cut off at the end. Shape [sample, 6 x plate], N and N m. Fails with
    /// bad_input, naming the sample, on a value that is no number or that no plate can bear.
    [[nodiscard]] Result<std::vector<double>> read(std::uint64_t first, std::size_t count) const;

  private:
    C3dLoads(const C3dFile& file, C3dStance stance);
    [[nodiscard]] Result<std::vector<C3dWrench>> read_wrenches(std::uint64_t first, std::size_t count) const;
    [[nodiscard]] Outcome learn_baseline();
    [[nodiscard]] Outcome learn_signs();

    const C3dFile* file_;
    C3dStance stance_;
    PlateLayout layout_;
    std::vector<std::size_t> channels_;  ///< of all plates used, one after another
    std::vector<C3dWrench> baseline_;    ///< of each plate, as the file's own axes and sign have it
    std::vector<double> sign_;           ///< -1 where the file gives the feet's forces on the plate
};

}  // namespace footing
