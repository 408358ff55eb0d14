// Kills `footing record` at random instants while a device sends to it in real time, and prints how often
// what is left opens, and the worst loss against the sender's own count (R10: all open, at most 0.25 s).
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <string>
#include <vector>

#include "tests/record/kill_cycle.h"

int main(int argc, char** argv) {
    using namespace footing;
    using namespace footing::samples;
    int kills = 500;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (std::string(argv[i]) == "--kills") kills = std::atoi(argv[i + 1]);
    }
    const ScratchFolder folder;
    Chance chance(20261125);
    std::vector<double> losses_s;
    int not_opened = 0;
    int invented = 0;
    int never_started = 0;
    for (int i = 0; i < kills; ++i) {
        const KillResult result =
            kill_a_recorder(FOOTING_PROGRAM, folder.path(), 5 + static_cast<int>(chance.below(1200)));
        switch (result.end) {
            case KillResult::End::opened:
                losses_s.push_back(result.seconds_lost);
                break;
            case KillResult::End::not_opened:
                ++not_opened;
                break;
            case KillResult::End::invented_samples:
                ++invented;
                break;
            case KillResult::End::never_started:
                ++never_started;
                break;
        }
    }
    std::sort(losses_s.begin(), losses_s.end());
    const int counted = kills - never_started;
    fmt::print(
        "kills {}, opened {} ({:.1f} %), not opened {}, with invented samples {}, recorder not up in time "
        "{}\n",
        kills, losses_s.size(), counted > 0 ? 100.0 * static_cast<double>(losses_s.size()) / counted : 0.0,
        not_opened, invented, never_started);
    if (!losses_s.empty()) {
        fmt::print("loss at the end: median {:.3f} s, p95 {:.3f} s, worst {:.3f} s\n",
                   losses_s[losses_s.size() / 2], losses_s[losses_s.size() * 95 / 100], losses_s.back());
    }
    return not_opened + invented == 0 && !losses_s.empty() ? 0 : 1;
}
