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

// More missing than this is no gap in a lesson, and would have to be bridged later.
constexpr double most_missing_s = 3600.0;
constexpr double most_whole_count = std::numeric_limits<std::int32_t>::max();
constexpr double most_whole_grid_count = std::numeric_limits<std::uint16_t>::max();

// As for C3D (c3d_loads.cpp): force plates end at a fifth of it (from memory of what makers state).
constexpr double most_load_n = 1e5;
// A downswing takes a quarter of a second: five lines of it are the least to see it by.
constexpr double slowest_hz = 20.0;

/// How many of a line's values are loads in newtons, from the first on.
std::size_t loads_of(CsvForm form) {
    if (form == CsvForm::two_feet) return 2;
    return form == CsvForm::whole ? 1 : 0;
}

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

}  // namespace

Result<CsvDocument> CsvDocument::check(std::string_view text, std::string place,
                                       std::optional<DeviceDescription> layout, WorkWatch* watch,
                                       double newtons_per_unit) {
    CsvDocument document(text, std::move(place));
    document.watch_ = watch;
    document.layout_ = layout;
    CsvText lines(text, document.place_);
    if (Outcome done = document.read_header(lines); !done) return done.problem();
    if (loads_of(document.columns_.form) > 0) document.newtons_per_unit_ = newtons_per_unit;
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
    std::vector<LoadSurvey> loads(loads_of(columns_.form));
    LoadSurvey total;
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
        double all_n = 0.0;
        for (std::size_t i = 0; i < loads.size(); ++i) {
            const double load_n = row.values[i] * newtons_per_unit_;
            if (std::abs(load_n) > most_load_n) {
                return rows.text().problem(columns_.names[i],
                                           fmt::format("{:.6g} N is more than any plate bears", load_n),
                                           "see whether this column is in newtons; --scale turns other units "
                                           "into them");
            }
            loads[i].add(load_n);
            all_n += load_n;
        }
        total.add(all_n);
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
    return look_over(loads, total);
}

Outcome CsvDocument::look_over(const std::vector<LoadSurvey>& columns, const LoadSurvey& total) {
    for (std::size_t i = 0; i < columns.size(); ++i) {
        if (!columns[i].hangs()) continue;
        return Problem{ProblemKind::bad_input, place_ + ", column " + columns_.names[i],
                       "the loads are below zero, as if somebody pulled the plate up",
                       "turn them round with --scale -1, or, where the plates were zeroed with somebody on "
                       "them, take the empty plates' load off first"};
    }
    if (columns.empty()) return Done{};  // cells have offsets of their own until they are zeroed
    if (const std::string doubt = total.doubt(); !doubt.empty())
        doubts_.push_back(doubt + "; if the loads are not in newtons, import again with --scale");
    if (time_base_.rate_hz < slowest_hz) {
        doubts_.push_back(
            fmt::format("lines come {:.3g} times a second, too seldom to see a swing; if the "
                        "times are not in seconds, turn them into seconds and import again",
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

}  // namespace footing
