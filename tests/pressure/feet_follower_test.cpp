// The feet on a mat through time: made-up feet of known load, place and direction.

#include <doctest/doctest.h>

#include <cmath>
#include <random>
#include <vector>

#include "analysis/pressure/load_reducer.h"
#include "analysis/pressure/mat_summary.h"
#include "analysis/pressure/trace_builder.h"
#include "tests/pressure/made_foot.h"

using namespace footing;
using namespace footing::test;

namespace {

PlateLayout on_mat() {
    PlateLayout layout;
    layout.kind = FrameKind::grid;
    layout.grid = mat();
    return layout;
}

/// A mat that is shown one stance after another.
class ShownMat {
  public:
    explicit ShownMat(LoadOptions options = {}) : reducer_(on_mat(), std::move(options)) {}

    LoadSample show(const std::vector<MadeFoot>& feet, int frames = 1) { return show(stance(feet), frames); }
    LoadSample show(const std::vector<double>& force_n, int frames = 1) {
        LoadSample sample;
        for (int i = 0; i < frames; ++i) sample = reducer_.reduce(force_n);
        return sample;
    }
    LoadReducer& reducer() { return reducer_; }

  private:
    LoadReducer reducer_;
};

MadeFoot with_loads(MadeFoot foot, double heel_n, double toe_n) {
    foot.heel_n = heel_n;
    foot.toe_n = toe_n;
    return foot;
}

MadeFoot moved(MadeFoot foot, double x_m, double y_m) {
    foot.middle.x_m += x_m;
    foot.middle.y_m += y_m;
    return foot;
}

void press_thing(std::vector<double>& force_n, std::size_t row, std::size_t column, double load_n) {
    for (std::size_t r = row; r < row + 3; ++r) {
        for (std::size_t c = column; c < column + 3; ++c) force_n[r * mat().columns + c] += load_n / 9.0;
    }
}

}  // namespace

TEST_CASE("both feet from the first frame on: load, toes, outer side, angles and width") {
    ShownMat shown;
    const LoadSample sample = shown.show({left_foot, right_foot});
    REQUIRE(sample.mat);
    CHECK(sample.mat->told == FeetTold::areas);
    CHECK(sample.left_n == doctest::Approx(420.0).epsilon(1e-9));
    CHECK(sample.right_n == doctest::Approx(380.0).epsilon(1e-9));
    CHECK(std::abs(sample.mat->left.toe_share - 180.0F / 420.0F) < 0.005F);
    CHECK(std::abs(sample.mat->right.toe_share - 260.0F / 380.0F) < 0.005F);
    CHECK(std::abs(sample.mat->left.outside_share - 0.5F) < 0.03F);
    CHECK(std::abs(sample.mat->left.toe_out_rad / degree - 15.0) < 2.0);
    CHECK(std::abs(sample.mat->right.toe_out_rad / degree - 8.0) < 2.0);
    CHECK(std::abs(sample.mat->stance_width_m - 0.42F) < 0.02F);
}

TEST_CASE("feet that no straight line up the mat parts keep their own loads") {
    // Toes turned out by 35 degrees and one foot half a foot ahead: the columns of both overlap.
    const MadeFoot left{{-0.06, 0.10}, -35.0 * degree, 200.0, 150.0, 0.0};
    const MadeFoot right{{0.09, -0.12}, 35.0 * degree, 220.0, 230.0, 0.0};
    ShownMat shown;
    const LoadSample sample = shown.show({left, right}, 40);
    CHECK(sample.mat->told == FeetTold::areas);
    CHECK(sample.left_n == doctest::Approx(350.0).epsilon(1e-9));
    CHECK(sample.right_n == doctest::Approx(450.0).epsilon(1e-9));
}

TEST_CASE("a heel that lifts leaves the foot its name, line and width, and its load on the toes") {
    ShownMat shown;
    const LoadSample before = shown.show({left_foot, right_foot}, 50);
    for (const double toe_n : {200.0, 80.0, 30.0, 12.0, 3.0}) {
        CAPTURE(toe_n);
        const LoadSample sample = shown.show({left_foot, with_loads(right_foot, 0.0, toe_n)}, 40);
        CHECK(sample.mat->told == FeetTold::areas);
        CHECK(sample.right_n == doctest::Approx(toe_n).epsilon(1e-9));
        CHECK(sample.left_n == doctest::Approx(420.0).epsilon(1e-9));
        CHECK(sample.mat->right.toe_out_rad == before.mat->right.toe_out_rad);
        CHECK(sample.mat->stance_width_m == before.mat->stance_width_m);
        if (toe_n >= 20.0) CHECK(sample.mat->right.toe_share == doctest::Approx(1.0));
    }
    // In the air, and down again.
    LoadSample sample = shown.show({left_foot}, 400);
    CHECK(sample.mat->told == FeetTold::areas);
    CHECK(sample.right_n == 0.0);
    CHECK(sample.left_n == doctest::Approx(420.0));
    sample = shown.show({left_foot, right_foot});
    CHECK(sample.right_n == doctest::Approx(380.0).epsilon(1e-9));
}

TEST_CASE("a third thing is left out of total, share and CoP, whenever it comes") {
    ShownMat shown;
    const LoadSample before = shown.show({left_foot, right_foot}, 30);
    for (const double load_n : {6.0, 60.0, 150.0}) {
        CAPTURE(load_n);
        std::vector<double> force_n = stance({left_foot, right_foot});
        press_thing(force_n, 44, 34, load_n);
        for (const int frames : {1, 50}) {
            const LoadSample sample = shown.show(force_n, frames);
            CHECK(sample.mat->told == FeetTold::areas);
            CHECK(sample.mat->other_n == doctest::Approx(load_n));
            CHECK(sample.total_n == doctest::Approx(800.0));
            CHECK(sample.left_n == doctest::Approx(420.0).epsilon(1e-9));
            CHECK(std::abs(sample.cop->y_m - before.cop->y_m) < 1e-9);
        }
        // The trail foot nearly off the ground: what lies there does not become it.
        std::vector<double> lifted = stance({left_foot, with_loads(right_foot, 0.0, 2.0)});
        press_thing(lifted, 44, 34, load_n);
        const LoadSample sample = shown.show(lifted, 50);
        CHECK(sample.right_n == doctest::Approx(2.0).epsilon(1e-9));
        (void)shown.show({left_foot, right_foot}, 20);
    }
}

TEST_CASE("a bag that lay there first is no foot once both feet stand") {
    ShownMat shown;
    std::vector<double> bag(stance({}));
    press_thing(bag, 2, 66, 100.0);
    (void)shown.show(bag, 30);
    std::vector<double> one = stance({left_foot});
    press_thing(one, 2, 66, 100.0);
    (void)shown.show(one, 30);
    std::vector<double> both = stance({left_foot, right_foot});
    press_thing(both, 2, 66, 100.0);
    const LoadSample sample = shown.show(both, 30);
    CHECK(sample.mat->told == FeetTold::areas);
    CHECK(sample.left_n == doctest::Approx(420.0).epsilon(1e-9));
    CHECK(sample.right_n == doctest::Approx(380.0).epsilon(1e-9));
    CHECK(sample.mat->other_n == doctest::Approx(100.0));
}

TEST_CASE("a foot put down elsewhere is the same foot") {
    ShownMat shown;
    (void)shown.show({left_foot, right_foot}, 40);
    (void)shown.show({left_foot}, 20);
    LoadSample sample = shown.show({left_foot, moved(right_foot, -0.10, 0.03)});
    CHECK(sample.right_n == doctest::Approx(380.0).epsilon(1e-9));
    CHECK(std::abs(sample.mat->stance_width_m - 0.32F) < 0.02F);
    // Both at once, as after a hop.
    sample = shown.show({moved(left_foot, -0.02, -0.15), moved(right_foot, 0.08, 0.10)}, 17);
    CHECK(sample.mat->told == FeetTold::areas);
    CHECK(sample.left_n == doctest::Approx(420.0).epsilon(1e-9));
    CHECK(std::abs(sample.mat->stance_width_m - 0.52F) < 0.02F);
    // The foot turns on its toes, as the trail foot does in a finish.
    MadeFoot turned = with_loads(right_foot, 30.0, 60.0);
    turned.turn_rad = -35.0 * degree;
    sample = shown.show({left_foot, turned}, 40);
    CHECK(sample.left_n == doctest::Approx(420.0).epsilon(1e-9));
    CHECK(sample.right_n == doctest::Approx(90.0).epsilon(1e-9));
}

TEST_CASE("one foot alone is parted at the midline, and it is said why") {
    ShownMat shown;
    const LoadSample sample = shown.show({right_foot}, 50);
    CHECK(sample.mat->told == FeetTold::one_area);
    CHECK(sample.right_n == doctest::Approx(380.0));
    CHECK(sample.left_n == 0.0);
    CHECK_FALSE(known(static_cast<double>(sample.mat->stance_width_m)));
    CHECK(std::string(told_name(sample.mat->told)) == "midline");
    CHECK_FALSE(std::string(midline_reason(sample.mat->told)).empty());
    // One foot ahead of the other.
    ShownMat walking;
    const LoadSample line = walking.show(
        std::vector<MadeFoot>{{{0.0, 0.10}, 0.0, 0.0, 300.0, 0.0}, {{0.01, -0.105}, 0.0, 300.0, 0.0, 0.0}});
    CHECK(line.mat->told == FeetTold::in_a_line);
    CHECK(line.total_n == doctest::Approx(600.0));
    // Nobody: forgotten after a while.
    (void)shown.show({left_foot, right_foot}, 20);
    CHECK(shown.show(std::vector<MadeFoot>{}, 100).mat->told == FeetTold::nobody);
}

TEST_CASE("feet that come to touch are parted where each was known to stand") {
    const MadeFoot left{{-0.06, 0.0}, 0.0, 250.0, 200.0, 0.0};
    const MadeFoot right{{0.06, 0.0}, 0.0, 150.0, 200.0, 0.0};
    ShownMat shown;
    (void)shown.show({left, right}, 20);
    std::vector<double> touching = stance({left, right});
    const Grid grid = mat();
    for (std::size_t row = 14; row < 18; ++row) {
        for (std::size_t column = 32; column < 40; ++column) touching[row * grid.columns + column] += 0.3;
    }
    const LoadSample sample = shown.show(touching, 40);
    CHECK(sample.mat->told == FeetTold::areas);
    CHECK(sample.left_n == doctest::Approx(450.0).epsilon(0.02));
    CHECK(sample.right_n == doctest::Approx(350.0).epsilon(0.02));
}

TEST_CASE("whatever stands there, the feet and the rest add up, and so do their moments") {
    std::mt19937_64 chance(8);
    std::uniform_real_distribution<double> unit(0.0, 1.0);
    ShownMat shown;
    std::size_t by_areas = 0;
    for (int round = 0; round < 400; ++round) {
        std::vector<MadeFoot> feet{moved(left_foot, 0.1 * unit(chance), 0.1 * unit(chance)),
                                   moved(right_foot, -0.1 * unit(chance), 0.1 * unit(chance))};
        if (round % 7 == 0) feet.pop_back();
        std::vector<double> force_n = stance(feet);
        if (round % 3 == 0) press_thing(force_n, chance() % 45, chance() % 69, 40.0 * unit(chance));
        for (double& one : force_n) one += unit(chance) < 0.02 ? 0.05 : 0.0;  // specks
        const LoadSample sample = shown.show(force_n, 1 + round % 5);
        CAPTURE(round);
        const double other_n = static_cast<double>(sample.mat->other_n);
        CHECK(sample.left_n + sample.right_n == doctest::Approx(sample.total_n).epsilon(1e-12));
        CHECK(std::abs(sample.total_n + other_n - total(force_n)) < 1e-4);
        if (sample.left_cop && sample.right_cop) {
            const double joint_m =
                (sample.left_n * sample.left_cop->x_m + sample.right_n * sample.right_cop->x_m) /
                sample.total_n;
            CHECK(std::abs(sample.cop->x_m - joint_m) < 1e-12);
        }
        by_areas += sample.mat->told == FeetTold::areas ? 1 : 0;
    }
    CHECK(by_areas > 300);
}

TEST_CASE("dead elements are filled, clipped ones counted, and the recording says so") {
    const std::vector<double> whole = stance({left_foot, right_foot});
    LoadOptions options;
    options.dead.assign(whole.size(), 0);
    std::vector<double> hurt = whole;
    for (std::size_t i = 5; i < whole.size(); i += 23) {
        options.dead[i] = 1;
        hurt[i] = 0.0;
    }
    ShownMat plain;
    ShownMat filling(options);
    const LoadSample low = plain.show(hurt);
    const LoadSample filled = filling.show(hurt);
    const LoadSample truth = plain.show(whole);
    CHECK(low.total_n < 0.99 * truth.total_n);
    CHECK(filled.left_n == doctest::Approx(420.0).epsilon(0.03));
    CHECK(filled.right_n == doctest::Approx(380.0).epsilon(0.03));
    CHECK(std::abs(filled.left_cop->y_m - truth.left_cop->y_m) < 0.002);

    std::vector<double> clipped = whole;
    std::size_t at_the_end = 0;
    for (double& one : clipped) {
        if (one < 5.0) continue;
        one = 5.0;
        ++at_the_end;
    }
    REQUIRE(at_the_end > 0);
    plain.reducer().set_clip(std::vector<double>(whole.size(), 5.0));
    TraceBuilder builder(100.0);
    for (std::uint64_t i = 0; i < 100; ++i)
        builder.add({i, i * 10000, 0, 0}, plain.show(i < 50 ? whole : clipped));
    // Half of the frames had elements of 5 N and more as it is.
    const LoadTrace trace = std::move(builder).finish();
    REQUIRE(trace.mat.size() == 100);
    CHECK(trace.mat[99].clipped == at_the_end);
    const MatSummary summary = mat_summary(trace);
    CHECK(summary.most_clipped == at_the_end);
    CHECK(summary.stood_s == doctest::Approx(1.0));
    CHECK(summary.one_area_s == 0.0);
}

TEST_CASE("the same frames give the same feet, and lost frames are bridged") {
    const auto run = [] {
        ShownMat shown;
        TraceBuilder builder(100.0);
        for (std::uint64_t i = 0; i < 60; ++i) {
            if (i > 20 && i < 25) continue;
            const double heel_n = 200.0 - 3.0 * static_cast<double>(i);
            builder.add({i, i * 10000, 0, 0}, shown.show({left_foot, with_loads(right_foot, heel_n, 200.0)}));
        }
        return std::move(builder).finish();
    };
    const LoadTrace one = run();
    const LoadTrace other = run();
    REQUIRE(one.mat.size() == 60);
    CHECK(one.right_n == other.right_n);
    for (std::size_t i = 0; i < 60; ++i) CHECK(one.mat[i].right.toe_share == other.mat[i].right.toe_share);
    CHECK(one.bridged[22] == 1);
}
