#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "analysis/report/figure_kit.h"
#include "analysis/report/stance_view.h"
#include "analysis/report/swing_figure.h"
#include "tests/report/figure_shapes.h"
#include "tests/support/lesson_sample.h"

using namespace footing;

namespace {

SwingFigureOptions of_size(double width, double height, std::vector<std::size_t> swings) {
    SwingFigureOptions options;
    options.width = width;
    options.height = height;
    options.swings = std::move(swings);
    return options;
}

FigureBox box_of(const FigureText& text, double scale) {
    const double width = text_width(text.text, text.size, text.weight) * scale;
    const double shift = text.align == Align::left ? 0.0 : text.align == Align::middle ? 0.5 * width : width;
    const double height = text_px(text.size) * scale;
    return {text.at.x - shift, text.at.y - 0.75 * height, text.at.x - shift + width,
            text.at.y + 0.05 * height};
}

bool overlap(const FigureBox& a, const FigureBox& b) {
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

const std::vector<std::pair<double, double>> sizes{
    {300, 200}, {360, 480}, {640, 360}, {1280, 720}, {1800, 1100}};

}  // namespace

TEST_CASE(
    "a share of 0.75 stands in the middle of the 70 to 80 % band, and more is further to the lead side") {
    const LessonResult lesson = sample::lesson();
    const SwingFigureOptions options = of_size(700, 500, {2});
    const SwingScale scale = swing_figure_scale(lesson, options);
    const FigureArea band = shapes::band(swing_figure(lesson, options));
    REQUIRE(band.points.size() == 4);
    CHECK(scale.x_of_share(0.75) == doctest::Approx(0.5 * (band.points[0].x + band.points[1].x)));
    CHECK(scale.x_of_share(0.0) == doctest::Approx(scale.trace.left));
    CHECK(scale.x_of_share(1.0) == doctest::Approx(scale.trace.right));
    CHECK(scale.share_at(scale.x_of_share(0.31)) == doctest::Approx(0.31));
}

TEST_CASE("time runs down, and a height gives its time back") {
    const LessonResult lesson = sample::lesson();
    const SwingFigureOptions options = of_size(700, 500, {2});
    const SwingScale scale = swing_figure_scale(lesson, options);
    CHECK(scale.y_of(0.5) > scale.y_of(0.0));
    const double impact = lesson.swings[2].events.impact->time_s;
    CHECK(scale.zero_s == impact);
    CHECK(scale.time_at(scale.y_of(0.0)) == doctest::Approx(impact));
    const auto trace = shapes::trace(swing_figure(lesson, options));
    REQUIRE(trace.size() > 50);
    CHECK(std::is_sorted(trace.begin(), trace.end(), [](const auto& a, const auto& b) { return a.y < b.y; }));
}

TEST_CASE("the trace passes where the lead share of the recording is") {
    for (const Hand hand : {Hand::right, Hand::left}) {
        const LessonResult lesson = sample::lesson(hand);
        const SwingFigureOptions options = of_size(900, 900, {3});
        const SwingScale scale = share_figure_scale(lesson, options);
        const auto trace = shapes::trace(share_figure(lesson, options));
        for (const double t : {-1.5, -0.7, -0.35, 0.0, 0.5, 1.5}) {
            const double share = sample::planned_share(sample::eight_swings()[3], t);
            const auto nearest =
                std::min_element(trace.begin(), trace.end(), [&](const auto& a, const auto& b) {
                    return std::abs(a.y - scale.y_of(t)) < std::abs(b.y - scale.y_of(t));
                });
            CAPTURE(t);
            CHECK(scale.share_at(nearest->x) == doctest::Approx(share).epsilon(0.04));
        }
    }
}

TEST_CASE(
    "the marks tell the verdict by shape, and a picture turned round still points below to the trail foot") {
    CHECK(mark_of(Verdict::inside) == MarkShape::diamond);
    CHECK(mark_of(Verdict::below) == MarkShape::triangle_left);
    CHECK(mark_of(Verdict::above) == MarkShape::triangle_right);
    CHECK(mark_of(Verdict::too_close) == MarkShape::diamond_hollow);
    CHECK(mark_towards(Verdict::below, TargetSide::left) == MarkShape::triangle_right);

    const LessonResult lesson = sample::lesson();
    const SwingFigureOptions options = of_size(700, 500, {2});
    const SwingScale scale = share_figure_scale(lesson, options);
    const auto marks = shapes::all<FigureMark>(share_figure(lesson, options));
    const auto at = [&](const ShareValue& share, const Event& event, MarkShape shape) {
        return std::any_of(marks.begin(), marks.end(), [&](const FigureMark& mark) {
            return mark.shape == shape && mark.ink == Ink::ink &&
                   std::abs(mark.at.x - scale.x_of_share(share.value)) < 1e-9 &&
                   std::abs(mark.at.y - scale.y_of(event.time_s - scale.zero_s)) < 1e-9;
        });
    };
    const Swing& swing = lesson.swings[2];
    CHECK(at(*swing.lead_share.address, *swing.events.address, MarkShape::diamond));
    CHECK(at(*swing.lead_share.turnaround, *swing.events.turnaround, MarkShape::triangle_left));
    CHECK(at(*swing.lead_share.impact, *swing.events.impact, MarkShape::triangle_right));
    CHECK(at(*swing.lead_share.finish, *swing.events.finish, MarkShape::triangle_right));
}

TEST_CASE("no text is cut off and no two texts collide, from 300 x 200 to 1800 x 1100") {
    const LessonResult right = sample::lesson();
    const LessonResult left = sample::lesson(Hand::left);
    const LessonResult lost = sample::lesson_with_loss();
    for (const auto& [width, height] : sizes) {
        for (const LessonResult* lesson : {&right, &left, &lost}) {
            for (const TargetSide side : {TargetSide::right, TargetSide::left}) {
                SwingFigureOptions options = of_size(width, height, {2, 6});
                options.target_side = side;
                for (const Figure& figure :
                     {share_figure(*lesson, options), swing_figure(*lesson, options),
                      feet_figure(*lesson, options), lesson_figure(*lesson, options)}) {
                    const auto texts = shapes::all<FigureText>(figure);
                    for (std::size_t i = 0; i < texts.size(); ++i) {
                        const FigureBox box = box_of(texts[i], figure.text_scale);
                        CAPTURE(width);
                        CAPTURE(figure.title);
                        CAPTURE(texts[i].text);
                        CHECK(box.left >= -0.5);
                        CHECK(box.right <= width + 0.5);
                        CHECK(box.top >= -0.5);
                        CHECK(box.bottom <= height + 0.5);
                        for (std::size_t j = 0; j < i; ++j) {
                            CAPTURE(texts[j].text);
                            CHECK_FALSE(overlap(box, box_of(texts[j], figure.text_scale)));
                        }
                    }
                }
            }
        }
    }
}

TEST_CASE("no shape is ever drawn with a number that is not one") {
    const std::vector<LessonResult> lessons{sample::lesson_without_swings(), sample::lesson_of_unknowns(),
                                            sample::lesson_on_mat(), LessonResult{}};
    for (const LessonResult& lesson : lessons) {
        for (const auto& [width, height] : sizes) {
            SwingFigureOptions options = of_size(width, height, {0, 1, 99});
            options.head_time_s = 5.0;
            for (const Figure& figure : {share_figure(lesson, options), swing_figure(lesson, options),
                                         feet_figure(lesson, options), lesson_figure(lesson, options)}) {
                CHECK_FALSE(figure.title.empty());
                CHECK_FALSE(figure.description.empty());
                const auto finite = [](const FigurePoint& p) {
                    return std::isfinite(p.x) && std::isfinite(p.y);
                };
                for (const FigureLine& line : shapes::all<FigureLine>(figure)) {
                    CHECK(std::all_of(line.points.begin(), line.points.end(), finite));
                }
                for (const FigureArea& area : shapes::all<FigureArea>(figure)) {
                    CHECK(std::all_of(area.points.begin(), area.points.end(), finite));
                }
                for (const FigureMark& mark : shapes::all<FigureMark>(figure)) CHECK(finite(mark.at));
            }
        }
    }
}

TEST_CASE("where the feet cannot be told apart there is no band, no rule, and a sentence instead") {
    const Figure figure = swing_figure(sample::lesson_of_unknowns(), of_size(700, 500, {0}));
    CHECK(shapes::band(figure).points.empty());
    CHECK(shapes::texts_with(figure, "50").empty());
    CHECK(shapes::texts_with(figure, "no lead share: the feet cannot be told apart here").size() == 1);
    CHECK(shapes::trace(figure).empty());
}

TEST_CASE("lost frames are shaded over the time they took, and the bridge over them is dashed") {
    const LessonResult lost = sample::lesson_with_loss();
    const SwingFigureOptions options = of_size(700, 700, {2});
    const Figure figure = share_figure(lost, options);
    const SwingScale scale = share_figure_scale(lost, options);
    std::vector<FigureArea> shaded;
    for (const FigureArea& area : shapes::all<FigureArea>(figure)) {
        if (area.fill == Ink::loss) shaded.push_back(area);
    }
    REQUIRE(shaded.size() == 1);  // the other gap is not in this swing
    CHECK(shaded[0].points[0].y == doctest::Approx(scale.y_of(-0.30)));
    CHECK(shaded[0].points[2].y == doctest::Approx(scale.y_of(-0.18)));
    const auto lines = shapes::all<FigureLine>(figure);
    CHECK(std::any_of(lines.begin(), lines.end(), [](const FigureLine& line) {
        return line.ink == Ink::lead && line.style == LineStyle::dashed;
    }));
    const auto whole = shapes::all<FigureLine>(share_figure(sample::lesson(), options));
    CHECK(std::none_of(whole.begin(), whole.end(), [](const FigureLine& line) {
        return line.ink == Ink::lead && line.style == LineStyle::dashed;
    }));
}

TEST_CASE("a gap of one frame is a tick at the edge and hides nothing; its count is told") {
    LessonResult lost = sample::lesson();
    const double impact = lost.swings[2].events.impact->time_s;
    lost.facts.gaps = {{impact + 0.3, impact + 0.305}};
    const SwingFigureOptions options = of_size(700, 500, {2});
    const SwingScale scale = share_figure_scale(lost, options);
    const Figure figure = share_figure(lost, options);
    std::size_t ticks = 0;
    for (const FigureArea& area : shapes::all<FigureArea>(figure)) {
        if (area.fill != Ink::loss) continue;
        ++ticks;
        for (const FigurePoint& point : area.points) {
            CHECK(std::abs(point.y - scale.y_of(0.3025)) < 3.0);
            CHECK(point.x >= scale.trace.right - 8.0);
        }
    }
    CHECK(ticks == 1);
    CHECK(shapes::texts_with(figure, "1 short gap").size() == 1);
}

TEST_CASE("over the rule the centre of pressure stands over its own lead share") {
    for (const Hand hand : {Hand::right, Hand::left}) {
        const LessonResult lesson = sample::lesson(hand);
        SwingFigureOptions options = of_size(1000, 700, {2});
        options.head_time_s = lesson.swings[2].events.impact->time_s - 0.6;
        const SwingScale scale = swing_figure_scale(lesson, options);
        std::vector<FigurePoint> dots;  // of the head: over the rule, and on the trace
        for (const FigureMark& mark : shapes::all<FigureMark>(swing_figure(lesson, options))) {
            if (mark.ink == Ink::lead) dots.push_back(mark.at);
        }
        REQUIRE(dots.size() == 2);
        CHECK(dots[0].y < scale.feet.bottom);
        CHECK(dots[1].y > scale.trace.top);
        // Identity of two plates (CoP = share-weighted mean of the feet's CoP); the feet's own CoP sway by
        // some mm.
        CHECK(scale.share_at(dots[0].x) == doctest::Approx(scale.share_at(dots[1].x)).epsilon(0.04));
    }
}

TEST_CASE("the view from above is never a mirror image") {
    // With the target on the right, a right-handed golfer faces the coach: toes down; a left-handed one turns
    // the back.
    CHECK(toes_point_down(Hand::right, TargetSide::right));
    CHECK_FALSE(toes_point_down(Hand::left, TargetSide::right));
    CHECK_FALSE(toes_point_down(Hand::right, TargetSide::left));
    for (const bool down : {true, false}) {
        GroundView view;
        view.toes_down = down;
        const FigurePoint origin = view({0.0, 0.0});
        const FigurePoint right = view({1.0, 0.0});
        const FigurePoint ahead = view({0.0, 1.0});
        // Right then ahead turns anticlockwise on the ground; on a picture with y down that is a negative
        // cross product.
        const double cross =
            (right.x - origin.x) * (ahead.y - origin.y) - (right.y - origin.y) * (ahead.x - origin.x);
        CHECK(cross < 0.0);
    }
    for (const Hand hand : {Hand::right, Hand::left}) {
        const LessonResult lesson = sample::lesson(hand);
        const Figure figure = feet_figure(lesson, of_size(600, 400, {0}));
        double lead_x = 0.0;
        double trail_x = 0.0;
        for (const FigureArea& area : shapes::all<FigureArea>(figure)) {
            (area.fill == Ink::lead ? lead_x : trail_x) = area.points[0].x;
        }
        CHECK(lead_x > trail_x);  // the lead foot is the target's
    }
}

TEST_CASE("labels keep their distance, their order and their bounds, and the least important goes first") {
    std::vector<Label> labels{{50, 0, 1, 0}, {52, 0, 5, 1}, {54, 0, 3, 2}, {10, 0, 2, 3}};
    const auto spread = spread_labels(labels, 17, 0, 100);
    REQUIRE(spread.size() == 4);
    CHECK(spread[0].key == 3);
    CHECK(spread[0].y == doctest::Approx(10));
    CHECK(spread[2].y == doctest::Approx(52));  // the middle of the three stays
    for (std::size_t i = 1; i < spread.size(); ++i)
        CHECK(spread[i].y - spread[i - 1].y >= doctest::Approx(17));

    const auto tight = spread_labels(labels, 17, 0, 40);
    REQUIRE(tight.size() == 3);
    CHECK(std::none_of(tight.begin(), tight.end(), [](const Label& label) { return label.importance == 1; }));
    CHECK(tight.front().y >= 0);
    CHECK(tight.back().y <= doctest::Approx(40));
}

TEST_CASE("thinning for the screen keeps each row's extremes and ends") {
    std::vector<FigurePoint> points;
    for (int i = 0; i < 100000; ++i)
        points.push_back({std::sin(i * 0.7) * (i == 50000 ? 50.0 : 1.0), i * 0.005});
    const auto thin = thinned_down(points);
    CHECK(thin.size() <= 4 * 501);
    CHECK(thin.front().y == points.front().y);
    CHECK(thin.back().y == points.back().y);
    const auto wider = [](const FigurePoint& a, const FigurePoint& b) { return a.x < b.x; };
    CHECK(std::max_element(thin.begin(), thin.end(), wider)->x ==
          std::max_element(points.begin(), points.end(), wider)->x);
    CHECK(std::min_element(thin.begin(), thin.end(), wider)->x ==
          std::min_element(points.begin(), points.end(), wider)->x);
}

TEST_CASE(
    "the strokes of many short gaps are not drawn apart: a lossy line takes no more room than a whole one") {
    // Every tenth frame of the swing is missing: a millisecond each at most, shorter than a dash.
    LessonResult lesson = sample::lesson();
    for (std::size_t i = 5; i < lesson.trace.size(); i += 40) {
        lesson.trace.bridged[i] = 1;
        lesson.facts.gaps.push_back({lesson.trace.time_s[i - 1], lesson.trace.time_s[i + 1]});
    }
    const SwingFigureOptions options = of_size(700, 500, {2});
    std::size_t lines = 0;
    for (const FigureLine& line : shapes::all<FigureLine>(share_figure(lesson, options)))
        lines += line.ink == Ink::lead && line.width == 2.0 ? 1 : 0;
    CHECK(lines == 1);
    // A gap that an eye can see is dashed still.
    const auto dashed = [&](const LessonResult& one) {
        const auto all = shapes::all<FigureLine>(share_figure(one, options));
        return std::ranges::any_of(all, [](const FigureLine& line) {
            return line.ink == Ink::lead && line.width == 2.0 && line.style == LineStyle::dashed;
        });
    };
    CHECK_FALSE(dashed(lesson));
    CHECK(dashed(sample::lesson_with_loss()));
}

TEST_CASE("no line goes through the words that count short gaps") {
    LessonResult lesson = sample::lesson();
    const double at_s = lesson.swings[2].events.impact->time_s;
    lesson.facts.gaps = {{at_s, at_s + 0.001}};
    const Figure figure = share_figure(lesson, of_size(360, 300, {2}));
    const auto words = shapes::texts_with(figure, "1 short gap");
    REQUIRE(words.size() == 1);
    // The ground under the words is drawn after every line of the grid and the rule.
    std::size_t ground = 0;
    std::size_t last_grid = 0;
    for (std::size_t i = 0; i < figure.shapes.size(); ++i) {
        if (const auto* line = std::get_if<FigureLine>(&figure.shapes[i]); line && line->ink == Ink::grid)
            last_grid = i;
        const auto* area = std::get_if<FigureArea>(&figure.shapes[i]);
        if (area && area->fill == Ink::paper && area->points.front().x < words[0].at.x &&
            std::abs(area->points.front().y - words[0].at.y) < 20.0)
            ground = i;
    }
    CHECK(ground > last_grid);
}
