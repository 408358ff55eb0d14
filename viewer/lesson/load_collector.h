#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/calibrate/force_converter.h"
#include "acquisition/calibrate/zero_keeper.h"
#include "acquisition/frame/frame.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/plate_layout.h"
#include "analysis/pressure/load_columns.h"
#include "analysis/pressure/load_reducer.h"
#include "analysis/pressure/load_trace.h"
#include "analysis/pressure/trace_builder.h"

namespace footing {

/// Whether frames hold counts, which need a zero, or newtons already.
enum class FrameUnits { counts, physical };
/// Of what a device sends live: components are newtons, everything else is counts.
[[nodiscard]] FrameUnits live_units_of(const DeviceDescription& device);

/// The one path from a frame to a load: zero, newtons, feet. Live, replayed and simulated frames all go
/// through this object, so that the same frames give the same loads bit for bit. One thread at a time;
/// allocates only to take a zero.
class LoadPath {
  public:
    LoadPath(const DeviceDescription& device, const Calibration& calibration, FrameUnits units);

    /// Frames come in the order of their counters.
    [[nodiscard]] LoadSample take(const FrameView& frame);

    /// Whether frames may be taken in rows: plates of cells.
    [[nodiscard]] bool takes_rows() const { return reducer_.layout().kind == FrameKind::cells; }
    /// Takes frames [first, first + count) of a block, bit for bit as one by one. The result holds until the
    /// next call.
    [[nodiscard]] const LoadColumns& take_rows(const FrameBlock& block, std::size_t first, std::size_t count);

    /// Zeros taken so far.
    [[nodiscard]] const std::vector<ZeroEvent>& zeros() const { return zeros_; }
    [[nodiscard]] const std::optional<ZeroKeeper>& zero_keeper() const { return zero_keeper_; }

  private:
    void take_zero(ZeroEvent zero);
    void tell_range(std::span<const double> zero_counts);

    std::vector<double> newtons_per_count_;
    double full_scale_counts_ = 0.0;         ///< of a mat; 0: not known
    std::optional<ZeroKeeper> zero_keeper_;  ///< for counts only
    std::vector<ZeroEvent> zeros_;
    ForceConverter converter_;
    LoadReducer reducer_;
    std::vector<double> row_forces_n_;  ///< scratch
    LoadColumns rows_;
};

/// Collects a whole lesson's loads from any source.
class LoadCollector final : public FrameSink {
  public:
    LoadCollector(const DeviceDescription& device, const Calibration& calibration, FrameUnits units);

    void reserve(std::size_t frames) { builder_.reserve(frames); }
    void take_frame(const FrameView& frame) override { builder_.add(frame.stamp, path_.take(frame)); }
    /// The builder sees lost frames in the counters, but no restart.
    void take_gap(const Gap& gap) override {
        if (gap.frames_missing == 0) builder_.know_restart(gap.after_counter);
    }
    void take_block(const FrameBlock& block);

    [[nodiscard]] const LoadPath& path() const { return path_; }
    [[nodiscard]] LoadTrace finish() && { return std::move(builder_).finish(); }

  private:
    LoadPath path_;
    TraceBuilder builder_;
};

}  // namespace footing
