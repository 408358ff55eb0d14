#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/calibrate/force_converter.h"
#include "acquisition/frame/frame.h"
#include "acquisition/frame/plate_layout.h"
#include "viewer/calibration/steady_reading.h"

namespace footing {

/// What a quick check compares, and how closely.
struct CheckOptions {
    std::optional<double> weight_kg;   ///< of whoever stands on the plates; absent: only with themselves
    double weight_tolerance_kg = 0.3;  ///< how far it may be off, to either side (common practice, no source)
    double gravity_m_s2 = 9.80665;
    double gravity_relative_u = 0.0;
    double agree_within = 0.02;  ///< R19
    double sure = 0.95;          ///< a verdict must hold with this probability
};

enum class CheckStep { empty, both, left_only, right_only, elsewhere, done };

/// Whether two loads are the same, by a stated rule (JCGM 106, guard band to both sides): agrees or differs
/// only if that is sure, else too_close.
enum class Agreement { agrees, differs, too_close };

struct CheckComparison {
    std::string what;  ///< "both feet against the weight"
    double measured_n = 0.0;
    double expected_n = 0.0;
    double difference = 0.0;  ///< as a fraction of what is expected
    double u = 0.0;           ///< standard uncertainty of difference: sway, zero, the weight, gravity
    Agreement agreement = Agreement::too_close;
};

struct CheckResult {
    std::optional<double> both_n;
    std::optional<double> left_only_n;
    std::optional<double> right_only_n;
    std::optional<double> elsewhere_n;  ///< one plate or a mat: the same weight in another place
    double zero_noise_n = 0.0;
    std::vector<CheckComparison> comparisons;
    std::optional<double> share_error;  ///< of a lead share of 75 %, by what the plates differ
    std::vector<std::string> advice;    ///< what to do, one sentence each
    [[nodiscard]] Agreement overall() const;
};

/// Leads through the check, fed with live frames: empty, both feet, left foot only, right foot only; where
/// there is no left and right plate: empty, on it, elsewhere on it. One thread at a time.
class QuickCheck {
  public:
    /// The calibration must fit the device. Devices that send newtons (components) are taken as they are.
    QuickCheck(const DeviceDescription& device, const Calibration& calibration, CheckOptions options);

    void take(const FrameView& frame);
    /// The next steady reading is taken whatever it shows.
    void accept() { accepted_ = true; }

    [[nodiscard]] CheckStep step() const { return step_; }
    [[nodiscard]] bool finished() const { return step_ == CheckStep::done; }
    [[nodiscard]] std::string instruction() const;
    [[nodiscard]] const std::string& remark() const { return remark_; }
    /// Compares what was read so far.
    [[nodiscard]] CheckResult result() const;

  private:
    struct Standing {
        double total_n = 0.0;
        std::vector<double> plate_n;  ///< one a plate
        double u_n = 0.0;             ///< of the total, by sway and noise
    };

    [[nodiscard]] Standing standing_of(const SteadyReading& reading) const;
    [[nodiscard]] std::string objection(const Standing& now) const;
    [[nodiscard]] CheckComparison compare(std::string what, const Standing& measured, double expected_n,
                                          double expected_u_n) const;
    void advise(CheckResult& result) const;
    void next_step();

    DeviceDescription device_;
    std::vector<double> newtons_per_value_;  ///< what a count adds to its plate's load
    std::vector<std::size_t> plate_of_value_;
    bool only_ratios_ = false;
    bool two_feet_ = false;  ///< there is a left and a right plate
    std::size_t left_ = 0;
    std::size_t right_ = 0;
    CheckOptions options_;
    SteadyReader reader_;
    CheckStep step_ = CheckStep::empty;
    bool accepted_ = false;
    bool stepped_off_ = false;
    std::string remark_;
    std::optional<SteadyReading> zero_;
    std::optional<Standing> both_, left_only_, right_only_, elsewhere_;
};

[[nodiscard]] std::string agreement_name(Agreement agreement);

/// JSON of a result: {"overall", "both_n", …, "comparisons": [{"what", "measured_n", "expected_n",
/// "difference", "u", "agreement"}], "share_error", "advice"}. What is not known is null.
[[nodiscard]] std::string check_json(const CheckResult& result);
/// The same as text for people.
[[nodiscard]] std::string check_words(const CheckResult& result);

}  // namespace footing
