#include "viewer/window/sound_player.h"

#include <AL/al.h>
#include <AL/alc.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstddef>
#include <cstdlib>
#include <filesystem>
#include <memory>
#include <numbers>
#include <string>
#include <system_error>
#include <utility>

namespace footing {

namespace {

constexpr int rate_hz = 44'100;
constexpr double loudest = 0.4;  // of full scale
constexpr double ramp_s = 0.008;
constexpr std::chrono::seconds quiet_before_rest{5};
constexpr std::size_t sound_count = 3;

struct Note {
    double pitch_hz;
    double length_s;
    double pause_s;
};

std::vector<Note> notes_of(Sound sound) {
    switch (sound) {
        case Sound::ready:
            return {{660.0, 0.12, 0.0}};
        case Sound::captured:
            return {{660.0, 0.09, 0.03}, {990.0, 0.14, 0.0}};
        case Sound::problem:
            return {{220.0, 0.18, 0.07}, {220.0, 0.18, 0.07}, {220.0, 0.3, 0.0}};
    }
    return {};
}

void append(std::vector<std::int16_t>& samples, const Note& note) {
    const auto count = static_cast<std::size_t>(note.length_s * rate_hz);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = static_cast<double>(i) / rate_hz;
        const double from_edge = std::min(t, note.length_s - t);
        const double ramp = std::clamp(from_edge / ramp_s, 0.0, 1.0);
        // A little of the third partial, so that small loudspeakers carry the low note too.
        const double phase = 2.0 * std::numbers::pi * note.pitch_hz * t;
        const double wave = 0.8 * std::sin(phase) + 0.2 * std::sin(3.0 * phase);
        samples.push_back(static_cast<std::int16_t>(std::lround(32767.0 * loudest * ramp * wave)));
    }
    samples.resize(samples.size() + static_cast<std::size_t>(note.pause_s * rate_hz), 0);
}

/// Whether there is a loudspeaker or a sound server: without either the libraries below OpenAL complain at
/// length on standard error.
bool has_something_to_play_through() {
    std::error_code ignored;
    const auto said = [](const char* name) {
        const char* value = std::getenv(name);
        return value != nullptr && *value != '\0';
    };
    if (said("PULSE_SERVER") || said("ALSOFT_DRIVERS")) return true;
    if (said("XDG_RUNTIME_DIR") &&
        std::filesystem::exists(std::filesystem::path(std::getenv("XDG_RUNTIME_DIR")) / "pulse" / "native",
                                ignored))
        return true;
    for (const auto& node : std::filesystem::directory_iterator("/dev/snd", ignored)) {
        const std::string name = node.path().filename().string();
        if (name.starts_with("pcm") && name.ends_with("p")) return true;  // ALSA's name of an output
    }
    return false;
}

/// OpenAL's device with one buffer and one source for each sound.
class Device {
  public:
    Device()
        : device_(has_something_to_play_through()
                      ? alcOpenDevice(nullptr)
                      : nullptr) {  // may take a while: the computer's sound server answers
        if (!device_) return;
        context_ = alcCreateContext(device_, nullptr);
        if (!context_ || alcMakeContextCurrent(context_) != ALC_TRUE) return;
        alGenBuffers(static_cast<ALsizei>(sound_count), buffers_.data());
        alGenSources(static_cast<ALsizei>(sound_count), sources_.data());
        for (std::size_t i = 0; i < sound_count; ++i) {
            const Tone tone = tone_of(static_cast<Sound>(i));
            alBufferData(buffers_[i], AL_FORMAT_MONO16, tone.samples.data(),
                         static_cast<ALsizei>(tone.samples.size() * sizeof(std::int16_t)), tone.rate_hz);
            alSourcei(sources_[i], AL_BUFFER, static_cast<ALint>(buffers_[i]));
        }
        works_ = alGetError() == AL_NO_ERROR;
    }
    ~Device() {
        if (context_) {
            alDeleteSources(static_cast<ALsizei>(sound_count), sources_.data());
            alDeleteBuffers(static_cast<ALsizei>(sound_count), buffers_.data());
            alcMakeContextCurrent(nullptr);
            alcDestroyContext(context_);
        }
        if (device_) alcCloseDevice(device_);
    }
    Device(const Device&) = delete;
    Device& operator=(const Device&) = delete;

    void play(Sound sound) {
        if (works_) alSourcePlay(sources_[static_cast<std::size_t>(sound)]);
    }

  private:
    ALCdevice* device_ = nullptr;
    ALCcontext* context_ = nullptr;
    std::array<ALuint, sound_count> buffers_{};
    std::array<ALuint, sound_count> sources_{};
    bool works_ = false;
};
}  // namespace

Tone tone_of(Sound sound) {
    Tone tone;
    tone.rate_hz = rate_hz;
    for (const Note& note : notes_of(sound)) append(tone.samples, note);
    tone.samples.push_back(0);
    return tone;
}

SoundPlayer::SoundPlayer() = default;

SoundPlayer::~SoundPlayer() {
    {
        const std::scoped_lock lock(mutex_);
        over_ = true;
    }
    wakes_.notify_all();
    if (thread_.joinable()) thread_.join();
}

void SoundPlayer::play(Sound sound) {
    {
        const std::scoped_lock lock(mutex_);
        asked_ = sound;
    }
    if (!thread_.joinable()) thread_ = std::thread([this] { run(); });
    wakes_.notify_all();
}

void SoundPlayer::run() {
    std::unique_ptr<Device> device;
    std::unique_lock lock(mutex_);
    while (!over_) {
        const auto awake = [this] { return over_ || asked_.has_value(); };
        if (!device) {
            wakes_.wait(lock, awake);
        } else if (!wakes_.wait_for(lock, quiet_before_rest, awake)) {
            device.reset();
        }
        if (over_ || !asked_) continue;
        const Sound sound = *std::exchange(asked_, std::nullopt);
        lock.unlock();
        if (!device) device = std::make_unique<Device>();
        device->play(sound);
        lock.lock();
    }
}

}  // namespace footing
