// How well swings are found and timed on motions that were made up in eight ways, none of them the finder's
// own, and in a ninth that was kept out while the finder's rules were set.
//   accuracy_bench [LESSONS] [FIRST SEED] [misses]
// `misses` also tells of every swing that was missed and of everything that was taken for one.
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>
#include <string_view>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_finder.h"
#include "tests/support/swing_accuracy.h"

using namespace footing;
using namespace footing::testing;

namespace {

constexpr const char* shape_names[] = {"minimum jerk", "logistic",  "pendulum", "beta bumps", "straight",
                                       "asymmetric",   "two stage", "spline",   "half cosine"};
constexpr const char* condition_names[] = {"quiet", "ordinary", "worst"};
constexpr const char* path_names[] = {"trail then lead", "stays lead", "nearly constant", "hangs back",
                                      "half swing"};

void print_head() {
    fmt::print(
        "errors: bias, median and p95 of the size, ms; shares: p95, points\n{:<24} {:>6} {:>6} | {:^14} | "
        "{:^14} | {:^14} | {:^14} | {:>5} {:>5} {:>5}\n",
        "", "recall", "prec.", "takeaway", "turnaround", "impact", "finish", "addr.", "low.", "imp.");
}

void print_row(const std::string& name, const SwingErrors& e) {
    const auto times = [](const std::vector<double>& errors) {
        return fmt::format("{:+4.0f} {:4.0f} {:4.0f}", 1e3 * median_of(errors), 1e3 * median_size(errors),
                           1e3 * p95_size(errors));
    };
    fmt::print("{:<24} {:6.2f} {:6.2f} | {} | {} | {} | {} | {:5.2f} {:5.2f} {:5.2f}\n", name,
               100 * e.recall(), 100 * e.precision(), times(e.takeaway_s), times(e.turnaround_s),
               times(e.impact_s), times(e.finish_s), 100 * p95_size(e.address), 100 * p95_size(e.lowest),
               100 * p95_size(e.impact));
}

void print_coverage(const SwingErrors& e) {
    const auto part = [](const std::vector<double>& in_u) { return 100 * covered_by_two(in_u); };
    fmt::print(
        "  within k = 2, %: takeaway {:.1f}, turnaround {:.1f}, impact {:.1f}, finish {:.1f}; shares: "
        "address {:.1f}, lowest {:.1f}, impact {:.1f}, finish {:.1f}\n",
        part(e.takeaway_in_u), part(e.turnaround_in_u), part(e.impact_in_u), part(e.finish_in_u),
        part(e.address_in_u), part(e.lowest_in_u), part(e.impact_share_in_u), part(e.finish_share_in_u));
}

void print_misses(const GeneratedLesson& lesson, const LessonPlan& plan, const std::vector<Swing>& found) {
    const auto is_right = [](const TrueSwing& truth, const Swing& swing) {
        return swing.events.impact && swing.events.impact->time_s > truth.takeaway_s &&
               swing.events.impact->time_s < truth.impact_s + 0.35;
    };
    const StanceSignals signals = stance_signals(lesson.trace, plan.hand, {});
    const std::vector<SwingCandidate> candidates = weigh_candidates(signals, {});
    for (const TrueSwing& truth : lesson.swings) {
        if (std::ranges::any_of(found, [&](const Swing& swing) { return is_right(truth, swing); })) continue;
        fmt::print("    missed at {:.2f} ({}, {:.0f} Hz, colour {}, seed {}):", truth.impact_s,
                   path_names[static_cast<int>(truth.path)], plan.rate_hz, static_cast<int>(plan.colour),
                   plan.seed);
        for (const SwingCandidate& c : candidates) {
            if (std::abs(signals.time_s(static_cast<double>(c.middle)) - truth.impact_s) > 1.0) continue;
            fmt::print(" [{:+.2f} {}, return {:.3f} in {:.2f} s, push {:.3f}, departed {}]",
                       signals.time_s(static_cast<double>(c.middle)) - truth.impact_s, name_of(c.verdict),
                       c.return_share, c.return_s, c.push_bw, c.departed);
        }
        fmt::print("\n");
    }
    for (const Swing& swing : found) {
        const double at_s = swing.events.impact ? swing.events.impact->time_s : swing.from_s;
        if (std::ranges::any_of(lesson.swings,
                                [&](const TrueSwing& truth) { return is_right(truth, swing); }))
            continue;
        std::string what = "a pause";
        for (const Distraction& d : lesson.distractions) {
            if (at_s > d.from_s - 0.6 && at_s < d.to_s + 0.6) what = d.what;
        }
        fmt::print("    taken for a swing at {:.2f}: {}, {:.0f} Hz, colour {}, seed {}", at_s, what,
                   plan.rate_hz, static_cast<int>(plan.colour), plan.seed);
        for (const SwingCandidate& c : candidates) {
            if (c.verdict != NotASwing::none ||
                std::abs(signals.time_s(static_cast<double>(c.middle)) - at_s) > 0.6)
                continue;
            fmt::print(" [return {:.3f} in {:.2f} s, push {:.3f}, departed {}, departure {:.2f} s]",
                       c.return_share, c.return_s, c.push_bw, c.departed, c.departure_s);
        }
        fmt::print("\n");
    }
}

}  // namespace

int main(int argc, char** argv) {
    const int lessons = argc > 1 ? std::stoi(argv[1]) : 6;
    const std::uint64_t first_seed = argc > 2 ? std::stoull(argv[2]) : 5000;
    const bool misses = argc > 3 && std::string_view(argv[3]) == "misses";
    const auto run = [&](MotionShape shape, Conditions condition, auto change) {
        SwingErrors errors;
        for (int i = 0; i < lessons; ++i) {
            LessonPlan plan = plan_for(shape, condition, first_seed + static_cast<std::uint64_t>(i));
            change(plan);
            const GeneratedLesson lesson = generate_lesson(plan);
            const std::vector<Swing> found = analyse_swings(lesson.trace, plan.hand, {});
            errors.add(compare(lesson, found));
            if (misses) print_misses(lesson, plan, found);
        }
        return errors;
    };
    print_head();
    for (int condition = 0; condition < 3; ++condition) {
        SwingErrors all;
        for (int first : {0, 4}) {
            SwingErrors four;
            for (int shape = first; shape < first + 4; ++shape) {
                const SwingErrors errors = run(static_cast<MotionShape>(shape),
                                               static_cast<Conditions>(condition), [](LessonPlan&) {});
                print_row(fmt::format("{}, {}", shape_names[shape], condition_names[condition]), errors);
                four.add(errors);
            }
            print_row(
                fmt::format("{}, {}", first == 0 ? "usual golfers" : "all kinds", condition_names[condition]),
                four);
            print_coverage(four);
            all.add(four);
        }
        print_row(fmt::format("all, {}", condition_names[condition]), all);
        print_coverage(all);
    }
    // Half a sample of 100 Hz is 5 ms, so that what a trigger gives is told for faster plates alone as well.
    for (const double least_rate_hz : {0.0, 250.0}) {
        SwingErrors triggered;
        for (int shape = 0; shape < 8; ++shape) {
            triggered.add(run(static_cast<MotionShape>(shape), Conditions::ordinary, [&](LessonPlan& plan) {
                plan.with_trigger = true;
                plan.stray_triggers = 0.2;
                if (plan.rate_hz < least_rate_hz) plan.rate_hz = least_rate_hz;
            }));
        }
        print_row(least_rate_hz > 0.0 ? "trigger, 250 Hz and more" : "trigger, with stray ones", triggered);
        print_coverage(triggered);
    }

    for (int condition = 0; condition < 3; ++condition) {
        const SwingErrors kept_out =
            run(MotionShape::half_cosine, static_cast<Conditions>(condition), [](LessonPlan&) {});
        print_row(fmt::format("kept out, {}", condition_names[condition]), kept_out);
        print_coverage(kept_out);
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
