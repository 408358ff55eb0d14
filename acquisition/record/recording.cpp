#include "acquisition/record/recording.h"

#include "acquisition/join/joined_device.h"

namespace footing {

double joined_residual_ns(const RecordingInfo& info) {
    std::vector<double> residuals;
    for (const JoinedDevice& device : info.devices) residuals.push_back(device.clock.fit_residual_ns);
    return joined_residual(residuals);
}

}  // namespace footing
