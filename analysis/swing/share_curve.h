#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"

namespace footing {

/// The instants by which swings are laid over each other, in order of time: takeaway, turnaround, impact,
/// finish, seconds from the first frame.
using Landmarks = std::array<double, 4>;

/// Absent where one of the four is, or where they are not in order.
[[nodiscard]] std::optional<Landmarks> landmarks_of(const SwingEvents& events);

/// The common time of a set of swings: the mean landmarks, seconds from impact, and the instants in between
/// at which the curves are told. Shape of `time_s`: one entry a point.
struct CurveAxis {
    Landmarks landmark_s{};
    std::vector<double> time_s;
};
[[nodiscard]] CurveAxis mean_axis(std::span<const Landmarks> swings, std::size_t points);

/// Where an instant of the axis lies in a swing with these landmarks: a straight line between each two
/// landmarks (landmark registration: Kneip & Gasser 1992, Ann. Statist. 20:1266; docs/formulas.md, F44).
/// Seconds from the first frame.
[[nodiscard]] double warped_s(const CurveAxis& axis, const Landmarks& swing, double axis_s);

/// A lead share's course over a span, zero-lag low pass at 10 Hz, told at any instant within; NaN where it is
/// not known.
class ShareCourse {
  public:
    ShareCourse(const LoadTrace& trace, Hand hand, double from_s, double to_s);
    [[nodiscard]] double at(double time_s) const;

  private:
    double rate_hz_ = 0.0;
    double first_s_ = 0.0;
    std::vector<double> share_;
};

/// One swing's lead share on the common axis. Shape: one entry a point of it.
[[nodiscard]] std::vector<double> share_curve(const LoadTrace& trace, Hand hand, const Landmarks& swing,
                                              const CurveAxis& axis);

}  // namespace footing
