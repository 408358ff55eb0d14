#pragma once

#include <cmath>
#include <cstdint>
#include <string>
#include <thread>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_transmission.h"
#include "acquisition/device/live_source.h"
#include "acquisition/device/udp_link.h"
#include "acquisition/record/recording_reader.h"
#include "analysis/pressure/lead_share.h"
#include "tests/support/child_process.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/read_loads.h"
#include "viewer/lesson/recording_session.h"

namespace footing::test {

struct ApartOptions {
    double speed = 1.0;
    std::size_t swings = 1;
    double delay_ms = 5.0;  ///< mean, exponential
    double left_ppm = 80.0;
    double right_ppm = -60.0;
};

/// A lesson on two simulated plates, each a device of its own on its own UDP socket, recorded as one and set
/// against what really happened.
struct ApartLesson {
    std::uint64_t frames = 0;
    double rms_ms = 0.0;  ///< how far apart in true time frames lie that were joined
    double most_ms = 0.0;
    double stated_ms = 0.0;  ///< what the recording says of it
    double share_rms = 0.0;  ///< joined share against the true one, while the golfer stands there
    std::size_t events = 0;  ///< shares at events that analysis found
    std::size_t events_within_2u = 0;
    double duration_s = 0.0;
};

namespace apart {

/// As docs/recording_format.md has it.
inline double host_ns(const ClockFit& clock, double device_us) {
    const auto& knots = clock.knots;
    std::size_t k = 1;
    while (k + 1 < knots.size() && static_cast<double>(knots[k].device_time_us) < device_us) ++k;
    const double x0 = static_cast<double>(knots[k - 1].device_time_us);
    const double x1 = static_cast<double>(knots[k].device_time_us);
    const double rise = static_cast<double>(knots[k].host_time_ns - knots[k - 1].host_time_ns);
    return static_cast<double>(knots[k - 1].host_time_ns - knots.front().host_time_ns) +
           (device_us - x0) / (x1 - x0) * rise;
}

inline std::unique_ptr<FrameSource> source_on(int port, const Clock& clock) {
    UdpLinkOptions udp;
    udp.bind.host = "127.0.0.1";
    udp.bind.port = static_cast<std::uint16_t>(port);
    return std::make_unique<LiveSource>(std::make_unique<UdpLink>(udp, clock), LiveSourceOptions{}, clock);
}

}  // namespace apart

inline ApartLesson record_apart_lesson(const ApartOptions& options) {
    ApartLesson result;
    const ScratchFolder scratch;
    const SystemClock clock;
    EmulatedDeviceSettings settings;
    settings.swings = options.swings;
    std::vector<EmulatedDevice> devices;
    for (const bool right : {false, true}) {
        settings.part =
            right ? EmulatedDeviceSettings::Part::right_plate : EmulatedDeviceSettings::Part::left_plate;
        settings.clock_error_ppm = right ? options.right_ppm : options.left_ppm;
        settings.first_time_us = right ? 40'000'000 : 5'000'000;
        devices.emplace_back(settings);
    }
    const int ports[] = {free_udp_port(), free_udp_port()};
    std::atomic<bool> stop{false};
    std::thread sender([&] {
        std::vector<std::unique_ptr<EmulatedLine>> lines;
        std::vector<TransmitPart> parts;
        for (std::size_t i = 0; i < 2; ++i) {
            auto line = open_udp_line("127.0.0.1:" + std::to_string(ports[i]));
            if (!line) return;
            lines.push_back(std::move(line).value());
            TransmitSettings how;
            how.speed = options.speed;
            how.mean_delay_s = options.delay_ms * 1e-3;
            how.seed = 10 + i;
            parts.push_back({&devices[i], lines[i].get(), how});
        }
        static_cast<void>(transmit_together(parts, stop));
    });
    RecordingRequest request;
    request.out = scratch / "apart.h5";
    std::vector<std::unique_ptr<FrameSource>> sources;
    for (const int port : ports) sources.push_back(apart::source_on(port, clock));
    auto started = RecordingSession::start(std::move(sources), request, clock);
    if (!started.ok()) {
        stop = true;
        sender.join();
        return result;
    }
    sender.join();
    std::this_thread::sleep_for(std::chrono::milliseconds(300));
    const auto report = started.value()->stop(StopReason::asked);
    if (!report.ok()) return result;

    Result<RecordingReader> opened = RecordingReader::open(request.out);
    if (!opened.ok()) return result;
    RecordingReader& reader = opened.value();
    const RecordingInfo& info = reader.info();
    result.frames = reader.frame_count();
    result.duration_s = report.value().duration_s;
    result.stated_ms = joined_residual_ns(info) * 1e-6 * options.speed;
    const ClockFit& left = info.devices[0].clock;
    const ClockFit& right = info.devices[1].clock;
    const double between_ns =
        static_cast<double>(left.knots.front().host_time_ns - right.knots.front().host_time_ns);
    const Result<FrameBlock> block = reader.read(0, result.frames);
    if (!block.ok()) return result;
    double squares = 0.0;
    for (const FrameStamp& stamp : block.value().stamps) {
        const double true_s = devices[0].true_time_s(stamp.counter);
        // Where the second device's clock stood at that instant, by the recording's own fits.
        const double at_ns = apart::host_ns(left, static_cast<double>(stamp.device_time_us)) + between_ns;
        double low = 40e6;
        double high = 40e6 + 1.01e6 * (true_s + 10.0);
        for (int step = 0; step < 60; ++step) {
            const double middle = 0.5 * (low + high);
            (apart::host_ns(right, middle) < at_ns ? low : high) = middle;
        }
        const double right_true_s = (low - 40e6) * 1e-6 / (1.0 + options.right_ppm * 1e-6);
        const double apart_ms = (right_true_s - true_s) * 1e3;
        squares += apart_ms * apart_ms;
        result.most_ms = std::max(result.most_ms, std::abs(apart_ms));
    }
    result.rms_ms = std::sqrt(squares / static_cast<double>(std::max<std::uint64_t>(result.frames, 1)));

    const auto loads = read_loads(request.out.string());
    if (!loads.ok()) return result;
    const EmulatedTruth& truth = devices[0].truth();
    const std::vector<double> shares = lead_share(loads.value().trace, Hand::right);
    double share_squares = 0.0;
    std::size_t shares_seen = 0;
    for (const FrameStamp& stamp : block.value().stamps) {
        const std::uint64_t counter = stamp.counter;
        const double time_s = static_cast<double>(counter) / settings.rate_hz;
        if (time_s < truth.on_from_s + 1.0 || time_s > truth.on_to_s - 1.0) continue;
        const GroundLoad ground = devices[0].ground_at(counter);
        const double true_share = ground.left.load_n / (ground.left.load_n + ground.right.load_n);
        const auto at = static_cast<std::size_t>(counter - block.value().stamps.front().counter);
        if (at >= shares.size() || !std::isfinite(shares[at])) continue;
        share_squares += (shares[at] - true_share) * (shares[at] - true_share);
        ++shares_seen;
    }
    if (shares_seen > 0) result.share_rms = std::sqrt(share_squares / static_cast<double>(shares_seen));

    const auto analysed = analyse_recording(request.out.string(), {});
    if (!analysed.ok() || analysed.value().swings.size() != truth.swings.size()) return result;
    for (std::size_t i = 0; i < truth.swings.size(); ++i) {
        const SwingShares& found = analysed.value().swings[i].lead_share;
        const TrueSwing& swing = truth.swings[i];
        const auto compare = [&](const std::optional<ShareValue>& value, double truth_share) {
            if (!value) return;
            ++result.events;
            if (std::abs(value->value - truth_share) <= 2.0 * value->u) ++result.events_within_2u;
        };
        compare(found.address, swing.address_share);
        compare(found.impact, swing.impact_share);
        compare(found.finish, swing.finish_share);
        compare(found.lowest, swing.lowest_share);
    }
    return result;
}

}  // namespace footing::test
