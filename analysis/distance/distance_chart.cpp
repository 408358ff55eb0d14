#include "analysis/distance/distance_chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "acquisition/frame/count_words.h"
#include "analysis/statistics/distributions.h"
#include "analysis/statistics/rounding.h"

namespace footing {

namespace {

/// Half the width of the interval of a difference of means with unequal spreads (Welch 1947, Biometrika
/// 34:28).
std::optional<double> difference_half_width(const DistanceCell& a, const DistanceCell& b, double confidence) {
    if (!a.fair_sd_m || !b.fair_sd_m) return std::nullopt;
    const double va = *a.fair_sd_m * *a.fair_sd_m / static_cast<double>(a.kept);
    const double vb = *b.fair_sd_m * *b.fair_sd_m / static_cast<double>(b.kept);
    if (!(va + vb > 0.0)) return 0.0;
    const double freedom =
        (va + vb) * (va + vb) / (va * va / a.degrees_of_freedom + vb * vb / b.degrees_of_freedom);
    return student_t_quantile(0.5 + confidence / 2.0, freedom) * std::sqrt(va + vb);
}

class Warnings {
  public:
    Warnings(DistanceChart& chart, const DistanceOptions& options) : chart_(chart), options_(options) {}

    void find() {
        not_longer_swings();
        not_longer_lofts();
        neighbours();
        old_numbers();
    }

  private:
    void add(WarningKind kind, std::size_t first, std::size_t second) {
        const DistanceCell& a = chart_.cells[first];
        const DistanceCell& b = chart_.cells[second];
        ChartWarning warning{
            kind, first, second, *b.mean_m - *a.mean_m, difference_half_width(a, b, options_.confidence), 0};
        if (kind == WarningKind::old) warning.age_days = options_.today - *a.newest_day;
        chart_.warnings.push_back(warning);
    }

    [[nodiscard]] bool is_usable(std::size_t cell) const {
        return chart_.wedge_of(cell).bag == Bag::in && chart_.cells[cell].mean_m.has_value();
    }

    /// Each length against the next longer one that has a number.
    void not_longer_swings() {
        for (std::size_t wedge = 0; wedge < chart_.wedges.size(); ++wedge) {
            std::optional<std::size_t> shorter;
            for (std::size_t length = 0; length < swing_lengths.size(); ++length) {
                const std::size_t cell = wedge * swing_lengths.size() + length;
                if (!is_usable(cell)) continue;
                if (shorter && *chart_.cells[cell].mean_m <= *chart_.cells[*shorter].mean_m)
                    add(WarningKind::longer_swing_not_longer, *shorter, cell);
                shorter = cell;
            }
        }
    }

    /// At each length, each wedge against the one with the next lower loft.
    void not_longer_lofts() {
        std::vector<std::size_t> by_loft;
        for (std::size_t wedge = 0; wedge < chart_.wedges.size(); ++wedge) {
            if (chart_.wedges[wedge].loft_deg) by_loft.push_back(wedge);
        }
        std::stable_sort(by_loft.begin(), by_loft.end(), [&](std::size_t a, std::size_t b) {
            return *chart_.wedges[a].loft_deg > *chart_.wedges[b].loft_deg;
        });
        for (std::size_t length = 0; length < swing_lengths.size(); ++length) {
            std::optional<std::size_t> higher;
            for (const std::size_t wedge : by_loft) {
                const std::size_t cell = wedge * swing_lengths.size() + length;
                if (!is_usable(cell)) continue;
                if (higher && *chart_.wedges[wedge].loft_deg < *chart_.wedge_of(*higher).loft_deg &&
                    *chart_.cells[cell].mean_m <= *chart_.cells[*higher].mean_m)
                    add(WarningKind::lower_loft_not_longer, *higher, cell);
                higher = cell;
            }
        }
    }

    void neighbours() {
        const std::vector<std::size_t> cells = chart_.usable_cells();
        for (std::size_t i = 1; i < cells.size(); ++i) {
            const DistanceCell& a = chart_.cells[cells[i - 1]];
            const DistanceCell& b = chart_.cells[cells[i]];
            const double apart_m = *b.mean_m - *a.mean_m;
            if (apart_m > options_.widest_gap_m) add(WarningKind::wide_gap, cells[i - 1], cells[i]);
            const auto half_width = difference_half_width(a, b, options_.confidence);
            if (half_width && apart_m <= *half_width) add(WarningKind::overlap, cells[i - 1], cells[i]);
        }
    }

    void old_numbers() {
        for (const std::size_t cell : chart_.usable_cells()) {
            const std::int64_t age = options_.today - *chart_.cells[cell].newest_day;
            if (age > options_.oldest_days) add(WarningKind::old, cell, cell);
        }
    }

    DistanceChart& chart_;
    const DistanceOptions& options_;
};

}  // namespace

std::string DistanceChart::cell_name(std::size_t cell) const {
    return wedge_of(cell).name + " " + length_name(cells[cell].length);
}

std::vector<std::size_t> DistanceChart::usable_cells() const {
    std::vector<std::size_t> usable;
    for (std::size_t i = 0; i < cells.size(); ++i) {
        if (wedge_of(i).bag == Bag::in && cells[i].mean_m) usable.push_back(i);
    }
    std::stable_sort(usable.begin(), usable.end(),
                     [&](std::size_t a, std::size_t b) { return *cells[a].mean_m < *cells[b].mean_m; });
    return usable;
}

std::vector<std::size_t> DistanceChart::numbers() const {
    std::vector<std::size_t> found = usable_cells();
    std::erase_if(found, [&](std::size_t cell) { return !cells[cell].is_number(); });
    return found;
}

DistanceChart make_distance_chart(std::vector<ChartWedge> wedges, const std::vector<ChartShot>& shots,
                                  const DistanceOptions& options) {
    DistanceChart chart;
    chart.wedges = std::move(wedges);
    std::vector<std::vector<Carry>> carries(chart.wedges.size() * swing_lengths.size());
    for (const ChartShot& shot : shots) {
        carries[shot.wedge * swing_lengths.size() + static_cast<std::size_t>(shot.length)].push_back(
            shot.carry);
    }
    for (std::size_t i = 0; i < carries.size(); ++i) {
        DistanceCell cell = judge_cell(std::move(carries[i]), options);
        cell.wedge = i / swing_lengths.size();
        cell.length = swing_lengths[i % swing_lengths.size()];
        chart.cells.push_back(std::move(cell));
    }
    Warnings(chart, options).find();
    return chart;
}

std::string warning_name(WarningKind kind) {
    switch (kind) {
        case WarningKind::longer_swing_not_longer:
            return "longer_swing_not_longer";
        case WarningKind::lower_loft_not_longer:
            return "lower_loft_not_longer";
        case WarningKind::overlap:
            return "overlap";
        case WarningKind::wide_gap:
            return "wide_gap";
        case WarningKind::old:
            return "old";
    }
    return "";
}

std::string warning_words(const DistanceChart& chart, const ChartWarning& warning, DistanceUnit unit) {
    const std::string first = chart.cell_name(warning.first);
    const std::string second = chart.cell_name(warning.second);
    const std::string apart =
        warning.difference_half_width_m
            ? distance_words(warning.difference_m, *warning.difference_half_width_m, unit)
            : distance_words(warning.difference_m, unit);
    switch (warning.kind) {
        case WarningKind::longer_swing_not_longer:
            return fmt::format("{} is a longer swing than {} but does not carry further (difference {})",
                               second, first, apart);
        case WarningKind::lower_loft_not_longer:
            return fmt::format("{} has less loft than {} but does not carry further (difference {})", second,
                               first, apart);
        case WarningKind::overlap:
            return fmt::format("{} and {} cannot be told apart yet (difference {})", first, second, apart);
        case WarningKind::wide_gap:
            return fmt::format("between {} and {} there is a gap of {}", first, second,
                               distance_words(warning.difference_m, unit));
        case WarningKind::old:
            return fmt::format("the newest shot with {} is {} old", first,
                               count_words(static_cast<std::uint64_t>(warning.age_days), "day", "days"));
    }
    return "";
}

std::string wide_interval_words(const DistanceChart& chart, std::size_t place, double confidence,
                                DistanceUnit unit) {
    const DistanceCell& cell = chart.cells[place];
    if (!cell.is_number() || !cell.sd_m || !cell.half_width_m) return "";
    const auto by_test = std::ranges::count_if(cell.shots, [](const JudgedCarry& shot) {
        return shot.standing == Standing::set_aside && shot.carry.coach != CoachSays::set_aside;
    });
    const double kept = static_cast<double>(cell.kept);
    const double alone_m =
        student_t_quantile(0.5 + confidence / 2.0, kept - 1.0) * *cell.sd_m / std::sqrt(kept);
    const std::string shown = distance_words(*cell.mean_m, *cell.half_width_m, unit);
    if (by_test == 0 || shown == distance_words(*cell.mean_m, alone_m, unit)) return "";
    const auto half = [&](double half_width_m) {
        return rounded_to_uncertainty(0.0, half_width_m / metres_per(unit), 0).expanded + " " +
               unit_name(unit);
    };
    return fmt::format(
        "{}: ± {}, though the {} shots that count lie closer together (SD {}), which alone would make it ± "
        "{}. "
        "{} set aside by the test may be a part of your spread after all, so the ± leaves room for {}; more "
        "shots make it smaller.",
        chart.cell_name(place), half(*cell.half_width_m), cell.kept, distance_words(*cell.sd_m, unit, 1),
        half(alone_m), by_test == 1 ? "The shot" : fmt::format("The {} shots", by_test),
        by_test == 1 ? "it" : "them");
}

}  // namespace footing
