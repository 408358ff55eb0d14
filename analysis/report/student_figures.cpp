#include "analysis/report/student_figures.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numeric>
#include <utility>

#include "analysis/report/figure_kit.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/stance_view.h"
#include "analysis/report/student_words.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/text_safety.h"

namespace footing {

namespace {

/// What stands on the rule: a swing's share, or a lesson's mean.
struct ShareMark {
    double share = 0.0;
    Verdict verdict = Verdict::too_close;
};

struct TempoColumn {
    double backswing_s = 0.0;
    double downswing_s = 0.0;
};

double mean_of(const std::vector<double>& values) {
    return values.empty()
               ? 0.0
               : std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

std::vector<ShareMark> share_marks(const StudentReport& report) {
    std::vector<ShareMark> marks;
    std::map<std::size_t, std::vector<const ReportedSwing*>> by_lesson;
    for (const ReportedSwing* swing : counted_swings(report)) {
        if (!swing->address) continue;
        marks.push_back({swing->address->value, swing->address->verdict});
        by_lesson[swing->lesson].push_back(swing);
    }
    if (marks.size() <= most_single || by_lesson.size() < 2) return marks;
    marks.clear();
    for (const auto& [lesson, swings] : by_lesson) {
        std::vector<double> shares;
        double u = 0.0;
        for (const ReportedSwing* swing : swings) {
            shares.push_back(swing->address->value);
            u = std::max(u, swing->address->u);
        }
        const double mean = mean_of(shares);
        marks.push_back({mean, judge(mean, u, usual_band(swings), report.sure)});
    }
    return marks;
}

std::vector<TempoColumn> tempo_columns(const StudentReport& report) {
    std::vector<TempoColumn> columns;
    std::map<std::size_t, std::pair<TempoColumn, double>> by_lesson;
    for (const ReportedSwing* swing : counted_swings(report)) {
        if (!swing->tempo || !(swing->tempo->backswing_s > 0.0) || !(swing->tempo->downswing_s > 0.0))
            continue;
        columns.push_back({swing->tempo->backswing_s, swing->tempo->downswing_s});
        auto& [sum, count] = by_lesson[swing->lesson];
        sum.backswing_s += swing->tempo->backswing_s;
        sum.downswing_s += swing->tempo->downswing_s;
        count += 1.0;
    }
    if (columns.size() <= most_single || by_lesson.size() < 2) return columns;
    columns.clear();
    for (const auto& [lesson, sums] : by_lesson)
        columns.push_back({sums.first.backswing_s / sums.second, sums.first.downswing_s / sums.second});
    return columns;
}

std::string each_is(std::size_t drawn, std::size_t swings) {
    return drawn == swings ? "each mark is a swing" : "each mark is a lesson's mean";
}

/// A sole at `at`, as the pictures of swings draw it.
void draw_sole(FigureKit& kit, FigurePoint at, PlateSide side, Hand hand) {
    GroundView view;
    view.at = at;
    view.px_per_m_x = view.px_per_m_y = 180.0;
    view.toes_down = toes_point_down(hand, TargetSide::right);
    std::vector<FigurePoint> outline;
    for (const PointM& point : sole_outline(side)) outline.push_back(view(point));
    const bool lead = (side == PlateSide::left) == (hand == Hand::right);
    kit.polygon(outline, lead ? Ink::lead : Ink::trail, 0.10);
    outline.push_back(outline.front());
    kit.path(std::move(outline), lead ? Ink::lead : Ink::trail, 1.5);
}

/// Marks that occur, with their words, on one line.
void draw_marks_key(FigureKit& kit, const std::vector<ShareMark>& marks, double left, double y) {
    for (const auto& [verdict, words] :
         {std::pair{Verdict::inside, "inside"}, std::pair{Verdict::below, "below"},
          std::pair{Verdict::above, "above"}, std::pair{Verdict::too_close, "too close to call"}}) {
        if (std::ranges::none_of(marks, [&](const ShareMark& mark) { return mark.verdict == verdict; }))
            continue;
        kit.mark({left + 5.0, y - 4.5}, mark_of(verdict), 4.0, Ink::ink);
        kit.text({left + 14.0, y}, words, Ink::quiet);
        left += 28.0 + text_width(words, TextSize::small);
    }
}

/// Rows below the rule for marks at these places along it: from the left on each in the first one in which it
/// touches none, which takes the fewest rows.
std::vector<std::size_t> rows_apart(const std::vector<double>& across, double apart) {
    std::vector<std::size_t> from_left(across.size());
    std::iota(from_left.begin(), from_left.end(), std::size_t{0});
    std::ranges::stable_sort(from_left, {}, [&](std::size_t mark) { return across[mark]; });
    std::vector<std::size_t> rows(across.size());
    std::vector<double> last;  // in each row
    for (const std::size_t mark : from_left) {
        const auto free = std::ranges::find_if(last, [&](double x) { return across[mark] - x >= apart; });
        rows[mark] = static_cast<std::size_t>(free - last.begin());
        if (free == last.end()) {
            last.push_back(across[mark]);
        } else {
            *free = across[mark];
        }
    }
    return rows;
}

}  // namespace

Figure set_up_figure(const StudentReport& report, double width, double height) {
    Figure figure;
    figure.width = width;
    figure.height = height;
    figure.title = "Your set-up weight";
    const std::vector<ShareMark> marks = share_marks(report);
    if (marks.empty()) return figure;
    const auto swings = counted_swings(report);
    FigureKit kit(figure);
    constexpr double side = 22.0;
    const double rule_y = 84.0;
    const double bottom = height - 26.0;
    const auto x_of = [&](double share) { return side + share * (width - 2.0 * side); };
    const TargetBand band = usual_band(swings);
    kit.area({x_of(band.low), 4.0, x_of(band.high), bottom}, Ink::band);
    for (const double edge : {band.low, band.high})
        kit.line({x_of(edge), 4.0}, {x_of(edge), bottom}, Ink::band_edge, 1.0);

    const bool right = report.hand == Hand::right;
    draw_sole(kit, {x_of(0.0), 32.0}, right ? PlateSide::right : PlateSide::left, report.hand);
    draw_sole(kit, {x_of(1.0), 32.0}, right ? PlateSide::left : PlateSide::right, report.hand);
    kit.text({x_of(0.0) + 20.0, 36.0}, right ? "right" : "left", Ink::quiet);
    kit.text({x_of(0.5), 16.0}, "target →", Ink::quiet, Align::middle);
    kit.text({x_of(1.0) - 20.0, 36.0}, lead_foot(report.hand), Ink::ink, Align::right);
    kit.line({x_of(0.0), rule_y}, {x_of(1.0), rule_y}, Ink::ink, 1.5);
    for (int tenth = 0; tenth <= 10; ++tenth) {
        const double x = x_of(0.1 * tenth);
        kit.line({x, rule_y - 5.0}, {x, rule_y}, Ink::ink, 1.0);
        if (tenth % 2 == 0 || tenth == 7)
            kit.text({x, rule_y - 8.0}, tenth == 10 ? "100 %" : std::to_string(10 * tenth), Ink::quiet,
                     Align::middle);
    }

    std::vector<double> shares;
    std::vector<double> across;
    for (const ShareMark& mark : marks) {
        shares.push_back(mark.share);
        across.push_back(x_of(std::clamp(mark.share, 0.0, 1.0)));
    }
    const double depth = bottom - rule_y - 16.0;
    std::vector<std::size_t> row = rows_apart(across, 11.0);
    const bool are_many = depth / static_cast<double>(1 + std::ranges::max(row)) < 8.0;
    if (are_many) row = rows_apart(across, 7.0);
    const double step = std::min(11.0, depth / static_cast<double>(1 + std::ranges::max(row)));
    const double mean_x = x_of(std::clamp(mean_of(shares), 0.0, 1.0));
    kit.line({mean_x, rule_y}, {mean_x, bottom}, Ink::lead, 2.0);
    for (std::size_t i = 0; i < marks.size(); ++i) {
        const FigurePoint at{across[i], rule_y + 11.0 + step * static_cast<double>(row[i])};
        if (are_many) {
            // Without the light rim, which would hide the neighbours.
            figure.shapes.emplace_back(std::in_place_type<FigureMark>,
                                       FigureMark{at, mark_of(marks[i].verdict), 3.0, Ink::ink});
        } else {
            kit.mark(at, mark_of(marks[i].verdict), 4.0, Ink::ink);
        }
    }
    draw_marks_key(kit, marks, side - 4.0, height - 6.0);
    const auto measured = static_cast<std::size_t>(
        std::ranges::count_if(swings, [](const ReportedSwing* swing) { return swing->address.has_value(); }));
    kit.text({side - 4.0, rule_y + 18.0}, each_is(marks.size(), measured), Ink::quiet);
    figure.description = fmt::format(
        "Share of the weight on the {} foot at address on a rule from 0 to 100 %, the "
        "band {} marked; {}. Mean {}.",
        lead_foot(report.hand), band_words(band), each_is(marks.size(), measured),
        share_short(mean_of(shares)));
    return figure;
}

Figure rhythm_figure(const StudentReport& report, double width, double height) {
    Figure figure;
    figure.width = width;
    figure.height = height;
    figure.title = "Your rhythm";
    const std::vector<TempoColumn> columns = tempo_columns(report);
    if (columns.empty()) return figure;
    FigureKit kit(figure);
    const FigureBox box{60.0, 8.0, width - 96.0, height - 26.0};
    double back_s = 0.0;
    double down_s = 0.0;
    std::vector<double> backs;
    std::vector<double> downs;
    for (const TempoColumn& column : columns) {
        back_s = std::max(back_s, column.backswing_s);
        down_s = std::max(down_s, column.downswing_s);
        backs.push_back(column.backswing_s);
        downs.push_back(column.downswing_s);
    }
    const double px_per_s = box.height() / (back_s + down_s);
    const double top_y = box.top + back_s * px_per_s;
    const double pitch = std::min(26.0, box.width() / static_cast<double>(columns.size()));
    const double bar = std::max(1.5, pitch - std::min(6.0, 0.35 * pitch));
    for (std::size_t i = 0; i < columns.size(); ++i) {
        const double x = box.left + pitch * static_cast<double>(i);
        const FigureBox back{x, top_y - columns[i].backswing_s * px_per_s, x + bar, top_y};
        const bool roomy = bar >= 5.0;  // an outline needs room for its inside
        kit.area(back, Ink::trail, roomy ? 0.12 : 0.35);
        if (roomy) kit.outline(back, Ink::trail, 1.0);
        kit.area({x, top_y, x + bar, top_y + columns[i].downswing_s * px_per_s}, Ink::lead);
    }
    const double end = box.left + pitch * static_cast<double>(columns.size());
    const double mean_back = mean_of(backs);
    const double mean_down = mean_of(downs);
    for (const double y : {top_y - mean_back * px_per_s, top_y, top_y + mean_down * px_per_s})
        kit.line({box.left - 8.0, y}, {end + 8.0, y}, Ink::ink, 1.0,
                 y == top_y ? LineStyle::solid : LineStyle::dashed);
    kit.text({box.left - 14.0, top_y - mean_back * px_per_s + 4.5}, "start", Ink::ink, Align::right);
    kit.text({box.left - 14.0, top_y + 4.5}, "top", Ink::ink, Align::right);
    kit.text({box.left - 14.0, top_y + mean_down * px_per_s + 4.5}, "impact", Ink::ink, Align::right);
    kit.text({end + 14.0, top_y - 0.5 * mean_back * px_per_s + 4.5}, number_words(mean_back, 2) + " s back",
             Ink::ink);
    kit.text({end + 14.0, top_y + 0.5 * mean_down * px_per_s + 4.5}, number_words(mean_down, 2) + " s down",
             Ink::ink);
    const auto swings = counted_swings(report);
    const auto timed = static_cast<std::size_t>(
        std::ranges::count_if(swings, [](const ReportedSwing* swing) { return swing->tempo.has_value(); }));
    kit.text({box.left, height - 6.0},
             columns.size() == timed ? "each column is one swing, first to last"
                                     : "each column is a lesson's mean",
             Ink::quiet);
    figure.description = fmt::format(
        "A column for each of {}: backswing above, downswing below the top of the swing. Mean {} s back, "
        "{} s down.",
        columns.size(), number_words(mean_back, 2), number_words(mean_down, 2));
    return figure;
}

namespace {

/// A lesson's swings that count: their shares, and how many lay inside the band.
struct LessonShares {
    std::vector<double> shares;
    std::size_t inside = 0;
};

LessonShares lesson_shares(const std::vector<const ReportedSwing*>& counted, std::size_t place) {
    LessonShares found;
    for (const ReportedSwing* swing : counted) {
        if (swing->lesson != place || !swing->address) continue;
        found.inside += swing->address->verdict == Verdict::inside ? 1 : 0;
        found.shares.push_back(swing->address->value);
    }
    return found;
}

/// "73 %, 5 of 6 inside"; without the last word where there is little room.
std::string lesson_words(const LessonShares& lesson, bool narrow) {
    if (lesson.shares.empty()) return "not measured";
    return fmt::format("{}, {} of {}{}", share_short(mean_of(lesson.shares)), lesson.inside,
                       lesson.shares.size(), narrow ? "" : " inside");
}

}  // namespace

Figure lessons_figure(const StudentReport& report, double width) {
    constexpr double row_height = 26.0;
    constexpr double head = 30.0;
    constexpr double beside = 12.0;
    const bool narrow = width < 500.0;
    Figure figure;
    figure.width = width;
    figure.title = "Weight at address, lesson by lesson";
    FigureKit kit(figure);
    const std::vector<const ReportedSwing*> counted = counted_swings(report);
    std::vector<LessonShares> lessons;
    double words_width = text_width(lesson_words({}, narrow), TextSize::small);
    for (std::size_t place = 0; place < report.lessons.size(); ++place) {
        lessons.push_back(lesson_shares(counted, place));
        words_width =
            std::max(words_width, text_width(lesson_words(lessons.back(), narrow), TextSize::small));
    }
    const double left = 92.0;
    const double right = width - words_width - beside;
    const auto x_of = [&](double share) { return left + share * (right - left); };
    const double bottom = head + row_height * static_cast<double>(report.lessons.size());
    const TargetBand band = usual_band(counted);
    kit.area({x_of(band.low), head - 6.0, x_of(band.high), bottom}, Ink::band);
    for (const double edge : {band.low, band.high})
        kit.line({x_of(edge), head - 6.0}, {x_of(edge), bottom}, Ink::band_edge, 1.0);
    kit.line({left, head - 6.0}, {right, head - 6.0}, Ink::ink, 1.5);
    const int step = narrow ? 50 : 20;
    for (int percent = 0; percent <= 100; percent += step) {
        const double x = x_of(0.01 * percent);
        kit.line({x, head - 11.0}, {x, head - 6.0}, Ink::ink, 1.0);
        kit.text({x, head - 14.0}, percent == 100 ? "100 %" : std::to_string(percent), Ink::quiet,
                 Align::middle);
    }
    for (std::size_t place = 0; place < report.lessons.size(); ++place) {
        const LessonShares& lesson = lessons[place];
        const double y = head + row_height * (static_cast<double>(place) + 0.5);
        kit.text({0.0, y + 4.5}, clean_text(report.lessons[place].date, 10), Ink::ink);
        kit.line({left, y + 0.5 * row_height}, {right, y + 0.5 * row_height}, Ink::grid, 1.0);
        for (const double share : lesson.shares) {
            const double x = x_of(std::clamp(share, 0.0, 1.0));
            kit.line({x, y - 6.0}, {x, y + 6.0}, Ink::ink, 1.0, LineStyle::solid, 0.45);
        }
        if (!lesson.shares.empty())
            kit.mark({x_of(std::clamp(mean_of(lesson.shares), 0.0, 1.0)), y}, MarkShape::dot, 4.5, Ink::lead);
        kit.text({right + beside, y + 4.5}, lesson_words(lesson, narrow),
                 lesson.shares.empty() ? Ink::quiet : Ink::ink);
    }
    figure.height = bottom + 6.0;
    figure.description = fmt::format(
        "{}: each swing's share on the lead foot at address as a stroke, the lesson's mean "
        "as a dot, the band {} marked; beside it the mean, and how many lay inside.",
        count_words(report.lessons.size(), "lesson", "lessons"), band_words(band));
    return figure;
}

}  // namespace footing
