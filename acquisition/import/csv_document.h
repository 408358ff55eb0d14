#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"
#include "acquisition/frame/work_watch.h"
#include "acquisition/import/csv_columns.h"
#include "acquisition/import/csv_time_base.h"
#include "acquisition/import/load_survey.h"

namespace footing {

/// A table of loads (CSV, in one of the forms of csv_columns.h), checked from the first line to the last
/// before anything is made of it. Pure: text in, frames out. Memory: the counters of the rows, and one block
/// of frames.
class CsvDocument {
  public:
    /// Checks all of `text`, which must outlive this. `place` names the file in problems. Fails with
    /// bad_input, naming line and column: no header, a column missing, a field too many or too few, a number
    /// that is none or not finite or beyond any plate, time that stands still or runs back, a trigger other
    /// than 0 or 1, a grid's element outside the grid, twice in a frame, or frames out of order; fewer than
    /// two instants; loads that hang from the plates; or no longer wanted by `watch`, which may be absent and
    /// must outlive this. Loads of feet and of one plate are multiplied by `newtons_per_unit`.
    [[nodiscard]] static Result<CsvDocument> check(std::string_view text, std::string place,
                                                   std::optional<DeviceDescription> layout,
                                                   WorkWatch* watch = nullptr, double newtons_per_unit = 1.0);

    /// The plates and the rate. Two feet: plates "left" and "right", both with their origin at that of the
    /// plate frame; whole: one plate "whole"; cells and grid: those of the layout. Newtons per count are
    /// absent where values are newtons.
    [[nodiscard]] const DeviceDescription& device() const { return device_; }
    [[nodiscard]] const std::vector<Gap>& gaps() const { return time_base_.gaps; }
    [[nodiscard]] std::uint64_t frames() const { return frames_; }
    [[nodiscard]] std::uint64_t frames_missing() const { return time_base_.rows_missing; }
    /// Things worth knowing: columns that were not used, uneven times.
    [[nodiscard]] const std::vector<std::string>& notes() const { return notes_; }
    /// What makes loads or times look as if they were in other units; what it says is recorded all the same.
    [[nodiscard]] const std::vector<std::string>& doubts() const { return doubts_; }
    [[nodiscard]] double duration_s() const;

    /// Hands out all frames in order, block by block. Two feet and whole as components: Fz the load, Mx = Fz
    /// y, My = -Fz x; what the table does not tell (Fx, Fy, Mz; Mx and My without a CoP) is NaN. Cells and
    /// grid as raw counts where the layout states newtons per count and all values are whole, else as
    /// newtons.
    [[nodiscard]] Outcome each_block(const std::function<Outcome(const FrameBlock&)>& take) const;

  private:
    CsvDocument(std::string_view text, std::string place) : text_(text), place_(std::move(place)) {}
    [[nodiscard]] Outcome read_header(CsvText& text);
    [[nodiscard]] Outcome check_rows();
    [[nodiscard]] Outcome check_grid();
    [[nodiscard]] Outcome look_over(const std::vector<LoadSurvey>& columns, const LoadSurvey& total);
    void look_for_counts(double value, FrameKind kind);
    void describe(std::optional<DeviceDescription> layout);
    [[nodiscard]] Outcome each_row_block(const std::function<Outcome(const FrameBlock&)>& take) const;
    [[nodiscard]] Outcome each_grid_block(const std::function<Outcome(const FrameBlock&)>& take) const;

    std::string_view text_;
    std::string place_;
    WorkWatch* watch_ = nullptr;
    std::optional<DeviceDescription> layout_;
    CsvColumns columns_;
    CsvTimeBase time_base_;
    DeviceDescription device_;
    std::uint64_t frames_ = 0;
    std::uint64_t first_grid_frame_ = 0;
    bool all_whole_ = true;
    bool all_in_range_ = true;  ///< of what a raw count can be
    double newtons_per_unit_ = 1.0;
    std::vector<std::string> notes_;
    std::vector<std::string> doubts_;
};

}  // namespace footing
