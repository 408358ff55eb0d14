#include "tests/support/swing_accuracy.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace footing::testing {

namespace {

void append(std::vector<double>& to, const std::vector<double>& from) {
    to.insert(to.end(), from.begin(), from.end());
}

/// Any instant of a pause at the lowest share is where the share is lowest.
double nearest_turnaround_s(const std::optional<Event>& event, const TrueSwing& truth) {
    return event ? std::clamp(event->time_s, truth.turnaround_s, truth.turnaround_ends_s)
                 : truth.turnaround_s;
}

void note(const std::optional<Event>& event, double truth_s, std::vector<double>& errors,
          std::vector<double>& in_u) {
    if (!event) return;
    errors.push_back(event->time_s - truth_s);
    in_u.push_back((event->time_s - truth_s) / event->u_s);
}

void note(const std::optional<ShareValue>& share, double truth, std::vector<double>& errors,
          std::vector<double>& in_u) {
    if (!share) return;
    errors.push_back(share->value - truth);
    in_u.push_back((share->value - truth) / share->u);
}

std::vector<double> sizes(std::vector<double> errors) {
    for (double& error : errors) error = std::abs(error);
    std::ranges::sort(errors);
    return errors;
}

}  // namespace

double SwingErrors::recall() const {
    return static_cast<double>(found_right) / static_cast<double>(true_swings);
}
double SwingErrors::precision() const {
    return static_cast<double>(found_right) / static_cast<double>(found_right + found_wrong);
}

void SwingErrors::add(const SwingErrors& other) {
    true_swings += other.true_swings;
    found_right += other.found_right;
    found_wrong += other.found_wrong;
    for (const auto member :
         {&SwingErrors::takeaway_s, &SwingErrors::turnaround_s, &SwingErrors::impact_s,
          &SwingErrors::finish_s, &SwingErrors::address, &SwingErrors::lowest, &SwingErrors::impact,
          &SwingErrors::finish, &SwingErrors::takeaway_in_u, &SwingErrors::turnaround_in_u,
          &SwingErrors::impact_in_u, &SwingErrors::finish_in_u, &SwingErrors::address_in_u,
          &SwingErrors::lowest_in_u, &SwingErrors::impact_share_in_u, &SwingErrors::finish_share_in_u})
        append(this->*member, other.*member);
}

SwingErrors compare(const GeneratedLesson& lesson, const std::vector<Swing>& found) {
    SwingErrors errors;
    errors.true_swings = lesson.swings.size();
    std::vector<bool> used(found.size(), false);
    for (const TrueSwing& truth : lesson.swings) {
        for (std::size_t i = 0; i < found.size(); ++i) {
            const SwingEvents& events = found[i].events;
            if (used[i] || !events.impact || events.impact->time_s <= truth.takeaway_s ||
                events.impact->time_s >= truth.impact_s + 0.35)
                continue;
            used[i] = true;
            ++errors.found_right;
            note(events.takeaway, truth.takeaway_s, errors.takeaway_s, errors.takeaway_in_u);
            if (truth.path != LoadPath::stays_lead && truth.path != LoadPath::nearly_constant)
                note(events.turnaround, nearest_turnaround_s(events.turnaround, truth), errors.turnaround_s,
                     errors.turnaround_in_u);
            note(events.impact, truth.impact_s, errors.impact_s, errors.impact_in_u);
            note(events.finish, truth.finish_s, errors.finish_s, errors.finish_in_u);
            const SwingShares& shares = found[i].lead_share;
            note(shares.address, truth.address_share, errors.address, errors.address_in_u);
            note(shares.lowest, truth.lowest_share, errors.lowest, errors.lowest_in_u);
            note(shares.impact, truth.impact_share, errors.impact, errors.impact_share_in_u);
            note(shares.finish, truth.finish_share, errors.finish, errors.finish_share_in_u);
            break;
        }
    }
    errors.found_wrong = static_cast<std::size_t>(std::ranges::count(used, false));
    return errors;
}

double median_of(std::vector<double> values) {
    if (values.empty()) return 0.0;
    std::ranges::sort(values);
    return values[values.size() / 2];
}
double median_size(std::vector<double> errors) {
    return median_of(sizes(std::move(errors)));
}
double p95_size(std::vector<double> errors) {
    if (errors.empty()) return 0.0;
    const std::vector<double> sorted = sizes(std::move(errors));
    return sorted[sorted.size() * 95 / 100];
}
double covered_by_two(const std::vector<double>& errors_in_u) {
    const auto covered =
        std::ranges::count_if(errors_in_u, [](double error) { return std::abs(error) <= 2.0; });
    return errors_in_u.empty() ? 0.0 : static_cast<double>(covered) / static_cast<double>(errors_in_u.size());
}

LessonPlan plan_for(MotionShape shape, Conditions conditions, std::uint64_t seed) {
    constexpr std::array<double, 5> rates_hz{1000, 100, 500, 250, 2000};
    constexpr std::array<double, 6> masses_kg{75, 45, 60, 90, 110, 130};
    LessonPlan plan;
    plan.shape = shape;
    plan.seed = seed;
    plan.rate_hz = rates_hz[seed % rates_hz.size()];
    plan.mass_kg = masses_kg[seed % masses_kg.size()];
    plan.hand = seed % 2 == 0 ? Hand::right : Hand::left;
    if (shape >= MotionShape::straight) {
        constexpr std::array<NoiseColour, 4> colours{NoiseColour::plain, NoiseColour::pink_sway,
                                                     NoiseColour::drift_and_hum, NoiseColour::quantised};
        plan.golfers = Golfers::all_kinds;
        plan.colour = colours[(seed / 2) % colours.size()];
    }
    switch (conditions) {
        case Conditions::quiet:
            plan.sway_share = 0.002;
            plan.noise_n = 0.4;
            break;
        case Conditions::ordinary:
            plan.sway_share = 0.005;
            plan.noise_n = 1.0;
            break;
        case Conditions::worst:
            plan.sway_share = 0.012;
            plan.noise_n = 4.0;
            break;
    }
    return plan;
}

}  // namespace footing::testing
