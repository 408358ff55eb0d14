// How soon live finding knows of an event, and what it costs.
//   live_bench [LESSONS] [SWINGS]
// An event can be known from the first frame on from which the finder of whole recordings, given no later
// frame, tells it within its own expanded uncertainty (k = 2) of what the whole recording tells, and goes on
// telling so with every frame more. For each event of each swing the same is asked of the live finder;
// printed is how much later it knew, and how long after the event itself that was.
#include <fmt/core.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <string>
#include <vector>

#include "analysis/swing/live_swing_finder.h"
#include "tests/support/swing_accuracy.h"
#include "tests/support/trace_slice.h"

using namespace footing;
using namespace footing::testing;

namespace {

constexpr double step_s = 0.01;
constexpr double kept_s = 30.0;

using Clock = std::chrono::steady_clock;

/// Of one event of one swing: since when it is told rightly without a break.
struct Told {
    std::optional<double> since_s;
    void look(bool told_now, double now_s) {
        if (!told_now) since_s.reset();
        if (told_now && !since_s) since_s = now_s;
    }
};

struct Watched {
    SwingEvents final;
    std::array<Told, named_events.size()> offline;
    std::array<Told, named_events.size()> live;
};

bool tells(const SwingEvents& events, const SwingEvents& final, std::size_t which) {
    const auto& now = events.*named_events[which].member;
    const auto& then = final.*named_events[which].member;
    return now && std::abs(now->time_s - then->time_s) <= 2.0 * std::max(now->u_s, then->u_s);
}

void look(std::array<Told, named_events.size()>& told, const SwingEvents& final,
          const std::vector<SwingEvents>& now, double now_s) {
    for (std::size_t which = 0; which < named_events.size(); ++which) {
        if (!(final.*named_events[which].member)) continue;
        const bool tells_it = std::ranges::any_of(now, [&](const SwingEvents& events) {
            return std::abs(events.impact->time_s - final.impact->time_s) < 1.0 &&
                   tells(events, final, which);
        });
        told[which].look(tells_it, now_s);
    }
}

double part_of(std::vector<double> values, double part) {
    if (values.empty()) return std::nan("");
    std::ranges::sort(values);
    return values[static_cast<std::size_t>(part * static_cast<double>(values.size() - 1) + 0.5)];
}

}  // namespace

int main(int argc, char** argv) {
    const int lessons = argc > 1 ? std::stoi(argv[1]) : 4;
    const int swings = argc > 2 ? std::stoi(argv[2]) : 6;
    std::array<std::vector<double>, named_events.size() + 1> later_s;  // the last: all of them
    std::array<std::vector<double>, named_events.size() + 1> after_s;
    std::vector<double> over_after_finish_s;
    std::size_t never = 0;
    std::size_t told_of_nothing = 0;
    double live_s = 0.0;
    double lesson_s = 0.0;
    std::vector<double> frame_s;
    for (int i = 0; i < lessons; ++i) {
        LessonPlan plan = plan_for(static_cast<MotionShape>(i % 8), Conditions::ordinary,
                                   90000 + static_cast<std::uint64_t>(i));
        plan.rate_hz = i % 2 == 0 ? 250.0 : 500.0;
        plan.swings = swings;
        plan.with_trigger = i % 4 >= 2;
        const GeneratedLesson lesson = generate_lesson(plan);
        const LoadTrace& trace = lesson.trace;
        std::vector<Watched> watched;
        for (const Swing& swing : analyse_swings(trace, plan.hand, {})) {
            if (swing.events.impact) watched.push_back({swing.events, {}, {}});
        }
        LiveSwingFinder live(plan.rate_hz, plan.hand, {});
        const auto step = static_cast<std::size_t>(step_s * plan.rate_hz + 0.5);
        bool tells_of_swing = false;
        for (std::size_t k = 0; k < trace.size(); ++k) {
            const auto begin = Clock::now();
            live.add({k, static_cast<std::uint64_t>(1e6 * trace.time_s[k]), 0,
                      trace.trigger[k] != 0 ? trigger_bit : std::uint16_t{0}},
                     sample_at(trace, k));
            frame_s.push_back(std::chrono::duration<double>(Clock::now() - begin).count());
            live_s += frame_s.back();
            const double now_s = trace.time_s[k];
            std::vector<SwingEvents> told;
            for (const Swing& swing : live.swings()) told.push_back(swing.events);
            if (live.under_way()) told.push_back(*live.under_way());
            const bool tells = live.under_way().has_value();
            if (tells && !tells_of_swing && std::ranges::none_of(watched, [&](const Watched& one) {
                    return std::abs(one.final.impact->time_s - live.under_way()->impact->time_s) < 1.0;
                }))
                ++told_of_nothing;
            tells_of_swing = tells;
            if (k % step != 0) continue;
            for (Watched& one : watched) {
                const double from_s = one.final.impact->time_s - 0.4;
                if (now_s < from_s || now_s > from_s + 6.0) continue;
                look(one.live, one.final, told, now_s);
            }
            const bool near_a_swing = std::ranges::any_of(watched, [&](const Watched& one) {
                const double from_s = one.final.impact->time_s - 0.4;
                return now_s >= from_s && now_s <= from_s + 6.0;
            });
            if (!near_a_swing) continue;
            const std::size_t first = k - std::min(k, static_cast<std::size_t>(kept_s * plan.rate_hz));
            std::vector<SwingEvents> known;
            for (const Swing& swing : analyse_swings(slice(trace, first, k + 1), plan.hand, {})) {
                if (!swing.events.impact) continue;
                SwingEvents events = swing.events;
                for (const NamedEvent& named : named_events) {
                    if (events.*named.member) (events.*named.member)->time_s += trace.time_s[first];
                }
                known.push_back(events);
            }
            for (Watched& one : watched) {
                const double from_s = one.final.impact->time_s - 0.4;
                if (now_s >= from_s && now_s <= from_s + 6.0) look(one.offline, one.final, known, now_s);
            }
        }
        lesson_s += trace.time_s.back();
        for (const Watched& one : watched) {
            for (std::size_t which = 0; which < named_events.size(); ++which) {
                if (!one.offline[which].since_s) continue;
                if (!one.live[which].since_s) {
                    ++never;
                    continue;
                }
                const double later = *one.live[which].since_s - *one.offline[which].since_s;
                const double after =
                    *one.live[which].since_s - (one.final.*named_events[which].member)->time_s;
                for (const std::size_t to : {which, named_events.size()}) {
                    later_s[to].push_back(later);
                    after_s[to].push_back(after);
                }
            }
        }
    }
    fmt::print("{:<12} {:>7} | {:>26} | {:>26}\n", "", "events", "later than it can be, ms",
               "after the event, ms");
    for (std::size_t which = 0; which <= named_events.size(); ++which) {
        const auto row = [](const std::vector<double>& all) {
            return fmt::format("p50 {:5.0f} p95 {:5.0f} max {:5.0f}", 1e3 * part_of(all, 0.5),
                               1e3 * part_of(all, 0.95), 1e3 * part_of(all, 1.0));
        };
        fmt::print("{:<12} {:>7} | {} | {}\n", which < named_events.size() ? named_events[which].name : "all",
                   later_s[which].size(), row(later_s[which]), row(after_s[which]));
    }
    fmt::print("never known live though it could be: {}; told of a swing that was none: {} times\n", never,
               told_of_nothing);
    fmt::print("cost: {:.2f} % of a core; a frame takes {:.1f} ms at p99.9, {:.1f} ms at most\n",
               100.0 * live_s / lesson_s, 1e3 * part_of(frame_s, 0.999), 1e3 * part_of(frame_s, 1.0));
    return 0;
}
