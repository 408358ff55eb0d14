#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "acquisition/frame/units.h"
#include "acquisition/import/csv_document.h"
#include "acquisition/import/csv_rows.h"

namespace footing {

namespace {

constexpr std::size_t block_values = 1 << 16;

/// Fx Fy Fz Mx My Mz about the plate's own origin from a load and where it acts; unknown where no CoP is
/// given.
void put_components(double* into, double load_n, double cop_x_mm, double cop_y_mm) {
    constexpr double not_told = std::numeric_limits<double>::quiet_NaN();
    into[0] = not_told;
    into[1] = not_told;
    into[2] = load_n;
    into[3] = load_n * cop_y_mm * metres_per_mm;
    into[4] = -load_n * cop_x_mm * metres_per_mm;
    into[5] = not_told;
}

template <typename Number>
void append_as(FrameBlock& block, const std::vector<double>& values) {
    auto& all = std::get<std::vector<Number>>(block.values);
    for (const double value : values) all.push_back(static_cast<Number>(value));
}

}  // namespace

Outcome CsvDocument::each_block(const std::function<Outcome(const FrameBlock&)>& take) const {
    return columns_.form == CsvForm::grid ? each_grid_block(take) : each_row_block(take);
}

Outcome CsvDocument::each_row_block(const std::function<Outcome(const FrameBlock&)>& take) const {
    const bool as_counts = columns_.form == CsvForm::cells && device_.newtons_per_count.has_value();
    const bool is_grid = device_.layout.kind == FrameKind::grid;
    const auto emptied = [&](FrameBlock& block) {
        block.values_per_frame = values_per_frame(device_.layout);
        block.stamps.clear();
        if (as_counts && is_grid) {
            block.values = std::vector<std::uint16_t>();
        } else if (as_counts) {
            block.values = std::vector<std::int32_t>();
        } else {
            block.values = std::vector<double>();
        }
    };
    FrameBlock block;
    emptied(block);
    const std::size_t frames_per_block = std::max<std::size_t>(1, block_values / block.values_per_frame);
    CsvRows rows(text_, place_, columns_, CsvRows::Reading::second, watch_);
    if (const auto header = rows.skip_header(); !header) return header.problem();
    CsvRow row;
    std::vector<double> values(block.values_per_frame);
    for (std::uint64_t index = 0; index < frames_; ++index) {
        const auto next = rows.next(row);
        if (!next) return next.problem();
        block.stamps.push_back(
            {time_base_.counters[index], csv_device_time_us(time_base_, row.time_s), 0, row.inputs});
        constexpr double not_told = std::numeric_limits<double>::quiet_NaN();
        switch (columns_.form) {
            case CsvForm::two_feet: {
                const double* cop = row.values.data() + 2;
                put_components(values.data(), row.values[0] * newtons_per_unit_,
                               columns_.has_left_cop ? cop[0] : not_told,
                               columns_.has_left_cop ? cop[1] : not_told);
                if (columns_.has_left_cop) cop += 2;
                put_components(values.data() + components_per_plate, row.values[1] * newtons_per_unit_,
                               columns_.has_right_cop ? cop[0] : not_told,
                               columns_.has_right_cop ? cop[1] : not_told);
                break;
            }
            case CsvForm::whole:
                put_components(values.data(), row.values[0] * newtons_per_unit_, row.values[1],
                               row.values[2]);
                break;
            case CsvForm::cells:
            case CsvForm::grid:
                std::ranges::transform(row.values, values.begin(),
                                       [&](double value) { return value * newtons_per_unit_; });
                break;
        }
        if (as_counts && is_grid) {
            append_as<std::uint16_t>(block, values);
        } else if (as_counts) {
            append_as<std::int32_t>(block, values);
        } else {
            append_as<double>(block, values);
        }
        if (block.size() == frames_per_block || index + 1 == frames_) {
            if (Outcome done = take(block); !done) return done;
            emptied(block);
        }
    }
    return Done{};
}

Outcome CsvDocument::each_grid_block(const std::function<Outcome(const FrameBlock&)>& take) const {
    const Grid& grid = *device_.layout.grid;
    const std::size_t elements = values_per_frame(device_.layout);
    const bool as_counts = device_.newtons_per_count.has_value();
    CsvRows rows(text_, place_, columns_, CsvRows::Reading::second, watch_);
    if (const auto header = rows.skip_header(); !header) return header.problem();
    CsvRow row;
    auto next = rows.next(row);
    if (!next) return next.problem();
    std::vector<double> values(elements);
    const std::uint64_t frames_per_block = std::max<std::size_t>(1, block_values / elements);
    for (std::uint64_t index = 0; index < frames_;) {
        FrameBlock block;
        block.values_per_frame = elements;
        if (as_counts) {
            block.values = std::vector<std::uint16_t>();
        } else {
            block.values = std::vector<double>();
        }
        for (; index < frames_ && block.size() < frames_per_block; ++index) {
            std::ranges::fill(values, 0.0);
            const auto frame = static_cast<double>(first_grid_frame_ + index);
            while (next.value() == CsvText::Next::line && row.values[0] == frame) {
                const std::size_t element = static_cast<std::size_t>(row.values[1] - 1.0) * grid.columns +
                                            static_cast<std::size_t>(row.values[2] - 1.0);
                values[element] = row.values[3] * newtons_per_unit_;
                next = rows.next(row);
                if (!next) return next.problem();
            }
            const double time_us = static_cast<double>(index) / device_.rate_hz * 1e6;
            block.stamps.push_back(
                {first_grid_frame_ + index, static_cast<std::uint64_t>(std::llround(time_us)), 0, 0});
            if (as_counts) {
                append_as<std::uint16_t>(block, values);
            } else {
                append_as<double>(block, values);
            }
        }
        if (Outcome done = take(block); !done) return done;
    }
    return Done{};
}

}  // namespace footing
