#include "viewer/command_line/mass_option.h"

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"

namespace footing {

std::optional<Pendulum> MassOption::pendulum() const {
    if (!wanted) return std::nullopt;
    Pendulum body;
    body.stature_m = stature_m;
    return body;
}

void add_mass_option(Arguments& verb, MassOption& option) {
    Argument* wanted =
        verb.add_flag("--centre-of-mass", option.wanted,
                      "estimate the centre of mass too, by an inverted pendulum; an estimate only");
    verb.add_option("--stature", option.stature_m, "the student's stature in metres, for that estimate")
        ->check(number_between(0.8, 2.3))
        ->needs(wanted)
        ->capture_default_str();
}

}  // namespace footing
