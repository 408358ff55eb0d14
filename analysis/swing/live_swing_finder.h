#pragma once

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/units.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/swing/stance_signals.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/swing_options.h"
#include "analysis/swing/verdict.h"

namespace footing {

/// Finds swings while the frames come, by the finder of whole recordings (docs/formulas.md, F22b). Each 50 ms
/// it looks over the last ten seconds for the events of a swing that is under way, with the levels of
/// stillness of the last half minute; once a second, and when that swing is over, over the last half minute.
/// A swing is over a quarter of a second after its finish, so that its replay can stand there at once; a
/// second after the finish it is complete: told again, as what the recording will show. Deterministic:
/// depends only on the samples. Not for the device thread: it allocates.
class LiveSwingFinder {
  public:
    LiveSwingFinder(double rate_hz, Hand hand, TargetBand band, SwingOptions options = {});

    /// How wrong loads may be, from here on; swings that are complete keep what was known then.
    void know_loads(LoadUncertainty loads) { options_.loads = std::move(loads); }

    /// Samples in the order of their counters. Returns how many swings were finished by this sample (0 most
    /// times).
    std::size_t add(const FrameStamp& stamp, const LoadSample& sample);

    /// Swings that are over so far, in order of time; times are seconds from the first sample. The last one
    /// may not be complete.
    [[nodiscard]] const std::vector<Swing>& swings() const { return swings_; }
    /// How many of them are complete: only their kind may change any more, as more evidence comes.
    [[nodiscard]] std::size_t completed() const { return swings_.size() - (to_complete_ ? 1 : 0); }

    /// What is known so far of a swing that is not over; nothing where none is under way. Times as in
    /// swings(). What is not held or not struck out in the end may still vanish.
    [[nodiscard]] const std::optional<SwingEvents>& under_way() const { return under_way_; }
    /// The samples of the last half minute that lie within [from_s, to_s], seconds from the first sample:
    /// what a swing that was just found is replayed from.
    [[nodiscard]] LoadTrace stretch(double from_s, double to_s) const;

  private:
    struct Kept {
        FrameStamp stamp;
        LoadSample sample;
    };
    enum class LookAt { tail, half_minute };
    /// The newest of what is kept, on an even time base, and when it begins, from the first sample.
    struct Stretch {
        LoadTrace trace;
        double offset_s = 0.0;
    };
    [[nodiscard]] Stretch newest(LookAt look) const;
    void forget_old();
    void look_for_events();
    std::size_t look_for_swings();
    void complete(Swing swing, double now_s);
    [[nodiscard]] bool is_known(double impact_s) const;
    /// Of the swings told so far whose impact lies before `until_s`: Swing::strike_after_witnesses_s.
    [[nodiscard]] std::vector<StrikeWitnesses> strikes_s(double until_s) const;
    /// The newest of the portraits of the swings told so far whose impact lies before `until_s`.
    [[nodiscard]] std::vector<SwingPortrait> portraits(double until_s) const;

    double rate_hz_;
    Hand hand_;
    TargetBand band_;
    SwingOptions options_;
    std::vector<Kept> kept_;
    std::optional<StanceLevels> levels_;
    std::uint64_t first_counter_ = 0;
    std::uint64_t next_look_ = 0;
    std::uint64_t next_whole_look_ = 0;
    std::optional<double> over_;  // the impact of a swing that is over, so that it is looked at once
    std::optional<SwingEvents> under_way_;
    std::vector<Swing> swings_;
    bool to_complete_ = false;  // the last of them
};

}  // namespace footing
