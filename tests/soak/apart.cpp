// Two simulated plates, each a device with a clock of its own on its own UDP socket, are recorded as one
// lesson and set against what really happened. Prints how far apart in true time joined frames lie, and how
// far their share is off; fails beyond 1 ms RMS (3 ms at more than real time), and where a share's stated
// uncertainty does not cover its error.
//
//     apart_soak [--swings 3] [--speed 1]
#include <fmt/format.h>

#include <cstdlib>
#include <string>

#include "tests/field/apart_lesson.h"

int main(int argc, char** argv) {
    footing::test::ApartOptions options;
    for (int i = 1; i + 1 < argc; i += 2) {
        const std::string word = argv[i];
        if (word == "--swings") options.swings = static_cast<std::size_t>(std::atoi(argv[i + 1]));
        if (word == "--speed") options.speed = std::atof(argv[i + 1]);
    }
    const footing::test::ApartLesson lesson = footing::test::record_apart_lesson(options);
    fmt::print(
        "two plates, clocks {:+.0f} and {:+.0f} ppm, each frame held back {:.0f} ms on average: {} joined "
        "frames in {:.1f} s\n",
        options.left_ppm, options.right_ppm, options.delay_ms, lesson.frames, lesson.duration_s);
    fmt::print(
        "  frames that were joined lie {:.3f} ms RMS apart in true time, {:.3f} ms at most; stated: {:.3f} "
        "ms\n",
        lesson.rms_ms, lesson.most_ms, lesson.stated_ms);
    fmt::print("  lead share off by {:.4f} RMS; {} of {} shares at events within two stated uncertainties\n",
               lesson.share_rms, lesson.events_within_2u, lesson.events);
    const double most_rms_ms = options.speed > 1.0 ? 3.0 : 1.0;
    const bool sound = lesson.frames > 1000 && lesson.rms_ms < most_rms_ms && lesson.events > 0 &&
                       lesson.events_within_2u == lesson.events;
    return sound ? 0 : 1;
}
