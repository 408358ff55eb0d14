#include "acquisition/calibrate/zero_keeper.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "acquisition/calibrate/zero_words.h"

using namespace footing;

namespace {

/// Two cells of 0.01 N a count at 1 kHz, fed by what a test says is on them.
class WatchedPlate {
  public:
    explicit WatchedPlate(double offset_counts)
        : keeper_({0.01, 0.01}, {0.0, 0.0}), offset_counts_(offset_counts) {}

    /// Stands for `duration_s` with the load growing from one value to the other; returns the zeros taken.
    std::vector<ZeroEvent> stand(double duration_s, double from_n, double to_n, double noise_n) {
        std::vector<ZeroEvent> zeros;
        std::normal_distribution<double> noise(0.0, noise_n / std::sqrt(2.0));
        const int frames = static_cast<int>(duration_s * 1000);
        for (int i = 0; i < frames; ++i) {
            const double load_n = from_n + (to_n - from_n) * i / frames;
            const std::vector<std::int32_t> counts{
                static_cast<std::int32_t>(
                    std::lround(offset_counts_ + (0.5 * load_n + noise(random_)) * 100)),
                static_cast<std::int32_t>(
                    std::lround(-0.5 * offset_counts_ + (0.5 * load_n + noise(random_)) * 100))};
            FrameView frame{{}, std::span<const std::int32_t>(counts)};
            frame.stamp.device_time_us = time_us_;
            time_us_ += 1000;
            if (auto zero = keeper_.take(frame)) zeros.push_back(*zero);
        }
        return zeros;
    }

    const ZeroKeeper& keeper() const { return keeper_; }
    ZeroKeeper& keeper() { return keeper_; }
    std::uint64_t now_us() const { return time_us_; }

  private:
    ZeroKeeper keeper_;
    double offset_counts_;
    std::uint64_t time_us_ = 0;
    std::mt19937_64 random_{1};
};

}  // namespace

TEST_CASE("an empty plate at rest is zeroed once, to each cell's own reading") {
    WatchedPlate plate(2000);
    const auto zeros = plate.stand(5.0, 0.0, 0.0, 0.5);
    REQUIRE(zeros.size() == 1);
    CHECK(zeros[0].zero_counts[0] == doctest::Approx(2000).epsilon(0.001));
    CHECK(zeros[0].zero_counts[1] == doctest::Approx(-1000).epsilon(0.002));
    CHECK(zeros[0].noise_n == doctest::Approx(0.5).epsilon(0.1));
}

TEST_CASE("a person who stands still is no zero, before or after the first one") {
    WatchedPlate plate(0);
    CHECK(plate.stand(10.0, 450.0, 450.0, 0.3).empty());
    CHECK(plate.keeper().loaded_before_first_zero());
    CHECK(plate.stand(3.0, 0.0, 0.0, 0.3).size() == 1);
    CHECK(plate.stand(10.0, 450.0, 450.0, 0.3).empty());
}

TEST_CASE("a noisy or a sloping reading is refused (R18)") {
    WatchedPlate noisy(0);
    CHECK(noisy.stand(10.0, 0.0, 0.0, 8.0).empty());
    WatchedPlate sloping(0);
    CHECK(sloping.stand(10.0, 0.0, 100.0, 0.3).empty());
}

TEST_CASE("a drift while someone stood on the plates is taken out when they step off, and told") {
    WatchedPlate plate(0);
    CHECK(plate.stand(2.0, 0.0, 0.0, 0.3).size() == 1);
    CHECK(plate.stand(20.0, 700.0, 703.0, 0.3).empty());
    const auto zeros = plate.stand(3.0, 3.0, 3.0, 0.3);
    REQUIRE(zeros.size() == 1);
    CHECK(zeros[0].shift_n == doctest::Approx(3.0).epsilon(0.05));
}

TEST_CASE(
    "cells with a large offset of their own are zeroed by comparison, once the whole recording is known") {
    WatchedPlate plate(500'000);
    CHECK(plate.stand(3.0, 0.0, 0.0, 0.3).empty());
    CHECK_FALSE(plate.keeper().lowest_quiet().has_value());
    CHECK(plate.stand(3.0, 700.0, 700.0, 0.3).empty());
    const auto zero = plate.keeper().lowest_quiet();
    REQUIRE(zero.has_value());
    CHECK(zero->zero_counts[0] == doctest::Approx(500'000).epsilon(1e-4));
}

TEST_CASE("why there is no zero can be asked at any moment") {
    WatchedPlate plate(0);
    CHECK(plate.keeper().refusal() == ZeroRefusal::too_short);
    plate.stand(2.0, 0.0, 0.0, 8.0);
    CHECK(plate.keeper().refusal() == ZeroRefusal::noisy);
    plate.stand(2.0, 0.0, 20.0, 0.3);
    CHECK(plate.keeper().refusal() == ZeroRefusal::sloping);
    plate.stand(2.0, 700.0, 700.0, 0.3);
    CHECK(plate.keeper().refusal() == ZeroRefusal::loaded);
    CHECK(refusal_words(plate.keeper().refusal()).find("step off") != std::string::npos);
    CHECK(plate.stand(2.5, 0.0, 0.0, 0.3).size() == 1);
    CHECK(refusal_words(ZeroRefusal::none).empty());
}

TEST_CASE("a zero says why it was taken and how long after the one before") {
    WatchedPlate plate(0);
    auto zeros = plate.stand(2.0, 0.0, 0.0, 0.3);
    REQUIRE(zeros.size() == 1);
    CHECK(zeros[0].cause == ZeroCause::first);
    CHECK(zero_note(zeros[0], FrameKind::cells).find("first zero on the empty plates;") == 0);
    CHECK(zero_note(zeros[0], FrameKind::grid).find("first zero on the empty mat;") == 0);
    plate.stand(60.0, 700.0, 700.0, 0.3);
    zeros = plate.stand(2.0, 2.0, 2.0, 0.3);
    REQUIRE(zeros.size() == 1);
    CHECK(zeros[0].cause == ZeroCause::left_plates);
    CHECK(zeros[0].since_last_s == doctest::Approx(62.0).epsilon(0.05));
    CHECK(zero_note(zeros[0], FrameKind::cells).find("moved by +2.0") != std::string::npos);
    zeros = plate.stand(3.0, 4.0, 4.0, 0.3);
    REQUIRE(zeros.size() == 1);
    CHECK(zeros[0].cause == ZeroCause::drifted);
    CHECK(plate.stand(3.0, 4.0, 4.0, 0.3).empty());
    plate.keeper().ask_for_zero();
    zeros = plate.stand(3.0, 4.0, 4.0, 0.3);
    REQUIRE(zeros.size() == 1);
    CHECK(zeros[0].cause == ZeroCause::asked);
}

TEST_CASE("a new zero is asked for when the old one is old or off (R18)") {
    WatchedPlate plate(0);
    CHECK(plate.keeper().advice(plate.now_us(), 700.0) == ZeroAdvice::none_yet);
    plate.stand(2.0, 0.0, 0.0, 0.3);
    CHECK(plate.keeper().advice(plate.now_us(), 700.0) == ZeroAdvice::fine);
    CHECK(plate.keeper().advice(plate.now_us() + 599'000'000, 700.0) == ZeroAdvice::fine);
    CHECK(plate.keeper().advice(plate.now_us() + 601'000'000, 700.0) == ZeroAdvice::too_old);
    plate.stand(0.5, 5.0, 5.0, 0.3);  // not long enough for a zero of its own
    CHECK(plate.keeper().advice(plate.now_us(), 700.0) == ZeroAdvice::drifted);
    CHECK(plate.keeper().advice(plate.now_us(), 1200.0) == ZeroAdvice::fine);
    CHECK(advice_words(ZeroAdvice::drifted).find("0.5 %") != std::string::npos);
}

TEST_CASE("drift between zeros is told plate by plate, though it may cancel in the total") {
    const auto zero = [](double left, double right, double since_s) {
        ZeroEvent event;
        event.zero_counts = {left, right};
        event.shift_n = 0.0;
        event.since_last_s = since_s;
        return event;
    };
    const std::vector<ZeroEvent> zeros{zero(5000, 0, 0), zero(5300, -300, 120), zero(5200, -300, 60)};
    const ZeroDrift drift = zero_drift(zeros, {0.01, 0.01}, {0, 1});
    CHECK(drift.zeros == 3);
    CHECK(drift.largest_n[0] == doctest::Approx(3.0));
    CHECK(drift.largest_n[1] == doctest::Approx(3.0));
    CHECK(drift.u_n[0] == doctest::Approx(3.0 / std::sqrt(3.0)));
}
