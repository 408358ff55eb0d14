#include "acquisition/device/emulated_device.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "acquisition/device/emulated_sensors.h"
#include "acquisition/device/golfer_chance.h"

namespace footing {

namespace {

constexpr double shortest_trigger_s = 0.005;
constexpr double truth_step_s = 0.001;
// What the contract calls the address: half a second, ending a tenth of a second before the takeaway.
constexpr double address_length_s = 0.5;
constexpr double address_ends_before_s = 0.1;

double share_at(const GolferBody& body, double time_s) {
    return body.lead_share(body.at(time_s)).value_or(0.0);
}

double mean_share(const GolferBody& body, double from_s, double to_s) {
    double sum = 0.0;
    int count = 0;
    for (double time = from_s; time <= to_s + 1e-9; time += truth_step_s, ++count)
        sum += share_at(body, time);
    return sum / count;
}

TrueSwing truth_of(const GolferBody& body, const ScriptedSwing& scripted, double device_seconds) {
    TrueSwing truth;
    truth.script = scripted;
    const double address_to = scripted.takeaway_s - address_ends_before_s;
    truth.address_share =
        mean_share(body, std::max(scripted.quiet_from_s, address_to - address_length_s), address_to);
    truth.top_share = share_at(body, scripted.top_s);
    truth.impact_share = share_at(body, scripted.impact_s);
    truth.finish_share = share_at(body, scripted.finish_s);
    truth.lowest_share = 1.0;
    double lowest_on_purpose = 1.0;
    double turnaround = scripted.takeaway_s;
    for (double time = scripted.takeaway_s; time <= scripted.impact_s; time += truth_step_s) {
        truth.lowest_share = std::min(truth.lowest_share, share_at(body, time));
        const double on_purpose = body.lead_share(body.on_purpose(time)).value_or(1.0);
        if (on_purpose < lowest_on_purpose) {
            lowest_on_purpose = on_purpose;
            turnaround = time;
        }
    }
    truth.turnaround_share = share_at(body, turnaround);
    truth.turnaround_s = turnaround * device_seconds;
    for (double* time : {&truth.script.quiet_from_s, &truth.script.takeaway_s, &truth.script.top_s,
                         &truth.script.impact_s, &truth.script.finish_s, &truth.script.held_to_s}) {
        *time *= device_seconds;
    }
    return truth;
}

/// What stands there at an instant, each plate's weights at their common centre.
GroundLoad ground_under(const std::vector<PlacedWeight>& weights, const PlateLayout& layout, double time_s) {
    GroundLoad ground;
    const std::array<FootLoad*, 2> plates{&ground.left, &ground.right};
    for (const PlacedWeight& weight : weights) {
        if (time_s < weight.from_s || time_s >= weight.to_s) continue;
        const PointM centre = layout.plates.at(weight.plate).centre;
        const double load_n = weight.mass_kg * standard_gravity_m_s2;
        FootLoad& plate = *plates.at(weight.plate);
        const double part = load_n / (plate.load_n + load_n);
        plate.load_n += load_n;
        plate.cop.x_m += part * (centre.x_m + weight.at.x_m - plate.cop.x_m);
        plate.cop.y_m += part * (centre.y_m + weight.at.y_m - plate.cop.y_m);
    }
    return ground;
}

}  // namespace

struct EmulatedDevice::Inside {
    explicit Inside(const EmulatedDeviceSettings& given)
        : settings(given),
          body(given.golfer, write_script(given.golfer, given.swings, given.seed), given.seed),
          sensors(given.kind == FrameKind::grid ? make_mat_sensors(given, body) : make_plate_sensors(given)),
          description(sensors->description()),
          noise(given.seed ^ 0x4e4f495345ULL),
          device_seconds(1.0 + given.clock_error_ppm * 1e-6),
          frames(static_cast<std::uint64_t>(end_s() * device_seconds * given.rate_hz)) {
        description.serial = static_cast<std::uint32_t>(100000 + given.seed % 900000);
        if (given.part == EmulatedDeviceSettings::Part::right_plate) description.serial += 1'000'000;
        description.rate_hz = given.rate_hz;
        truth.golfer = given.golfer;
        truth.body_weight_n = given.golfer.mass_kg * standard_gravity_m_s2;
        truth.on_from_s = body.script().on_from_s * device_seconds;
        truth.on_to_s = body.script().on_to_s * device_seconds;
        truth.duration_s = static_cast<double>(frames) / given.rate_hz;
        for (const ScriptedSwing& swing : body.script().swings) {
            truth.swings.push_back(truth_of(body, swing, device_seconds));
        }
    }

    [[nodiscard]] double end_s() const {
        if (settings.weights.empty()) return body.script().end_s;
        double last_s = 0.0;
        for (const PlacedWeight& weight : settings.weights) last_s = std::max(last_s, weight.to_s);
        return last_s + empty_after_weights_s;
    }

    [[nodiscard]] GroundLoad ground_at(double time_s) const {
        return settings.weights.empty() ? body.at(time_s)
                                        : ground_under(settings.weights, description.layout, time_s);
    }

    [[nodiscard]] double true_time_s(std::uint64_t at) const {
        return static_cast<double>(at) / settings.rate_hz / device_seconds;
    }

    [[nodiscard]] bool trigger_is_set(double time_s) {
        if (settings.trigger == EmulatedDeviceSettings::Trigger::absent) return false;
        const auto& swings = body.script().swings;
        // The input keeps a pulse until it has been sampled.
        const double trigger_length_s = std::max(shortest_trigger_s, 1.0 / settings.rate_hz);
        while (next_strike < swings.size() && time_s >= swings[next_strike].impact_s + trigger_length_s) {
            ++next_strike;
        }
        return next_strike < swings.size() && swings[next_strike].with_ball &&
               time_s >= swings[next_strike].impact_s;
    }

    EmulatedDeviceSettings settings;
    GolferBody body;
    std::unique_ptr<EmulatedSensors> sensors;
    DeviceDescription description;
    Chance noise;
    double device_seconds;  ///< device seconds in one true second
    std::uint64_t frames;
    EmulatedTruth truth;
    std::uint64_t index = 0;
    std::size_t next_strike = 0;
};

EmulatedDevice::EmulatedDevice(const EmulatedDeviceSettings& settings)
    : inside_(std::make_unique<Inside>(settings)) {}
EmulatedDevice::~EmulatedDevice() = default;
EmulatedDevice::EmulatedDevice(EmulatedDevice&&) noexcept = default;
EmulatedDevice& EmulatedDevice::operator=(EmulatedDevice&&) noexcept = default;

const DeviceDescription& EmulatedDevice::description() const {
    return inside_->description;
}
const EmulatedTruth& EmulatedDevice::truth() const {
    return inside_->truth;
}
std::uint64_t EmulatedDevice::frame_count() const {
    return inside_->frames;
}
double EmulatedDevice::true_time_s(std::uint64_t index) const {
    return inside_->true_time_s(index);
}

GroundLoad EmulatedDevice::ground_at(std::uint64_t index) const {
    return inside_->ground_at(inside_->true_time_s(index));
}

std::optional<FrameView> EmulatedDevice::next() {
    Inside& in = *inside_;
    if (in.index >= in.frames) return std::nullopt;
    const double time_s = in.true_time_s(in.index);
    FrameStamp stamp;
    stamp.counter = in.settings.first_counter + in.index;
    stamp.device_time_us =
        in.settings.first_time_us +
        static_cast<std::uint64_t>(std::llround(static_cast<double>(in.index) / in.settings.rate_hz * 1e6));
    stamp.host_time_ns = std::llround(time_s * static_cast<double>(ns_per_s));
    stamp.inputs = in.trigger_is_set(time_s) ? trigger_bit : std::uint16_t{0};
    ++in.index;
    return FrameView{stamp, in.sensors->measure(in.ground_at(time_s), time_s, in.noise)};
}

}  // namespace footing
