#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "acquisition/frame/clock.h"
#include "viewer/lesson/plates_run.h"
#include "viewer/panels/view_state.h"

namespace footing {

/// What plates of the choice are listened to with.
using PlatesStart = std::function<PlatesPlan(const PlatesChoice& choice)>;

/// Between plates that nobody is taught on and the state of the window. The port is given free when the coach
/// turns elsewhere or begins a lesson; a check or a calibration under way goes on meanwhile, but not into a
/// lesson. Of the drawing thread; never makes it wait but in the destructor.
class PlatesKeeper {
  public:
    PlatesKeeper(PlatesStart start, const Clock& clock, std::function<void()> changed)
        : start_(std::move(start)), clock_(clock), changed_(std::move(changed)) {}
    /// Says whether anything changed.
    [[nodiscard]] bool step(ViewState& state);
    /// Whether a lesson may take the plates.
    [[nodiscard]] bool is_free() const { return !run_; }

  private:
    void carry_out_wish(ViewState& state);

    PlatesStart start_;
    const Clock& clock_;
    std::function<void()> changed_;
    std::unique_ptr<PlatesRun> run_;
    std::shared_ptr<const PlatesView> seen_;
};

}  // namespace footing
