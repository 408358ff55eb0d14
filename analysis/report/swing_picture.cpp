#include "analysis/report/swing_picture.h"

#include <string>
#include <utility>
#include <vector>

#include "analysis/report/evidence_figure.h"
#include "analysis/report/figure_kit.h"
#include "analysis/report/legend_figure.h"
#include "analysis/report/number_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

constexpr double width = 540.0;
constexpr double height = 675.0;
constexpr double margin = 28.0;

void place_figure(Figure& page, Figure inner, FigurePoint at) {
    const auto move = [&](FigurePoint& point) {
        point.x += at.x;
        point.y += at.y;
    };
    for (FigureShape& shape : inner.shapes) {
        std::visit(
            [&](auto& one) {
                if constexpr (requires { one.points; }) {
                    for (FigurePoint& point : one.points) move(point);
                } else {
                    move(one.at);
                }
            },
            shape);
        page.shapes.push_back(std::move(shape));
    }
}

}  // namespace

Figure swing_picture(const LessonResult& lesson, std::size_t place) {
    const Swing& swing = lesson.swings[place];
    Figure page;
    page.width = width;
    page.height = height;
    FigureKit kit(page);
    kit.text({margin, 44.0}, swing_title(swing), Ink::ink, Align::left, TextSize::heading, TextWeight::bold);
    std::string whose = lesson.facts.student.empty() ? "" : clean_text(lesson.facts.student, 40);
    if (lesson.facts.started.size() >= 10)
        whose += (whose.empty() ? "" : " · ") + clean_text(lesson.facts.started.substr(0, 10));
    kit.text({margin, 68.0}, whose, Ink::quiet);

    SwingFigureOptions options;
    options.width = width - 2.0 * margin;
    options.height = 470.0;
    options.edge = 0.0;
    options.swings = {place};
    Figure inner = evidence_figure(lesson, options, lesson.band);
    page.title = inner.title;
    page.description = inner.description;
    place_figure(page, std::move(inner), {margin, 84.0});

    double x = margin;
    const auto number = [&](const char* name, const std::string& value) {
        kit.text({x, 576.0}, name, Ink::quiet);
        kit.text({x, 596.0}, value, Ink::ink, Align::left, TextSize::text, TextWeight::bold);
        x += 124.0;
    };
    if (swing.lead_share.address) number("address", share_words(*swing.lead_share.address));
    if (swing.lead_share.lowest) number("lowest", share_words(*swing.lead_share.lowest));
    if (swing.lead_share.impact) number("impact", share_words(*swing.lead_share.impact));
    if (swing.tempo) number("tempo, estimate", ratio_words(swing.tempo->ratio));
    if (swing.lead_share.address || swing.lead_share.impact)
        place_figure(page, legend_figure(width - 2.0 * margin), {margin, 618.0});
    return page;
}

}  // namespace footing
