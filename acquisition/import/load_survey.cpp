#include "acquisition/import/load_survey.h"

#include <fmt/format.h>

#include <algorithm>

#include "acquisition/frame/units.h"

namespace footing {

namespace {

constexpr double lasting_part = 0.02;
constexpr double lightest_n = 250.0;
constexpr double heaviest_n = 3000.0;

struct LoadUnit {
    const char* name;
    double newtons;
};

/// NIST SP 811 (2008), appendix B.8: the pound-force and the kilogram-force.
constexpr LoadUnit usual_units[] = {
    {"kilograms", standard_gravity_m_s2},
    {"pounds", 4.4482216152605},
    {"kilonewtons", 1000.0},
    {"grams", standard_gravity_m_s2 / 1000.0},
};

/// "in kilograms (9.80665 N each) somebody of 75 kg": in which units a load would be that of a person.
std::string units_of_a_person(double load) {
    constexpr double lightest_person_kg = 25.0;
    constexpr double heaviest_person_kg = 200.0;
    std::string words;
    for (const LoadUnit& unit : usual_units) {
        const double mass_kg = load * unit.newtons / standard_gravity_m_s2;
        if (mass_kg < lightest_person_kg || mass_kg > heaviest_person_kg) continue;
        words += fmt::format("{} in {} ({:.6g} N each) {:.0f} kg", words.empty() ? "; it would be" : " or",
                             unit.name, unit.newtons, mass_kg);
    }
    return words;
}

}  // namespace

double LoadSurvey::reached_n(double part) const {
    if (loads_n_.empty()) return 0.0;
    std::vector<float> sorted = loads_n_;
    const auto at =
        sorted.begin() + static_cast<std::ptrdiff_t>(part * static_cast<double>(sorted.size() - 1));
    std::ranges::nth_element(sorted, at);
    return static_cast<double>(*at);
}

bool LoadSurvey::hangs() const {
    return reached_n(lasting_part) < -lightest_n && reached_n(1.0 - lasting_part) < lightest_n;
}

std::string LoadSurvey::doubt() const {
    const double most_n = reached_n(1.0 - lasting_part);
    const double mass_kg = most_n / standard_gravity_m_s2;
    if (most_n > heaviest_n) {
        return fmt::format("the load comes to {:.6g} N, as of {:.0f} kg, more than any golfer's{}", most_n,
                           mass_kg, units_of_a_person(most_n));
    }
    if (most_n < lightest_n) {
        return fmt::format(
            "the load is never above {:.3g} N for long, as of {:.1f} kg, so nobody stood there for long{}",
            most_n, mass_kg, units_of_a_person(most_n));
    }
    return "";
}

}  // namespace footing
