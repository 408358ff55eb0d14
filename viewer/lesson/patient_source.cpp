#include "viewer/lesson/patient_source.h"

#include <algorithm>
#include <utility>

namespace footing {

namespace {

using std::chrono::milliseconds;
using std::chrono::steady_clock;

/// The longest that giving up may take (U6), and a little less.
constexpr milliseconds turn{400};

}  // namespace

PatientSource::PatientSource(std::unique_ptr<FrameSource> source, std::function<bool()> given_up,
                             std::function<void(const Problem&)> still_silent)
    : source_(std::move(source)), given_up_(std::move(given_up)), still_silent_(std::move(still_silent)) {}

Result<DeviceDescription> PatientSource::open(milliseconds patience) {
    const auto deadline = steady_clock::now() + patience;
    while (true) {
        const auto began = steady_clock::now();
        const auto left = std::chrono::duration_cast<milliseconds>(deadline - began);
        const milliseconds now = std::clamp(left, milliseconds(1), turn);
        Result<DeviceDescription> opened = source_->open(now);
        if (opened) return opened;
        const bool waited = steady_clock::now() - began >= now - milliseconds(20);
        if (!waited || given_up_() || steady_clock::now() >= deadline) return opened;
        still_silent_(opened.problem());
    }
}

Result<SourceState> PatientSource::poll(FrameSink& sink, milliseconds patience) {
    return source_->poll(sink, patience);
}

}  // namespace footing
