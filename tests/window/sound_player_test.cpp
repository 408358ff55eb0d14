#include "viewer/window/sound_player.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <numbers>
#include <utility>

using namespace footing;

namespace {

constexpr std::array all_sounds{Sound::ready, Sound::captured, Sound::problem};

/// Power at one pitch (Goertzel 1958), against all power of the tone.
double part_at(const Tone& tone, double pitch_hz) {
    const double step = 2.0 * std::numbers::pi * pitch_hz / tone.rate_hz;
    double s1 = 0.0;
    double s2 = 0.0;
    double all = 0.0;
    for (const std::int16_t sample : tone.samples) {
        const double x = sample / 32768.0;
        const double s0 = x + 2.0 * std::cos(step) * s1 - s2;
        s2 = std::exchange(s1, s0);
        all += x * x;
    }
    const double power = s1 * s1 + s2 * s2 - 2.0 * std::cos(step) * s1 * s2;
    return 2.0 * power / (all * static_cast<double>(tone.samples.size()));
}

/// How many notes: stretches of sound between stretches of 20 ms of silence.
int notes_in(const Tone& tone) {
    int notes = 0;
    int silent = tone.rate_hz;
    for (const std::int16_t sample : tone.samples) {
        if (std::abs(sample) > 300) {
            if (silent > tone.rate_hz / 50) ++notes;
            silent = 0;
        } else {
            ++silent;
        }
    }
    return notes;
}

}  // namespace

TEST_CASE("the three sounds differ in the number of their notes and in pitch (U11)") {
    CHECK(notes_in(tone_of(Sound::ready)) == 1);
    CHECK(notes_in(tone_of(Sound::captured)) == 2);
    CHECK(notes_in(tone_of(Sound::problem)) == 3);
    CHECK(part_at(tone_of(Sound::ready), 660.0) > 0.5);
    CHECK(part_at(tone_of(Sound::captured), 990.0) > 0.2);
    CHECK(part_at(tone_of(Sound::ready), 990.0) < 0.05);
    CHECK(part_at(tone_of(Sound::problem), 220.0) > 0.2);
    CHECK(part_at(tone_of(Sound::problem), 660.0) < 0.1);  // the third partial only
}

TEST_CASE("sounds begin and end in silence, are short and not clipped") {
    for (const Sound sound : all_sounds) {
        const Tone tone = tone_of(sound);
        REQUIRE_FALSE(tone.samples.empty());
        CHECK(std::abs(tone.samples.front()) < 50);
        CHECK(tone.samples.back() == 0);
        CHECK(tone.samples.size() < static_cast<std::size_t>(tone.rate_hz));
        CHECK(
            std::ranges::all_of(tone.samples, [](std::int16_t sample) { return std::abs(sample) < 16'384; }));
    }
}

TEST_CASE("playing never waits and needs no sound device") {
    // OpenAL Soft's own word for "no driver": what a computer without a device does.
    setenv("ALSOFT_DRIVERS", "none_of_them", 1);
    {
        SoundPlayer player;
        for (int i = 0; i < 20; ++i) player.play(all_sounds[static_cast<std::size_t>(i) % all_sounds.size()]);
    }
    unsetenv("ALSOFT_DRIVERS");
}
