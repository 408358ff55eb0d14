#include "acquisition/frame/calibration_state.h"

namespace footing {

std::string calibration_state_name(CalibrationState state) {
    switch (state) {
        case CalibrationState::valid:
            return "valid";
        case CalibrationState::expired:
            return "expired";
        case CalibrationState::nominal:
            return "nominal";
        case CalibrationState::absent:
            return "absent";
        case CalibrationState::external:
            return "external";
    }
    return "external";
}

}  // namespace footing
