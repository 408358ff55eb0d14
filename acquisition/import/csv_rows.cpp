#include "acquisition/import/csv_rows.h"

#include <fmt/format.h>

#include <cmath>
#include <limits>

#include "acquisition/frame/frame.h"

namespace footing {

namespace {

// What no table of loads exceeds, with room to spare: time in s, loads in N, raw counts, places in mm.
constexpr double largest_time_s = 1e9;
constexpr double largest_value = 1e10;
constexpr double largest_place_mm = 1e5;

bool is_cop(std::string_view name) {
    return name.find("cop_") != std::string_view::npos;
}

}  // namespace

Result<double> CsvRows::number(std::size_t field, std::string_view name) const {
    const auto number = parse_csv_number(text_.fields()[field]);
    if (!number) return text_.problem(name, number.problem().what, number.problem().remedy);
    const double most = is_cop(name) ? largest_place_mm : (name == "time_s" ? largest_time_s : largest_value);
    if (std::abs(number.value()) > most) {
        return text_.problem(name, fmt::format("{} is beyond anything a plate can say", number.value()),
                             "check the units of this column");
    }
    return number;
}

bool CsvRows::still_wanted() {
    constexpr std::uint64_t lines_between = 1024;
    if (!watch_ || lines_++ % lines_between != 0) return true;
    return watch_->go_on(0.5 * text_.part() + (reading_ == Reading::second ? 0.5 : 0.0));
}

Result<CsvText::Next> CsvRows::next(CsvRow& row) {
    if (!still_wanted()) return given_up(place_);
    const auto next = text_.next();
    if (!next || next.value() == CsvText::Next::end) return next;
    if (text_.fields().size() != columns_.fields_in_header) {
        return text_.problem("",
                             fmt::format("there are {} values under {} columns", text_.fields().size(),
                                         columns_.fields_in_header),
                             "every line must have as many as the first");
    }
    if (columns_.time) {
        const auto time = number(*columns_.time, "time_s");
        if (!time) return time.problem();
        row.time_s = time.value();
    }
    row.inputs = 0;
    if (columns_.trigger) {
        const auto trigger = number(*columns_.trigger, "trigger");
        if (!trigger) return trigger.problem();
        if (trigger.value() != 0.0 && trigger.value() != 1.0) {
            return text_.problem("trigger", fmt::format("{} is neither 0 nor 1", trigger.value()),
                                 "1 while the trigger is set, else 0");
        }
        row.inputs = trigger.value() == 1.0 ? trigger_bit : std::uint16_t{0};
    }
    row.values.resize(columns_.values.size());
    for (std::size_t i = 0; i < columns_.values.size(); ++i) {
        if (is_cop(columns_.names[i]) && text_.fields()[columns_.values[i]].empty()) {
            row.values[i] = std::numeric_limits<double>::quiet_NaN();
            continue;
        }
        const auto value = number(columns_.values[i], columns_.names[i]);
        if (!value) return value.problem();
        row.values[i] = value.value();
    }
    if (Outcome paired = check_cop_pairs(row); !paired) return paired.problem();
    return next;
}

Outcome CsvRows::check_cop_pairs(const CsvRow& row) const {
    for (std::size_t i = 0; i + 1 < row.values.size(); ++i) {
        if (!is_cop(columns_.names[i]) || !columns_.names[i].ends_with("x_mm")) continue;
        const bool x_empty = std::isnan(row.values[i]);
        if (x_empty != std::isnan(row.values[i + 1])) {
            return text_.problem(columns_.names[x_empty ? i : i + 1],
                                 "there is no number, though its partner has one",
                                 "fill both fields of a centre of pressure, or leave both empty");
        }
    }
    return Done{};
}

}  // namespace footing
