// A number is the same wherever it is shown, and what is no number yet is not shown as one.
#include <doctest/doctest.h>

#include <cmath>
#include <regex>
#include <string>
#include <vector>

#include "analysis/report/student_figures.h"
#include "analysis/report/student_html.h"
#include "analysis/report/student_words.h"
#include "tests/report/figure_shapes.h"
#include "tests/support/student_sample.h"

using namespace footing;

namespace {

bool tells(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("page one, chart, card, page and words show each number in one way, halves too") {
    for (const DistanceUnit unit : {DistanceUnit::yards, DistanceUnit::metres}) {
        StudentReport report = sample::student(Hand::right, unit);
        std::vector<ChartShot> shots;
        // Means at halves of the unit, which would be rounded either way.
        for (std::size_t wedge = 0; wedge < 2; ++wedge) {
            for (const SwingLength length : swing_lengths) {
                const double mean =
                    62.5 + 7.0 * static_cast<double>(length) + 20.0 * static_cast<double>(wedge);
                for (const double off : {-1.0, 0.0, 1.0, -0.5, 0.5}) {
                    ChartShot shot{wedge, length, {}};
                    shot.carry.carry_m = (mean + off) * metres_per(unit);
                    shots.push_back(shot);
                }
            }
        }
        report.limits = usual_limits(unit);
        report.chart =
            make_distance_chart({{"60", 60.0, Bag::in}, {"56", 56.0, Bag::in}}, shots, report.limits);
        for (const CardKind kind : {CardKind::steps, CardKind::numbers}) {
            report.card_kind = kind;
            const std::string html = student_html(report);
            const Figure card = card_figure(report);
            const Figure front = wedges_figure(report, 400.0, 220.0);
            for (std::size_t cell = 0; cell < report.chart.cells.size(); ++cell) {
                const double mean = *report.chart.cells[cell].mean_m / metres_per(unit);
                const std::string number = std::to_string(static_cast<int>(std::floor(mean + 0.5 + 1e-9)));
                CAPTURE(mean);
                CHECK(known_words(report.chart.cells[cell], unit).starts_with(number + " ± "));
                CHECK_FALSE(shapes::texts_with(front, number).empty());
                if (kind == CardKind::numbers) CHECK_FALSE(shapes::texts_with(card, number).empty());
                // Wherever the page tells the cell by name, this number follows.
                const std::string name = cell_words(report.chart, cell);
                std::size_t told = 0;
                const std::regex numbers(name + "[:,]? ([0-9]+)(?: |\xC2\xA0)");
                for (std::sregex_iterator found(html.begin(), html.end(), numbers), end; found != end;
                     ++found) {
                    CHECK((*found)[1].str() == number);
                    ++told;
                }
                CHECK(told >= 2);
            }
        }
    }
}

TEST_CASE("what is no number yet is nowhere shown as one: two of five shots, and a line on the card") {
    StudentReport report = sample::student();
    std::vector<ChartShot> shots;
    for (const double carry : {71.0, 73.0}) {
        ChartShot shot{0, SwingLength::full, {}};
        shot.carry.carry_m = carry * metres_per_yard;
        shots.push_back(shot);
    }
    report.chart = make_distance_chart({{"60", 60.0, Bag::in}}, shots, report.limits);
    const std::string html = student_html(report);
    CHECK(tells(html, "60 full has 2 of 5 shots"));
    CHECK(tells(html, "2 of 5"));
    CHECK_FALSE(tells(html, "72 yd"));
    CHECK_FALSE(tells(html, "72\xC2\xA0yd"));
    for (const CardKind kind : {CardKind::steps, CardKind::numbers}) {
        report.card_kind = kind;
        const Figure card = card_figure(report);
        CHECK(shapes::texts_with(card, "2 of 5").size() == 1);
        CHECK(shapes::texts_with(card, "72").empty());
    }
    CHECK(shapes::all<FigureMark>(wedges_figure(report, 400.0, 200.0)).empty());
}
