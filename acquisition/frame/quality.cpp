#include "acquisition/frame/quality.h"

namespace footing {

std::string outcome_name(RecordingOutcome outcome) {
    switch (outcome) {
        case RecordingOutcome::clean: return "clean";
        case RecordingOutcome::lossy: return "lossy";
        case RecordingOutcome::truncated: return "truncated";
        case RecordingOutcome::incomplete: return "incomplete";
    }
    return "incomplete";
}

}  // namespace footing
