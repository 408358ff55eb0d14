#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"
#include "analysis/statistics/calibration_fit_mat.h"
#include "viewer/calibration/calibration_plan.h"
#include "viewer/calibration/steady_reading.h"

namespace footing {

/// When a reading counts as at rest: people sway, masses do not.
[[nodiscard]] SteadyOptions steadiness_for(CalibrationMethod method);

/// Leads through a calibration, fed with live frames: says what to do, sees by itself when it was done and
/// the plates are at rest, takes the reading, goes on. No port, no clock, no screen: the command line and the
/// window use the same object. One thread at a time.
class CalibrationGuide {
  public:
    /// `device` states newtons_per_count (a rough figure serves to know a mass from a draught); `steps` are
    /// not empty.
    CalibrationGuide(DeviceDescription device, std::vector<CalibrationStep> steps, double gravity_m_s2,
                     SteadyOptions options = {});

    /// The next frame, in order.
    void take(const FrameView& frame);

    /// The coach says that the step is done: the next steady reading is taken whatever it shows; a hold or a
    /// walk ends now.
    void accept() { accepted_ = true; }

    [[nodiscard]] bool finished() const { return step_ >= steps_.size(); }
    [[nodiscard]] std::size_t step() const { return step_; }  ///< 0-based number of the step under way
    [[nodiscard]] std::size_t step_count() const { return steps_.size(); }
    /// What to do now; empty when finished.
    [[nodiscard]] std::string instruction() const;
    /// What it is waiting for, in one sentence: the load, stillness, another place; empty when all is well.
    [[nodiscard]] const std::string& remark() const { return remark_; }
    /// The total in newtons by the rough scale, less the empty reading; nothing before there is one.
    [[nodiscard]] std::optional<double> load_n() const { return load_n_; }

    /// Readings taken so far, in order of time.
    [[nodiscard]] const std::vector<CalibrationReading>& readings() const { return readings_; }
    /// Mats: what the walk told; nothing before it is over.
    [[nodiscard]] std::optional<MatFindings> findings() const;

  private:
    void judge(const SteadyReading& reading);
    [[nodiscard]] std::string objection(const SteadyReading& reading, double load_n) const;
    [[nodiscard]] std::string doubt_of_first_zero(const SteadyReading& reading) const;
    [[nodiscard]] std::string wrong_place(const SteadyReading& reading) const;
    void hold(const FrameView& frame);
    void walk(const FrameView& frame);
    void record(const SteadyReading& reading);
    void next_step();

    DeviceDescription device_;
    std::vector<CalibrationStep> steps_;
    double gravity_m_s2_;
    SteadyReader reader_;
    std::size_t step_ = 0;
    bool accepted_ = false;
    std::string remark_;
    std::optional<double> load_n_;
    std::vector<CalibrationReading> readings_;
    std::vector<double> zero_counts_;  ///< of the newest empty reading
    double last_load_n_ = 0.0;         ///< measured, of the newest reading
    std::optional<std::uint64_t> first_us_;
    std::optional<std::uint64_t> step_began_us_;
    std::optional<MatSurvey> survey_;
    bool survey_over_ = false;
};

}  // namespace footing
