#pragma once

#include <cstddef>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Finds swings while the frames come: the same finder as for a whole recording runs once a second over the
/// last half minute, so what it finds is what the recording will show, but for swings that are not over.
/// Deterministic: depends only on the samples. Not for the device thread: it allocates.
class LiveSwingFinder {
  public:
    LiveSwingFinder(double rate_hz, Hand hand, TargetBand band, SwingOptions options = {});

    /// Samples in the order of their counters. Returns how many swings were finished by this sample (0 most
    /// times).
    std::size_t add(const FrameStamp& stamp, const LoadSample& sample);

    /// Finished swings so far, in order of time; times are seconds from the first sample.
    [[nodiscard]] const std::vector<Swing>& swings() const { return swings_; }

  private:
    struct Kept {
        FrameStamp stamp;
        LoadSample sample;
    };
    std::size_t look();

    double rate_hz_;
    Hand hand_;
    TargetBand band_;
    SwingOptions options_;
    std::vector<Kept> kept_;
    std::uint64_t first_counter_ = 0;
    std::uint64_t next_look_ = 0;
    bool started_ = false;
    std::vector<Swing> swings_;
};

}  // namespace footing
