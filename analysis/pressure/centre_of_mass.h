#pragma once

#include <span>
#include <vector>

#include "acquisition/frame/units.h"

namespace footing {

/// The body as an inverted pendulum over the ankles (docs/formulas.md, F48): CoM - CoP = (I / m g h) CoM''.
/// Defaults: an adult of 1.75 m with the centre of mass at 0.55 of the stature and I = 1.2 m h^2, as a
/// posturology programme has them.
struct Pendulum {
    double stature_m = 1.75;
    double height_part = 0.55;  ///< height of the centre of mass over the stature
    double inertia = 1.2;       ///< I over m h^2; 1 for a point mass, 4/3 for a uniform rod
};

/// Natural frequency of the pendulum, rad/s: sqrt(g / (inertia h)).
[[nodiscard]] double natural_frequency(const Pendulum& pendulum);

/// An estimate of where the centre of mass is over the ground, from one axis of the CoP: zero-phase low pass
/// H(w) = w0^2 / (w0^2 + w^2) (Caron, Faure & Breniere 1997, J. Biomech. 30:1169). Values all known, one
/// entry a sample. The column is taken to stay where it begins and ends; within about a second of its ends
/// the estimate leans on that. Valid for swaying about the ankles; a swing turns and bends the body, so there
/// it shows the slow part only.
[[nodiscard]] std::vector<double> centre_of_mass_from_cop(std::span<const double> cop_m, double rate_hz,
                                                          const Pendulum& pendulum = {});

}  // namespace footing
