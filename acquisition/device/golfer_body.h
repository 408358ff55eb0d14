#pragma once

#include <cstdint>
#include <optional>

#include "acquisition/device/golfer_motion.h"
#include "acquisition/device/golfer_script.h"
#include "acquisition/device/golfer_style.h"
#include "acquisition/frame/units.h"

namespace footing {

/// What one foot does to the ground: vertical load, and where it acts, in the plate frame.
struct FootLoad {
    double load_n = 0.0;
    PointM cop;
};

struct GroundLoad {
    FootLoad left;
    FootLoad right;
    [[nodiscard]] double total_n() const { return left.load_n + right.load_n; }
};

/// A golfer as a mass on two feet. The script moves the centre of mass; Newton's second law gives the force
/// on the ground (F = m(g + a)); the balance of moments about the ground gives the centre of pressure,
///   CoP = c - (1 - turn_share) * z * a / (g + a_z),
/// with c and a the horizontal place and acceleration of the mass and z its height (inverted pendulum; Winter
/// 1995, from memory; the turning trunk and arms take up the part turn_share of the moment); the lever
/// between the feet gives each foot's load. It is not the analysis run backwards: nothing here knows a share
/// before the forces are known.
class GolferBody {
  public:
    GolferBody(const GolferStyle& style, GolferScript script, std::uint64_t seed);

    /// The ground under the feet at an instant; a pure function of time, whatever the sampling.
    [[nodiscard]] GroundLoad at(double time_s) const;

    /// The same without postural sway, breath and heartbeat: what the student does on purpose.
    [[nodiscard]] GroundLoad on_purpose(double time_s) const;

    /// True lead share; nothing while the plates are all but empty.
    [[nodiscard]] std::optional<double> lead_share(const GroundLoad& ground) const;

    [[nodiscard]] const GolferStyle& style() const { return style_; }
    [[nodiscard]] const GolferScript& script() const { return script_; }

    /// Middle of a foot on the ground, plate frame.
    [[nodiscard]] PointM left_foot() const;
    [[nodiscard]] PointM right_foot() const;

  private:
    struct Mass {
        Motion along;
        Motion ahead;
        Motion up;
    };
    [[nodiscard]] Mass mass_on_purpose(double time_s) const;
    [[nodiscard]] GroundLoad ground_under(const Mass& mass, double time_s) const;

    GolferStyle style_;
    GolferScript script_;
    Unrest sway_along_;
    Unrest sway_ahead_;
    Unrest tremor_;
    double breath_hz_;
    double heart_hz_;
};

}  // namespace footing
