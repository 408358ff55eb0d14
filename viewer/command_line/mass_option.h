#pragma once

#include <optional>

#include "analysis/pressure/centre_of_mass.h"

namespace footing {

class Arguments;

/// The options --centre-of-mass and --stature of a verb.
struct MassOption {
    bool wanted = false;
    double stature_m = Pendulum{}.stature_m;
    [[nodiscard]] std::optional<Pendulum> pendulum() const;
};
void add_mass_option(Arguments& verb, MassOption& option);

}  // namespace footing
