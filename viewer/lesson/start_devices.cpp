#include "viewer/lesson/start_devices.h"

#include <atomic>
#include <future>
#include <optional>
#include <utility>

#include "viewer/lesson/patient_source.h"

namespace footing {

namespace {

/// Takes what comes before all devices are heard: it belongs to no recording.
class BeforeTheStart final : public FrameSink {
  public:
    void take_frame(const FrameView&) override {}
    void take_gap(const Gap&) override {}
};

std::unique_ptr<FrameSource> patient(std::unique_ptr<FrameSource> source, const DevicePatience& patience,
                                     std::shared_ptr<const std::atomic<bool>> one_failed) {
    std::string line = source->name();
    return std::make_unique<PatientSource>(
        std::move(source),
        [given_up = patience.given_up, one_failed = std::move(one_failed)] {
            return one_failed->load() || (given_up && given_up());
        },
        [still_silent = patience.still_silent, line = std::move(line)](const Problem& problem) {
            if (still_silent) still_silent(line, problem);
        });
}

}  // namespace

Result<StartedDevices> start_devices(std::vector<std::unique_ptr<FrameSource>> sources,
                                     const DevicePatience& patience) {
    const auto one_failed = std::make_shared<std::atomic<bool>>(false);
    StartedDevices all;
    for (auto& source : sources)
        all.sessions.push_back(std::make_unique<Session>(patient(std::move(source), patience, one_failed)));
    std::vector<std::future<Result<DeviceDescription>>> opening;
    for (const auto& session : all.sessions) {
        opening.push_back(
            std::async(std::launch::async, [&session, &patience] { return session->start(patience.most); }));
    }
    constexpr std::chrono::milliseconds turn{5};
    BeforeTheStart nobody;
    std::vector<std::optional<DeviceDescription>> heard(opening.size());
    std::optional<Problem> first_problem;
    for (std::size_t waited_for = opening.size(); waited_for > 0;) {
        for (std::size_t i = 0; i < opening.size(); ++i) {
            if (heard[i]) all.sessions[i]->recorder_queue().drain(nobody);
            if (!opening[i].valid() || opening[i].wait_for(turn) != std::future_status::ready) continue;
            --waited_for;
            Result<DeviceDescription> device = opening[i].get();
            if (device.ok()) {
                heard[i] = std::move(device).value();
            } else if (!first_problem) {
                first_problem = device.problem();
                one_failed->store(true);
            }
        }
    }
    if (first_problem) return *first_problem;
    for (auto& device : heard) all.devices.push_back(std::move(*device));
    return all;
}

}  // namespace footing
