#include "acquisition/import/csv_document.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "acquisition/frame/foreign_text.h"
#include "acquisition/frame/units.h"
#include "acquisition/import/csv_rows.h"

namespace footing {

namespace {

constexpr std::size_t block_values = 1 << 16;
// More missing than this is no gap in a lesson, and would have to be bridged later.
constexpr double most_missing_s = 3600.0;
constexpr double most_whole_count = std::numeric_limits<std::int32_t>::max();
constexpr double most_whole_grid_count = std::numeric_limits<std::uint16_t>::max();

/// What a value of this kind of frame can be when it is a raw count.
struct CountRange {
    double least = 0.0;
    double most = 0.0;
    [[nodiscard]] bool holds(double value) const { return value >= least && value <= most; }
};

CountRange count_range(FrameKind kind) {
    if (kind == FrameKind::grid) return {0.0, most_whole_grid_count};
    return {-most_whole_count, most_whole_count};
}

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

Result<CsvDocument> CsvDocument::check(std::string_view text, std::string place,
                                       std::optional<DeviceDescription> layout, WorkWatch* watch) {
    CsvDocument document(text, std::move(place));
    document.watch_ = watch;
    document.layout_ = layout;
    CsvText lines(text, document.place_);
    if (Outcome done = document.read_header(lines); !done) return done.problem();
    Outcome checked = document.columns_.form == CsvForm::grid ? document.check_grid() : document.check_rows();
    if (!checked) return checked.problem();
    document.describe(std::move(layout));
    return document;
}

double CsvDocument::duration_s() const {
    return device_.rate_hz > 0.0 ? static_cast<double>(frames_ + frames_missing()) / device_.rate_hz : 0.0;
}

Outcome CsvDocument::read_header(CsvText& text) {
    if (text_.empty()) {
        return Problem{ProblemKind::bad_input, place_, "the file is empty", "export the table again"};
    }
    const auto header = text.next();
    if (!header) return header.problem();
    if (header.value() == CsvText::Next::end) {
        return Problem{ProblemKind::bad_input, place_, "there are only blank lines",
                       "export the table again"};
    }
    auto columns = find_csv_columns(text, layout_);
    if (!columns) return columns.problem();
    columns_ = std::move(columns).value();
    std::string unused;
    for (const std::string& name : columns_.unused) {
        if (!name.empty()) unused += (unused.empty() ? "" : ", ") + as_utf8(name);
    }
    if (!unused.empty()) notes_.push_back("columns that were not used: " + unused);
    return Done{};
}

Outcome CsvDocument::check_rows() {
    CsvRows rows(text_, place_, columns_, CsvRows::Reading::first, watch_);
    if (const auto header = rows.skip_header(); !header) return header.problem();
    const FrameKind kind = layout_ ? layout_->layout.kind : FrameKind::cells;
    std::vector<double> times_s;
    CsvRow row;
    while (true) {
        const auto next = rows.next(row);
        if (!next) return next.problem();
        if (next.value() == CsvText::Next::end) break;
        if (!times_s.empty() && row.time_s - times_s.back() < 1e-6) {
            return rows.text().problem("time_s",
                                       fmt::format("time {} from {} to {}",
                                                   row.time_s < times_s.back() ? "runs back" : "stands still",
                                                   times_s.back(), row.time_s),
                                       "sort the lines by time, and leave out what is there twice");
        }
        if (!times_s.empty() && row.time_s - times_s.back() > most_missing_s) {
            return rows.text().problem("time_s",
                                       fmt::format("time jumps from {} to {}", times_s.back(), row.time_s),
                                       "import the parts before and after as files of their own");
        }
        times_s.push_back(row.time_s);
        for (const double value : row.values) look_for_counts(value, kind);
    }
    if (times_s.size() < 2) {
        return Problem{ProblemKind::bad_input, place_,
                       times_s.empty() ? "there are no lines under the header"
                                       : "there is only one line under the header",
                       "at least two instants are needed to know the rate"};
    }
    time_base_ = csv_time_base(times_s);
    frames_ = times_s.size();
    if (static_cast<double>(time_base_.rows_missing) > most_missing_s * time_base_.rate_hz) {
        return Problem{ProblemKind::bad_input, place_, "more than an hour of lines is missing",
                       "import the parts as files of their own"};
    }
    if (time_base_.spacing == CsvTimeBase::Spacing::uneven) {
        notes_.push_back(
            fmt::format("times are uneven; lines were taken as they come, {:.6g} a second on average",
                        time_base_.rate_hz));
    }
    return Done{};
}

Outcome CsvDocument::check_grid() {
    const Grid& grid = *layout_->layout.grid;
    time_base_.rate_hz = layout_->rate_hz;
    if (!(time_base_.rate_hz > 0.0)) {
        return Problem{ProblemKind::bad_input, place_,
                       "the layout does not say how many frames a second there are",
                       "add \"rate_hz\" to the layout"};
    }
    const double most_blank = most_missing_s * time_base_.rate_hz;
    CsvRows rows(text_, place_, columns_, CsvRows::Reading::first, watch_);
    if (const auto header = rows.skip_header(); !header) return header.problem();
    // For each element, the frame it was read in last, plus one.
    std::vector<std::uint64_t> read_in(std::size_t{grid.rows} * grid.columns, 0);
    CsvRow row;
    double newest = 0.0;
    double blank = 0.0;
    bool any = false;
    while (true) {
        const auto next = rows.next(row);
        if (!next) return next.problem();
        if (next.value() == CsvText::Next::end) break;
        constexpr std::array names{"frame", "row", "col"};
        const std::array most{static_cast<double>(std::numeric_limits<std::uint32_t>::max()),
                              static_cast<double>(grid.rows), static_cast<double>(grid.columns)};
        for (std::size_t i = 0; i < names.size(); ++i) {
            const double least = i == 0 ? 0.0 : 1.0;
            if (row.values[i] != std::floor(row.values[i]) || row.values[i] < least ||
                row.values[i] > most[i]) {
                return rows.text().problem(
                    names[i],
                    fmt::format("{} is not a whole number from {} to {}", row.values[i], least, most[i]),
                    "frames count from 0 or 1, rows and columns from 1 to the layout's");
            }
        }
        const double frame = row.values[0];
        if (!any) {
            first_grid_frame_ = static_cast<std::uint64_t>(frame);
        } else if (frame < newest) {
            return rows.text().problem("frame", fmt::format("frame {} comes after frame {}", frame, newest),
                                       "sort the lines by frame");
        } else {
            blank += std::max(0.0, frame - newest - 1.0);
            if (blank > most_blank) {
                return rows.text().problem("frame", "more than an hour of frames is not there",
                                           "import the parts as files of their own");
            }
        }
        any = true;
        newest = frame;
        const std::size_t element = static_cast<std::size_t>(row.values[1] - 1.0) * grid.columns +
                                    static_cast<std::size_t>(row.values[2] - 1.0);
        if (read_in[element] == static_cast<std::uint64_t>(frame) + 1) {
            return rows.text().problem("",
                                       fmt::format("row {}, column {} is there twice in frame {}",
                                                   row.values[1], row.values[2], frame),
                                       "leave one of them out");
        }
        read_in[element] = static_cast<std::uint64_t>(frame) + 1;
        look_for_counts(row.values[3], FrameKind::grid);
    }
    if (!any) {
        return Problem{ProblemKind::bad_input, place_, "there are no lines under the header",
                       "export the table again"};
    }
    frames_ = static_cast<std::uint64_t>(newest) - first_grid_frame_ + 1;
    return Done{};
}

void CsvDocument::look_for_counts(double value, FrameKind kind) {
    all_whole_ = all_whole_ && value == std::floor(value);
    all_in_range_ = all_in_range_ && count_range(kind).holds(value);
}

void CsvDocument::describe(std::optional<DeviceDescription> layout) {
    if (layout && (columns_.form == CsvForm::cells || columns_.form == CsvForm::grid)) {
        device_ = std::move(*layout);
        const bool are_counts = all_whole_ && all_in_range_;
        if (!are_counts && device_.newtons_per_count) {
            newtons_per_unit_ = *device_.newtons_per_count;
            const CountRange range =
                count_range(columns_.form == CsvForm::grid ? FrameKind::grid : device_.layout.kind);
            const std::string why =
                !all_whole_ ? "not all values are whole counts"
                            : fmt::format("some values lie outside {:.0f} to {:.0f}, what a count can be",
                                          range.least, range.most);
            notes_.push_back(why + "; all were turned into newtons by the layout's newtons_per_count");
        }
        if (!are_counts) device_.newtons_per_count.reset();
        if (!device_.newtons_per_count) device_.full_scale_counts.reset();
    } else {
        device_.name = "table of loads";
        device_.layout.kind = FrameKind::components;
        if (columns_.form == CsvForm::two_feet) {
            device_.layout.plates = {{"left", {}, {}}, {"right", {}, {}}};
        } else {
            device_.layout.plates = {{"whole", {}, {}}};
        }
    }
    device_.rate_hz = time_base_.rate_hz;
}

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
                put_components(values.data(), row.values[0], columns_.has_left_cop ? cop[0] : not_told,
                               columns_.has_left_cop ? cop[1] : not_told);
                if (columns_.has_left_cop) cop += 2;
                put_components(values.data() + components_per_plate, row.values[1],
                               columns_.has_right_cop ? cop[0] : not_told,
                               columns_.has_right_cop ? cop[1] : not_told);
                break;
            }
            case CsvForm::whole:
                put_components(values.data(), row.values[0], row.values[1], row.values[2]);
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
