// How well swings are found and timed on motions that were made up in four ways, none of them the finder's
// own.
#include <fmt/core.h>

#include <chrono>
#include <string>

#include "tests/support/swing_accuracy.h"

using namespace footing;
using namespace footing::testing;

namespace {

void print_row(const std::string& name, const SwingErrors& e) {
    const auto times = [](const std::vector<double>& errors) {
        return fmt::format("{:+4.0f} {:4.0f} {:4.0f}", 1e3 * median_of(errors), 1e3 * median_size(errors),
                           1e3 * p95_size(errors));
    };
    fmt::print("{:<22} {:6.2f} {:6.2f} | {} | {} | {} | {} | {:5.2f} {:5.2f} {:5.2f}\n", name,
               100 * e.recall(), 100 * e.precision(), times(e.takeaway_s), times(e.turnaround_s),
               times(e.impact_s), times(e.finish_s), 100 * p95_size(e.address), 100 * p95_size(e.lowest),
               100 * p95_size(e.impact));
}

void print_coverage(const SwingErrors& e) {
    fmt::print(
        "  within k = 2, %: takeaway {:.1f}, turnaround {:.1f}, impact {:.1f}, finish {:.1f}; shares: "
        "address {:.1f}, "
        "lowest {:.1f}, impact {:.1f}\n",
        100 * covered_by_two(e.takeaway_in_u), 100 * covered_by_two(e.turnaround_in_u),
        100 * covered_by_two(e.impact_in_u), 100 * covered_by_two(e.finish_in_u),
        100 * covered_by_two(e.address_in_u), 100 * covered_by_two(e.lowest_in_u),
        100 * covered_by_two(e.impact_share_in_u));
}

}  // namespace

int main(int argc, char** argv) {
    const int lessons = argc > 1 ? std::stoi(argv[1]) : 6;
    const std::uint64_t first_seed = argc > 2 ? std::stoull(argv[2]) : 5000;
    fmt::print(
        "errors: bias, median and p95 of the size, ms; shares: p95, points\n{:<22} {:>6} {:>6} | {:^14} | "
        "{:^14} | {:^14} "
        "| {:^14} | {:>5} {:>5} {:>5}\n",
        "", "recall", "prec.", "takeaway", "turnaround", "impact", "finish", "addr.", "low.", "imp.");
    constexpr const char* shapes[] = {"minimum jerk", "logistic", "pendulum", "beta bumps"};
    constexpr const char* conditions[] = {"quiet", "ordinary", "worst"};
    for (int condition = 0; condition < 3; ++condition) {
        SwingErrors all;
        for (int shape = 0; shape < 4; ++shape) {
            SwingErrors errors;
            for (int i = 0; i < lessons; ++i) {
                const LessonPlan plan =
                    plan_for(static_cast<MotionShape>(shape), static_cast<Conditions>(condition),
                             first_seed + static_cast<std::uint64_t>(i));
                const GeneratedLesson lesson = generate_lesson(plan);
                errors.add(compare(lesson, analyse_swings(lesson.trace, plan.hand, {})));
            }
            print_row(fmt::format("{}, {}", shapes[shape], conditions[condition]), errors);
            all.add(errors);
        }
        print_row(fmt::format("all, {}", conditions[condition]), all);
        print_coverage(all);
    }
    LessonPlan plan;
    plan.swings = 120;
    for (const int swings : {60, 120, 240}) {
        plan.swings = swings;
        const GeneratedLesson lesson = generate_lesson(plan);
        const auto begin = std::chrono::steady_clock::now();
        const std::size_t found = analyse_swings(lesson.trace, plan.hand, {}).size();
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
        fmt::print("{:.1f} min at 1 kHz, {} swings: {:.3f} s\n",
                   static_cast<double>(lesson.trace.size()) / 60e3, found, took.count());
    }
    return 0;
}
