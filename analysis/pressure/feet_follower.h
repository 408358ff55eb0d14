#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "analysis/pressure/foot_shape.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/pressure/mat_areas.h"
#include "analysis/pressure/mat_columns.h"

namespace footing {

/// What one foot bears in one frame.
struct FootSum {
    LoadSum load;
    double zone_n = 0.0;     ///< of it on the elements that the foot was found on
    double toe_n = 0.0;      ///< of that before the middle of the foot; 0 where the foot's line is not known
    double outside_n = 0.0;  ///< of that on the outer side of the foot's line
};

/// Follows the two feet on a mat from frame to frame (docs/feet_on_mat.md). The feet are looked for every
/// few frames, and at once when load appears where none was; in between each foot is the elements that it was
/// found on. So a foot keeps its name, its line and its middle while its heel lifts or all of it does, and
/// another thing on the mat never becomes a foot while both feet stand. Deterministic: the same frames give
/// the same feet. Looking allocates.
class FeetFollower {
  public:
    FeetFollower(const Grid& grid, FeetOptions options);

    /// Takes the next frame in newtons, dead elements filled, shape [rows x columns], and the sum of what
    /// counts in it.
    /// Returns how the feet are told; the sums below hold for FeetTold::areas only.
    FeetTold follow(std::span<const double> force_n, double total_n);

    [[nodiscard]] const FootSum& left() const { return feet_[0].sum; }
    [[nodiscard]] const FootSum& right() const { return feet_[1].sum; }
    [[nodiscard]] const LoadSum& other() const { return other_sum_; }

    /// The feet's lines and middles, for FeetTold::areas.
    [[nodiscard]] const FootShape& left_shape() const { return feet_[0].shape; }
    [[nodiscard]] const FootShape& right_shape() const { return feet_[1].shape; }

  private:
    /// An element of a foot, with how much of it counts for toes and outer side.
    struct ZoneElement {
        std::uint32_t index = 0;
        PointM at;
        double toe = 0.0;
        double outside = 0.0;
    };
    struct Foot {
        MatArea touched;                ///< elements that are known to be under it
        FootShape shape;                ///< as it was last seen whole
        std::size_t looks_in_part = 0;  ///< since it was last seen whole
        std::vector<ZoneElement> zone;  ///< touched elements and those around them
        FootSum sum;
    };
    enum class Owner : std::uint8_t { nobody, left, right, other };

    void look(std::span<const double> force_n, double total_n);
    [[nodiscard]] bool recognise(std::vector<MatArea> areas, double total_n);
    void choose(std::vector<MatArea> areas, double total_n);
    void update(Foot& foot, const MatArea& area);
    void place(Foot& foot, MatArea area);
    [[nodiscard]] std::vector<MatArea> parted_by_owner(std::vector<MatArea> areas) const;
    [[nodiscard]] std::array<double, 3> load_in_zones(const MatArea& area) const;
    [[nodiscard]] bool bears_enough(const MatArea& area, double total_n) const;
    void make_zones();
    void sum_zones(std::span<const double> force_n, double total_n);
    [[nodiscard]] double counted(double value) const {
        return value >= options_.element_threshold_n ? value : 0.0;
    }

    Grid grid_;
    FeetOptions options_;
    FeetOptions look_options_;
    std::array<Foot, 2> feet_;  ///< left, right
    std::vector<MatArea> others_;
    std::vector<Owner> owner_;  ///< one an element
    std::vector<ZoneElement> other_zone_;
    std::vector<ZoneElement> free_;  ///< elements of nobody
    LoadSum other_sum_;
    FeetTold told_ = FeetTold::nobody;
    double stray_n_ = 0.0;  ///< load on elements of nobody
    double stray_at_look_n_ = 0.0;
    std::size_t frames_since_look_ = 0;
    std::size_t empty_frames_ = 0;
};

}  // namespace footing
