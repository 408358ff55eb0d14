#include "acquisition/frame/quality.h"

namespace footing {

LossCounters& LossCounters::operator+=(const LossCounters& other) {
    frames += other.frames;
    lost += other.lost;
    duplicated += other.duplicated;
    reordered += other.reordered;
    damaged += other.damaged;
    foreign += other.foreign;
    socket_overflow += other.socket_overflow;
    queue_overflow += other.queue_overflow;
    incomplete_grids += other.incomplete_grids;
    return *this;
}

std::string outcome_name(RecordingOutcome outcome) {
    switch (outcome) {
        case RecordingOutcome::clean:
            return "clean";
        case RecordingOutcome::lossy:
            return "lossy";
        case RecordingOutcome::truncated:
            return "truncated";
        case RecordingOutcome::incomplete:
            return "incomplete";
    }
    return "incomplete";
}

}  // namespace footing
