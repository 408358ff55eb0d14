#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "acquisition/device/emulated_device.h"
#include "acquisition/device/emulated_source.h"

using namespace footing;

namespace {

EmulatedDeviceSettings plates(std::uint64_t seed = 1, std::size_t swings = 3) {
    EmulatedDeviceSettings settings;
    settings.seed = seed;
    settings.swings = swings;
    settings.rate_hz = 200.0;
    return settings;
}

EmulatedDeviceSettings mat(std::uint64_t seed = 1, std::size_t swings = 3) {
    EmulatedDeviceSettings settings = plates(seed, swings);
    settings.kind = FrameKind::grid;
    settings.rows = 32;
    settings.columns = 48;
    settings.rate_hz = 50.0;
    return settings;
}

struct KeepingSink final : FrameSink {
    std::vector<FrameStamp> stamps;
    std::vector<std::int64_t> values;
    void take_frame(const FrameView& frame) override {
        stamps.push_back(frame.stamp);
        std::visit([&](auto all) { values.insert(values.end(), all.begin(), all.end()); }, frame.values);
    }
    void take_gap(const Gap&) override { FAIL("a simulated device has no gaps"); }
};

KeepingSink all_of(EmulatedDevice& device) {
    KeepingSink kept;
    while (const auto frame = device.next()) kept.take_frame(*frame);
    return kept;
}

/// The same loads by the textbook: counts less their mean while the plates are empty, times the nominal
/// factor.
struct Measured {
    double total_n = 0.0;
    double left_n = 0.0;
    PointM cop;
};
Measured measured(const DeviceDescription& device, const KeepingSink& kept, std::size_t index,
                  std::size_t empty) {
    Measured result;
    std::size_t value = 0;
    for (const Plate& plate : device.layout.plates) {
        for (std::size_t cell = 0; cell < plate.cells.size(); ++cell, ++value) {
            double zero = 0.0;
            for (std::size_t i = 0; i < empty; ++i) zero += static_cast<double>(kept.values[i * 8 + value]);
            const double force =
                (static_cast<double>(kept.values[index * 8 + value]) - zero / static_cast<double>(empty)) *
                *device.newtons_per_count;
            const PointM at = cell_position(plate, cell);
            result.total_n += force;
            if (plate.name == "left") result.left_n += force;
            result.cop.x_m += force * at.x_m;
            result.cop.y_m += force * at.y_m;
        }
    }
    result.cop = {result.cop.x_m / result.total_n, result.cop.y_m / result.total_n};
    return result;
}

PointM true_cop(const GroundLoad& ground) {
    const double total = ground.total_n();
    return {(ground.left.load_n * ground.left.cop.x_m + ground.right.load_n * ground.right.cop.x_m) / total,
            (ground.left.load_n * ground.left.cop.y_m + ground.right.load_n * ground.right.cop.y_m) / total};
}

}  // namespace

TEST_CASE("the same seed gives the same frames, another seed others") {
    EmulatedDevice a(plates(1));
    EmulatedDevice b(plates(1));
    EmulatedDevice c(plates(2));
    const KeepingSink one = all_of(a);
    const KeepingSink same = all_of(b);
    CHECK(one.values == same.values);
    CHECK(one.stamps == same.stamps);
    CHECK(all_of(c).values != one.values);
    CHECK(one.stamps.size() == a.frame_count());
}

TEST_CASE("the source in this process hands over the device's frames") {
    EmulatedDevice device(plates());
    const KeepingSink alone = all_of(device);
    EmulatedSource source(plates());
    REQUIRE(source.open(std::chrono::milliseconds(0)).ok());
    KeepingSink kept;
    SourceState state = SourceState::running;
    while (state == SourceState::running) state = source.poll(kept, std::chrono::milliseconds(0)).value();
    CHECK(state == SourceState::finished);
    CHECK(kept.values == alone.values);
    CHECK(kept.stamps == alone.stamps);
    CHECK(source.losses().frames == device.frame_count());
}

// Four-corner formula: x = sum F_i x_i / sum F_i.
TEST_CASE("the plates' counts give back load, share and centre of pressure") {
    EmulatedDeviceSettings settings = plates(4, 9);
    settings.golfer = random_style(4);
    EmulatedDevice device(settings);
    const KeepingSink kept = all_of(device);
    double worst_total = 0.0;
    double worst_share = 0.0;
    double worst_cop = 0.0;
    const auto from = static_cast<std::size_t>(device.truth().on_from_s * 200.0);
    const auto to = static_cast<std::size_t>(device.truth().on_to_s * 200.0);
    for (std::size_t i = from; i < to; i += 7) {
        const GroundLoad truth = device.ground_at(i);
        const Measured found = measured(device.description(), kept, i, 600);
        worst_total = std::max(worst_total, std::abs(found.total_n - truth.total_n()) / truth.total_n());
        worst_share = std::max(worst_share,
                               std::abs(found.left_n / found.total_n - truth.left.load_n / truth.total_n()));
        worst_cop = std::max(
            worst_cop, std::hypot(found.cop.x_m - true_cop(truth).x_m, found.cop.y_m - true_cop(truth).y_m));
    }
    // 0.3 N of noise and 0.05 % of gain error a cell, and their drift: about 0.2 % at the worst of some 4000
    // frames.
    CHECK(worst_total < 0.01);
    CHECK(worst_share < 0.005);
    CHECK(worst_cop < 0.003);
    CHECK(worst_share > 1e-5);  // it is no perfect device
}

TEST_CASE("faultless plates give the truth to the rounding of a count") {
    EmulatedDeviceSettings settings = plates(4);
    settings.noise_n = 0.0;
    settings.gain_error = 0.0;
    settings.drift_n_per_min = 0.0;
    EmulatedDevice device(settings);
    const KeepingSink kept = all_of(device);
    for (auto i = static_cast<std::size_t>(device.truth().on_from_s * 200.0);
         i < static_cast<std::size_t>(device.truth().on_to_s * 200.0); i += 13) {
        const GroundLoad truth = device.ground_at(i);
        const Measured found = measured(device.description(), kept, i, 1);
        REQUIRE(std::abs(found.total_n - truth.total_n()) < 8 * 0.00025);
        REQUIRE(std::abs(found.cop.x_m - true_cop(truth).x_m) < 2e-6);
        REQUIRE(std::abs(found.cop.y_m - true_cop(truth).y_m) < 2e-6);
    }
}

TEST_CASE("the mat's total, share and centre agree with the body's") {
    EmulatedDevice device(mat(2));
    const KeepingSink kept = all_of(device);
    const DeviceDescription& description = device.description();
    const Grid& grid = *description.layout.grid;
    const std::size_t elements = std::size_t{grid.rows} * grid.columns;
    double worst_total = 0.0;
    double worst_share = 0.0;
    double worst_cop = 0.0;
    for (auto i = static_cast<std::size_t>(device.truth().on_from_s * 50.0);
         i < static_cast<std::size_t>(device.truth().on_to_s * 50.0); ++i) {
        double total = 0.0;
        double left = 0.0;
        double x = 0.0;
        double y = 0.0;
        for (std::size_t element = 0; element < elements; ++element) {
            const double force =
                static_cast<double>(kept.values[i * elements + element]) * *description.newtons_per_count;
            const PointM at = element_position(grid, element / grid.columns, element % grid.columns);
            total += force;
            if (at.x_m < 0.0) left += force;
            x += force * at.x_m;
            y += force * at.y_m;
        }
        const GroundLoad truth = device.ground_at(i);
        worst_total = std::max(worst_total, std::abs(total / truth.total_n() - 1.0));
        worst_share = std::max(worst_share, std::abs(left / total - truth.left.load_n / truth.total_n()));
        worst_cop =
            std::max(worst_cop, std::hypot(x / total - true_cop(truth).x_m, y / total - true_cop(truth).y_m));
    }
    CHECK(worst_total < 0.03);  // what lies below the threshold is not seen, which a light foot feels most
    CHECK(worst_share < 0.02);
    CHECK(worst_cop < 0.006);
}

TEST_CASE("an empty mat reads zero everywhere") {
    EmulatedDevice device(mat());
    const auto first = device.next();
    REQUIRE(first.has_value());
    for (const std::uint16_t count : std::get<std::span<const std::uint16_t>>(first->values))
        CHECK(count == 0);
}

TEST_CASE("events come in the order of a swing, and the address is quiet") {
    for (std::uint64_t seed = 1; seed <= 6; ++seed) {
        EmulatedDeviceSettings settings = plates(seed, 9);
        settings.golfer = random_style(seed);
        const EmulatedDevice device(settings);
        REQUIRE(device.truth().swings.size() == 9);
        double after = device.truth().on_from_s;
        for (const TrueSwing& swing : device.truth().swings) {
            const ScriptedSwing& script = swing.script;
            CHECK(script.quiet_from_s > after);
            CHECK(script.takeaway_s - script.quiet_from_s >= 0.5);
            CHECK(script.takeaway_s < swing.turnaround_s);
            CHECK(swing.turnaround_s < script.impact_s);
            CHECK(script.takeaway_s < script.top_s);
            CHECK(script.top_s < script.impact_s);
            CHECK(script.impact_s < script.finish_s);
            CHECK(script.finish_s < script.held_to_s);
            CHECK(swing.lowest_share <= swing.turnaround_share);
            CHECK(swing.lowest_share < swing.address_share);
            CHECK(swing.impact_share > swing.address_share);
            after = script.held_to_s;
        }
        CHECK(after < device.truth().on_to_s);
    }
}

// Tempo about 3 to 1 in full swings: Grober & Cholewicki, arXiv physics/0611291. The rest: common practice,
// no source.
TEST_CASE("tempo, shift and push grow with the length of the swing as coaches know it") {
    EmulatedDeviceSettings settings = plates(11, 27);
    settings.golfer.sway_chance = 0.0;
    EmulatedDevice device(settings);
    for (const TrueSwing& swing : device.truth().swings) {
        const ScriptedSwing& script = swing.script;
        const double backswing = script.top_s - script.takeaway_s;
        const double ratio = backswing / (script.impact_s - script.top_s);
        const double fall = swing.address_share - swing.lowest_share;
        CAPTURE(length_name(script.length));
        CHECK(backswing >= 0.58);
        CHECK(backswing <= 0.92);
        CHECK(swing.address_share > 0.68);
        CHECK(swing.address_share < 0.82);
        double most = 0.0;
        double least = 1e9;
        for (auto i = static_cast<std::uint64_t>(script.takeaway_s * 200.0);
             i < static_cast<std::uint64_t>(script.finish_s * 200.0); ++i) {
            most = std::max(most, device.ground_at(i).total_n());
            least = std::min(least, device.ground_at(i).total_n());
        }
        most /= device.truth().body_weight_n;
        least /= device.truth().body_weight_n;
        if (script.length == SwingLength::half) {
            CHECK(ratio >= 1.95);
            CHECK(ratio <= 2.35);
            CHECK(fall > 0.01);
            CHECK(fall < 0.07);
        } else if (script.length == SwingLength::full) {
            CHECK(ratio >= 2.75);
            CHECK(ratio <= 3.15);
            CHECK(fall > 0.05);
            CHECK(most > 1.1);
            CHECK(most < 1.4);
            CHECK(least < 0.9);
            CHECK(least > 0.6);
        }
    }
}

TEST_CASE("the trigger input is set for a few milliseconds at the impact of shots only") {
    EmulatedDeviceSettings settings = plates(5, 3);
    settings.rate_hz = 1000.0;
    EmulatedDevice device(settings);
    const KeepingSink kept = all_of(device);
    std::vector<double> rises;
    std::size_t set = 0;
    for (std::size_t i = 1; i < kept.stamps.size(); ++i) {
        if (kept.stamps[i].inputs & trigger_bit) ++set;
        if ((kept.stamps[i].inputs & trigger_bit) && !(kept.stamps[i - 1].inputs & trigger_bit)) {
            rises.push_back(
                static_cast<double>(kept.stamps[i].device_time_us - kept.stamps[0].device_time_us) * 1e-6);
        }
    }
    REQUIRE(rises.size() == 2);  // swing 1 is a practice swing
    CHECK(std::abs(rises[0] - device.truth().swings[1].script.impact_s) <= 0.001);
    CHECK(std::abs(rises[1] - device.truth().swings[2].script.impact_s) <= 0.001);
    CHECK(set == 10);

    // A slow device must not miss the pulse.
    for (const double rate_hz : {50.0, 100.0, 317.0}) {
        settings.rate_hz = rate_hz;
        EmulatedDevice slow(settings);
        int strikes = 0;
        bool was_set = false;
        for (const FrameStamp& stamp : all_of(slow).stamps) {
            const bool is_set = (stamp.inputs & trigger_bit) != 0;
            strikes += is_set && !was_set ? 1 : 0;
            was_set = is_set;
        }
        CHECK(strikes == 2);
    }

    settings.trigger = EmulatedDeviceSettings::Trigger::absent;
    EmulatedDevice without(settings);
    for (const FrameStamp& stamp : all_of(without).stamps) REQUIRE(stamp.inputs == 0);
}

TEST_CASE("the device's clock runs at its own speed, from its own start") {
    EmulatedDeviceSettings settings = plates();
    settings.clock_error_ppm = 100.0;
    settings.first_counter = 4294967290ULL;
    EmulatedDevice device(settings);
    const KeepingSink kept = all_of(device);
    CHECK(kept.stamps.front().counter == 4294967290ULL);
    CHECK(kept.stamps.back().counter == 4294967290ULL + device.frame_count() - 1);
    CHECK(kept.stamps.front().device_time_us == 5'000'000);
    const double device_s = static_cast<double>(kept.stamps.back().device_time_us - 5'000'000) * 1e-6;
    const double true_s = static_cast<double>(kept.stamps.back().host_time_ns) * 1e-9;
    CHECK(device_s / true_s == doctest::Approx(1.0001).epsilon(1e-8));
}
