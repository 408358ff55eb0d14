// The signs of everything that the swing finder weighs, one movement a line, for
// tests/bench/swing_odds/fit.py.
//   signs_bench own LESSONS FIRST-SEED   lessons of the project's own generators, with the truth
//   signs_bench FILE                     a recording
// Lines: LESSON WHOSE CONDITIONS; TRUE TAKEAWAY IMPACT FINISH, in s; SIGNS S BY-RULES VALUE..., when its push
// was where that came later than the return, else its middle; where the movement has one PORTRAIT ADDRESS
// REST PUSH AWAY LATENESS LOAD... SHARE..., as in SwingPortrait; the first line names the signs.
#include <fmt/core.h>
#include <fmt/ranges.h>

#include <string>
#include <string_view>

#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing_finder.h"
#include "analysis/swing/swing_likeness.h"
#include "analysis/swing/swing_signs.h"
#include "tests/support/swing_accuracy.h"
#include "viewer/lesson/read_loads.h"

using namespace footing;
using namespace footing::testing;

namespace {

constexpr int generator_count = 9;
constexpr const char* condition_names[] = {"quiet", "ordinary", "worst"};

void print_signs(const LoadTrace& trace, Hand hand) {
    const StanceSignals signals = stance_signals(trace, hand, {});
    for (const SwingCandidate& candidate : weigh_candidates(signals, {})) {
        if (!candidate.signs) continue;
        const std::size_t when = candidate.pushes_later ? candidate.push_peak : candidate.middle;
        fmt::print("SIGNS {:.3f} {} {:.5g}\n", signals.time_s(static_cast<double>(when)),
                   candidate.by_rules ? 1 : 0, fmt::join(*candidate.signs, " "));
        if (const auto one = portrait_of(candidate, signals))
            fmt::print("PORTRAIT {:.4g} {:.4g} {:.4g} {:.4g} {:.4g} {:.4g} {:.4g}\n", one->address_share,
                       one->rest_level, one->log_push, one->log_away, one->lateness_s,
                       fmt::join(one->load, " "), fmt::join(one->share, " "));
    }
}

void print_own(int lessons, std::uint64_t first_seed) {
    for (int shape = 0; shape < generator_count; ++shape) {
        for (int condition = 0; condition < 3; ++condition) {
            for (int i = 0; i < lessons; ++i) {
                const LessonPlan plan =
                    plan_for(static_cast<MotionShape>(shape), static_cast<Conditions>(condition),
                             first_seed + static_cast<std::uint64_t>(i));
                const GeneratedLesson lesson = generate_lesson(plan);
                fmt::print("LESSON own {}\n", condition_names[condition]);
                for (const TrueSwing& swing : lesson.swings)
                    fmt::print("TRUE {:.3f} {:.3f} {:.3f}\n", swing.takeaway_s, swing.impact_s,
                               swing.finish_s);
                print_signs(lesson.trace, plan.hand);
            }
        }
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc == 4 && std::string_view(argv[1]) == "own") {
        fmt::print("NAMES {}\n", fmt::join(sign_names, " "));
        print_own(std::stoi(argv[2]), std::stoull(argv[3]));
        return 0;
    }
    if (argc != 2) {
        fmt::print(stderr, "signs_bench own LESSONS FIRST-SEED, or signs_bench FILE\n");
        return 2;
    }
    const auto loads = read_loads(argv[1]);
    if (!loads) {
        fmt::print(stderr, "{}\n", sentence(loads.problem()));
        return 3;
    }
    fmt::print("NAMES {}\n", fmt::join(sign_names, " "));
    print_signs(loads.value().trace, loads.value().facts.hand);
    return 0;
}
