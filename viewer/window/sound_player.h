#pragma once

#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "viewer/panels/sounds.h"

namespace footing {

/// A tone as it is played: one channel, 16 bits.
struct Tone {
    int rate_hz = 44'100;
    std::vector<std::int16_t> samples;
};

/// One short note for ready, two that rise for captured, three low ones for a problem: told apart by number
/// and pitch. Begins and ends in silence, without a click.
[[nodiscard]] Tone tone_of(Sound sound);

/// Plays sounds through whatever the computer offers, on a thread of its own: the device is opened at the
/// first sound and let go of some seconds after the last, so that an idle window costs nothing. Where there
/// is nothing to play through, or it goes away, nothing is heard and nothing else happens. play() never
/// waits.
class SoundPlayer {
  public:
    SoundPlayer();
    ~SoundPlayer();
    SoundPlayer(const SoundPlayer&) = delete;
    SoundPlayer& operator=(const SoundPlayer&) = delete;

    void play(Sound sound);

  private:
    void run();

    std::mutex mutex_;
    std::condition_variable wakes_;
    std::optional<Sound> asked_;
    bool over_ = false;
    std::thread thread_;  ///< last: it uses all of the above; not started before the first sound
};

}  // namespace footing
