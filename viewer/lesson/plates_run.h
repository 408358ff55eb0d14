#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <variant>
#include <vector>

#include "acquisition/frame/clock.h"
#include "acquisition/frame/frame_source.h"
#include "acquisition/frame/result.h"
#include "viewer/calibration/calibration_shelf.h"
#include "viewer/lesson/plates_view.h"

namespace footing {

/// Only listen: what is under way ends.
struct OnlyListen {};
/// The quick check, against the weight of who stands there where it is known.
struct CheckPlates {
    std::optional<double> weight_kg;
};
/// A calibration with these masses; the record goes to the shelf.
struct CalibratePlates {
    std::vector<double> masses_kg;
    CalibrationMethod method = CalibrationMethod::cells;
};
/// The step under way is done: the next steady reading is taken as it is.
struct AcceptReading {};

using PlatesOrder = std::variant<OnlyListen, CheckPlates, CalibratePlates, AcceptReading>;

/// What plates are listened to with.
struct PlatesPlan {
    /// Makes the source, not opened yet; called once, on the listening thread.
    std::function<Result<std::unique_ptr<FrameSource>>()> make_source;
    std::function<std::string(const DeviceDescription&)>
        calibration;  ///< the record in force; empty: nominal
    CalibrationShelf shelf;
    double mass_tolerance_percent = 0.5;
    int valid_months = 12;
};

/// Plates while nobody is taught: live numbers, quick check and calibration, on a thread of its own. Nothing
/// is recorded. Nothing here makes the caller wait but the destructor, which waits for the port to be free.
/// Threads: everything public may be called from any thread.
class PlatesRun {
  public:
    /// `changed` is called on the listening thread when view() has something new, at most ten times a second.
    /// The clock outlives the run.
    PlatesRun(PlatesPlan plan, const Clock& clock, std::function<void()> changed);
    ~PlatesRun();
    PlatesRun(const PlatesRun&) = delete;
    PlatesRun& operator=(const PlatesRun&) = delete;

    [[nodiscard]] std::shared_ptr<const PlatesView> view() const;
    void order(PlatesOrder order);
    /// Returns at once; is_over() tells when the port is free.
    void ask_to_stop() { stop_asked_ = true; }
    [[nodiscard]] bool is_over() const { return over_.load(std::memory_order_acquire); }

  private:
    class Listener;
    void run();
    void listen(FrameSource& source, Listener& listener);
    void publish();
    [[nodiscard]] std::vector<PlatesOrder> take_orders();

    PlatesPlan plan_;
    const Clock& clock_;
    std::function<void()> changed_;
    PlatesView now_;  ///< of the listening thread

    mutable std::mutex mutex_;  ///< for the two below
    std::shared_ptr<const PlatesView> view_;
    std::vector<PlatesOrder> orders_;

    std::atomic<bool> stop_asked_{false};
    std::atomic<bool> over_{false};
    std::thread thread_;  ///< last: it uses all of the above
};

}  // namespace footing
