// Does the truth lie within two stated standard uncertainties as often as that says? Plates and mats whose
// gains, zeros, noise and steps are drawn from what is stated of them (JCGM 101:2008), measured by the
// program's own path: counts, calibration, zero, loads, means.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <random>
#include <vector>

#include "analysis/pressure/mean_stance.h"
#include "viewer/lesson/load_collector.h"
#include "viewer/lesson/value_uncertainty.h"

using namespace footing;

namespace {

constexpr double rate_hz = 100.0;
constexpr int runs = 3000;
constexpr std::size_t empty_frames = 220;
constexpr std::size_t loaded_frames = 50;

/// How often the truth was within k = 2.
struct Coverage {
    int within = 0;
    int all = 0;
    void count(double found, double u, double truth) {
        within += std::abs(found - truth) <= 2.0 * u ? 1 : 0;
        ++all;
    }
    [[nodiscard]] double percent() const { return all > 0 ? 100.0 * within / all : 0.0; }
};

struct StanceCoverage {
    Coverage share, x, y, lead_x, lead_y;
};

/// Somebody who stands still: loads and places are the truth.
struct Truth {
    double left_n;
    double right_n;
    PointM left{-0.22, 0.03};
    PointM right{0.19, -0.02};
    [[nodiscard]] double total_n() const { return left_n + right_n; }
    [[nodiscard]] double share() const { return left_n / total_n(); }
    [[nodiscard]] double mean(double l, double r) const { return (left_n * l + right_n * r) / total_n(); }
};

/// What is wrong with a device: one entry a value.
struct Faults {
    std::vector<double> gain;    ///< true newtons a count over those believed
    std::vector<double> zero_n;  ///< by which each zero moved after it was taken
    double noise_n = 0.0;        ///< of one value
    double count_n = 0.0;
    std::vector<double> offset;  ///< counts of an empty value: nobody's zero lies on a count
};

template <typename Count>
std::vector<Count> counts_of(const std::vector<double>& force_n, const Faults& faults, double loaded,
                             std::mt19937_64& random) {
    // Noise is drawn beforehand: a mat needs a hundred million values.
    static const std::vector<double> noise = [] {
        std::mt19937_64 source(99);
        std::normal_distribution<double> normal;
        std::vector<double> drawn(1U << 18U);
        for (double& value : drawn) value = normal(source);
        return drawn;
    }();
    const std::size_t from = random() % (noise.size() - force_n.size());
    std::vector<Count> counts(force_n.size());
    for (std::size_t i = 0; i < counts.size(); ++i) {
        const double felt_n =
            force_n[i] / faults.gain[i] + loaded * faults.zero_n[i] + faults.noise_n * noise[from + i];
        counts[i] = static_cast<Count>(std::lround(faults.offset[i] + felt_n / faults.count_n));
    }
    return counts;
}

/// Empty for 2.2 s, then loaded for 0.5 s; the mean over the latter.
template <typename Count>
MeanStance measured(const DeviceDescription& device, const Calibration& calibration,
                    const std::vector<double>& force_n, const Faults& faults,
                    const LoadUncertainty& uncertainty, std::mt19937_64& random) {
    LoadCollector collector(device, calibration, FrameUnits::counts);
    const std::vector<double> nothing(force_n.size(), 0.0);
    for (std::uint64_t frame = 0; frame < empty_frames + loaded_frames; ++frame) {
        const bool loaded = frame >= empty_frames;
        const auto counts = counts_of<Count>(loaded ? force_n : nothing, faults, loaded ? 1.0 : 0.0, random);
        FrameView view{{}, std::span<const Count>(counts)};
        view.stamp.counter = frame;
        view.stamp.device_time_us = static_cast<std::uint64_t>(static_cast<double>(frame) * 1e6 / rate_hz);
        collector.take_frame(view);
    }
    REQUIRE_FALSE(collector.path().zeros().empty());
    const LoadTrace trace = std::move(collector).finish();
    return mean_stance(trace, {empty_frames, empty_frames + loaded_frames}, Hand::right, uncertainty);
}

void count(StanceCoverage& coverage, const MeanStance& stance, const Truth& truth) {
    if (stance.lead_share)
        coverage.share.count(stance.lead_share->value, stance.lead_share->u, truth.share());
    REQUIRE(stance.cop.has_value());
    coverage.x.count(stance.cop->at.x_m, stance.cop->u.x_m, -truth.mean(truth.left.x_m, truth.right.x_m));
    coverage.y.count(stance.cop->at.y_m, stance.cop->u.y_m, truth.mean(truth.left.y_m, truth.right.y_m));
    if (!stance.lead_cop) return;
    coverage.lead_x.count(stance.lead_cop->at.x_m, stance.lead_cop->u.x_m, -truth.left.x_m);
    coverage.lead_y.count(stance.lead_cop->at.y_m, stance.lead_cop->u.y_m, truth.left.y_m);
}

void check(const char* name, const Coverage& coverage) {
    if (coverage.all == 0) return;
    CAPTURE(name);
    CHECK(coverage.percent() >= 94.0);
    CHECK(coverage.percent() <= 97.0);
}

void tell(const std::string& what, const StanceCoverage& coverage) {
    MESSAGE(fmt::format("{}: share {:.1f}, CoP {:.1f} {:.1f}, lead foot's {:.1f} {:.1f} % within k = 2", what,
                        coverage.share.percent(), coverage.x.percent(), coverage.y.percent(),
                        coverage.lead_x.percent(), coverage.lead_y.percent()));
}

void check(const std::string& what, const StanceCoverage& coverage) {
    CAPTURE(what);
    tell(what, coverage);
    check("share", coverage.share);
    check("x", coverage.x);
    check("y", coverage.y);
    check("lead x", coverage.lead_x);
    check("lead y", coverage.lead_y);
}

const std::vector<PointM> corners{{-0.13, 0.17}, {0.13, 0.17}, {-0.13, -0.17}, {0.13, -0.17}};

/// A load at a point of a plate with four corners, as a rigid plate on alike cells carries it.
void put(std::vector<double>& force_n, std::size_t first, double load_n, PointM at) {
    for (std::size_t i = 0; i < corners.size(); ++i)
        force_n[first + i] =
            0.25 * load_n *
            (1.0 + at.x_m * corners[i].x_m / (0.13 * 0.13) + at.y_m * corners[i].y_m / (0.17 * 0.17));
}

DeviceDescription device_of(PlateLayout layout, double count_n) {
    DeviceDescription device;
    device.serial = 1;
    device.rate_hz = rate_hz;
    device.newtons_per_count = count_n;
    device.layout = std::move(layout);
    return device;
}

/// One in which the gains of a plate's cells go together in part, and all of them in part.
Calibration calibrated(const DeviceDescription& device, double common_u) {
    Calibration calibration = nominal_calibration(device, 1.0);
    calibration.method = "known masses on each cell";
    const std::size_t n = calibration.newtons_per_count.size();
    calibration.gain_covariance.assign(n * n, 0.0);
    double even_load = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        for (std::size_t j = 0; j < n; ++j) {
            const double own = i == j ? 0.006 * 0.006 : i / 4 == j / 4 ? 0.003 * 0.003 : 0.0;
            if (i < 4 && j < 4) even_load += own / 16.0;
            calibration.gain_covariance[i * n + j] = (own + common_u * common_u) *
                                                     calibration.newtons_per_count[i] *
                                                     calibration.newtons_per_count[j];
        }
    }
    calibration.common_relative_u = common_u;
    calibration.relative_u = std::sqrt(even_load + common_u * common_u);
    return calibration;
}

struct Setting {
    double share;
    double weight_n;
    double count_n;
    double noise_n;
};
const std::vector<Setting> settings{
    {0.50, 700.0, 0.001, 0.3}, {0.72, 700.0, 0.001, 0.3}, {0.88, 450.0, 0.5, 0.02}, {0.65, 1100.0, 0.5, 0.2}};

}  // namespace

TEST_CASE("two plates of four cells: k = 2 covers 94 to 97 % (JCGM 101)") {
    std::mt19937_64 random(20261125);
    std::normal_distribution<double> normal;
    for (const bool with_record : {false, true}) {
        for (const Setting& setting : settings) {
            PlateLayout layout;
            layout.plates = {{"left", {-0.2, 0.0}, corners}, {"right", {0.2, 0.0}, corners}};
            const DeviceDescription device = device_of(layout, setting.count_n);
            constexpr double common_u = 0.003;
            const Calibration calibration =
                with_record ? calibrated(device, common_u) : nominal_calibration(device, 1.0);
            const ValueUncertainty stated = value_uncertainty(calibration, layout, "2026-11-25", {}, 0);
            const LoadUncertainty uncertainty(layout, stated);
            StanceCoverage coverage;
            for (int run = 0; run < runs; ++run) {
                Truth truth{setting.share * setting.weight_n, (1.0 - setting.share) * setting.weight_n};
                Faults faults;
                const double common = with_record ? common_u * normal(random) : 0.0;
                for (int plate = 0; plate < 2; ++plate) {
                    const double alike = with_record ? 0.003 * normal(random) : 0.0;
                    const double own = with_record ? std::sqrt(0.006 * 0.006 - 0.003 * 0.003) : 0.02;
                    for (int cell = 0; cell < 4; ++cell) {
                        faults.gain.push_back(1.0 + common + alike + own * normal(random));
                        faults.zero_n.push_back(stated.zero_n / 2.0 * normal(random));
                    }
                }
                faults.noise_n = setting.noise_n;
                faults.count_n = setting.count_n;
                for (int cell = 0; cell < 8; ++cell)
                    faults.offset.push_back(4.0 / setting.count_n * normal(random));
                std::vector<double> force_n(8);
                put(force_n, 0, truth.left_n, {truth.left.x_m + 0.2, truth.left.y_m});
                put(force_n, 4, truth.right_n, {truth.right.x_m - 0.2, truth.right.y_m});
                count(coverage,
                      measured<std::int32_t>(device, calibration, force_n, faults, uncertainty, random),
                      truth);
            }
            check(fmt::format("two plates, {}, share {}, {} N, count {} N, noise {} N",
                              with_record ? "calibrated" : "nominal", setting.share, setting.weight_n,
                              setting.count_n, setting.noise_n),
                  coverage);
        }
    }
}

TEST_CASE("a plate under both feet: k = 2 covers 94 to 97 % of its CoP") {
    std::mt19937_64 random(3);
    std::normal_distribution<double> normal;
    for (const Setting& setting : settings) {
        PlateLayout layout;
        layout.plates = {{"all", {0.0, 0.0}, corners}};
        const DeviceDescription device = device_of(layout, setting.count_n);
        const Calibration calibration = nominal_calibration(device, 1.0);
        const LoadUncertainty uncertainty(layout,
                                          value_uncertainty(calibration, layout, "2026-11-25", {}, 0));
        StanceCoverage coverage;
        for (int run = 0; run < runs; ++run) {
            Truth truth{setting.share * setting.weight_n,
                        (1.0 - setting.share) * setting.weight_n,
                        {-0.1, 0.03},
                        {0.09, -0.02}};
            Faults faults;
            for (int cell = 0; cell < 4; ++cell) {
                faults.gain.push_back(1.0 + 0.02 * normal(random));
                faults.zero_n.push_back(0.5 * normal(random));
            }
            faults.noise_n = setting.noise_n;
            faults.count_n = setting.count_n;
            for (int cell = 0; cell < 4; ++cell)
                faults.offset.push_back(4.0 / setting.count_n * normal(random));
            std::vector<double> force_n(4);
            put(force_n, 0, truth.total_n(), {truth.mean(-0.1, 0.09), truth.mean(0.03, -0.02)});
            count(coverage, measured<std::int32_t>(device, calibration, force_n, faults, uncertainty, random),
                  truth);
        }
        check(fmt::format("one plate, share {}, {} N, count {} N", setting.share, setting.weight_n,
                          setting.count_n),
              coverage);
    }
}

TEST_CASE("a mat whose patches answer unlike each other: k = 2 covers 94 to 97 %") {
    std::mt19937_64 random(5);
    std::normal_distribution<double> normal;
    std::uniform_real_distribution<double> evenly;
    constexpr std::uint32_t rows = 14;
    constexpr std::uint32_t columns = 26;
    constexpr double pitch_m = 0.02;
    constexpr double count_n = 0.05;
    PlateLayout layout;
    layout.kind = FrameKind::grid;
    layout.grid = Grid{rows, columns, pitch_m, pitch_m, {}};
    const DeviceDescription device = device_of(layout, count_n);
    const Calibration calibration = nominal_calibration(device, 1.0);
    CHECK(calibration.relative_u == doctest::Approx(0.05));
    ValueUncertainty stated = value_uncertainty(calibration, layout, "2026-11-25", {}, 0);
    stated.zero_n = 1.0;
    const LoadUncertainty uncertainty(layout, stated);
    StanceCoverage all;  // a thousand stances alone would leave the percentage unsure by 0.7
    for (const double share : {0.5, 0.75}) {
        for (const double weight_n : {500.0, 900.0}) {
            StanceCoverage coverage;
            for (int run = 0; run < 1000; ++run) {
                std::vector<double> force_n(rows * columns, 0.0);
                Faults faults;
                faults.gain.assign(rows * columns, 1.0);
                faults.zero_n.assign(rows * columns, 0.0);
                faults.noise_n = 0.01;
                faults.count_n = count_n;
                for (std::uint32_t i = 0; i < rows * columns; ++i)
                    faults.offset.push_back(1.5 + evenly(random));
                Truth truth{share * weight_n, (1.0 - share) * weight_n, {-0.20, 0.0}, {0.20, 0.0}};
                for (const auto& [middle, load_n] :
                     {std::pair{truth.left, truth.left_n}, std::pair{truth.right, truth.right_n}}) {
                    // A foot: heel and ball, inner and outer edge; each part answers in its own way.
                    for (int part = 0; part < 4; ++part) {
                        const double gain = 1.0 + 0.1 * normal(random);
                        const double zero_n = stated.zero_n / 2.0 * normal(random);
                        std::vector<std::size_t> under;
                        for (std::uint32_t r = 0; r < rows; ++r) {
                            for (std::uint32_t c = 0; c < columns; ++c) {
                                const PointM at = element_position(*layout.grid, r, c);
                                const double dx = at.x_m - middle.x_m - (part % 2 == 0 ? -0.03 : 0.03);
                                const double dy = at.y_m - middle.y_m - (part / 2 == 0 ? 0.07 : -0.07);
                                if (std::abs(dx) < 0.0201 && std::abs(dy) < 0.0501)
                                    under.push_back(r * columns + c);
                            }
                        }
                        for (const std::size_t i : under) {
                            force_n[i] = 0.25 * load_n / static_cast<double>(under.size());
                            faults.gain[i] = gain;
                            faults.zero_n[i] = zero_n / static_cast<double>(under.size());
                        }
                    }
                }
                const MeanStance stance =
                    measured<std::uint16_t>(device, calibration, force_n, faults, uncertainty, random);
                count(coverage, stance, truth);
                count(all, stance, truth);
            }
            tell(fmt::format("mat, share {}, {} N", share, weight_n), coverage);
        }
    }
    check("mat, all of these", all);
}

TEST_CASE("an expired record counts for less, and no more than a nominal scale's doubt is added") {
    PlateLayout layout;
    layout.plates = {{"left", {-0.2, 0.0}, corners}, {"right", {0.2, 0.0}, corners}};
    const DeviceDescription device = device_of(layout, 0.001);
    Calibration calibration = calibrated(device, 0.003);
    calibration.valid_until = "2026-03-01";
    const auto u_on = [&](const char* day) {
        MeanLoad mean;
        mean.load.total_n = 800.0;
        mean.load.left_n = 600.0;
        mean.load.right_n = 200.0;
        return LoadUncertainty(layout, value_uncertainty(calibration, layout, day, {}, 0)).of(mean).share;
    };
    CHECK(calibration_state(calibration, "2026-03-01") == CalibrationState::valid);
    CHECK(calibration_state(calibration, "2026-03-02") == CalibrationState::expired);
    CHECK(u_on("2026-03-01") < u_on("2026-06-01"));
    CHECK(u_on("2026-06-01") < u_on("2027-06-01"));
    CHECK(ageing_relative_u(calibration, "2026-06-01") == doctest::Approx(0.005 / std::sqrt(3.0)));
    CHECK(ageing_relative_u(calibration, "2036-06-01") == doctest::Approx(0.01));
    const double aged = std::hypot(u_on("2026-03-01"), 0.75 * 0.25 * std::sqrt(2.0) * 0.01);
    CHECK(u_on("2036-06-01") == doctest::Approx(aged).epsilon(1e-6));
}

TEST_CASE("one factor a plate leaves its cells in doubt: places suffer, shares do not") {
    PlateLayout layout;
    layout.plates = {{"left", {-0.2, 0.0}, corners}, {"right", {0.2, 0.0}, corners}};
    const DeviceDescription device = device_of(layout, 0.001);
    Calibration calibration = nominal_calibration(device, 1.0);
    calibration.method = "a known weight on each plate";
    calibration.relative_u = 0.002;
    calibration.gain_covariance.assign(64, 0.0);
    for (std::size_t i = 0; i < 64; ++i) {
        if ((i / 8 < 4) == (i % 8 < 4)) calibration.gain_covariance[i] = std::pow(0.002 * 0.001, 2);
    }
    const ValueUncertainty stated = value_uncertainty(calibration, layout, "2026-11-25", {}, 0);
    MeanLoad mean;
    mean.load.total_n = 800.0;
    mean.load.left_n = 600.0;
    mean.load.right_n = 200.0;
    mean.load.left_cop = PointM{-0.2, 0.0};
    ValueUncertainty without_zero = stated;
    without_zero.zero_n = 0.0;
    const LoadU u = LoadUncertainty(layout, without_zero).of(mean);
    CHECK(u.share == doctest::Approx(0.75 * 0.25 * std::sqrt(2.0) * 0.002).epsilon(1e-4));
    CHECK(u.left_cop.x_m == doctest::Approx(0.13 * 0.02 / 2.0).epsilon(1e-4));
}
