#include "viewer/book/shot_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>

#include "acquisition/import/csv_text.h"
#include "analysis/distance/carry.h"
#include "viewer/book/book_records.h"

namespace footing {

namespace {

constexpr int oldest_year = 1900;

char separator_of(std::string_view text) {
    const std::string_view header = text.substr(0, text.find('\n'));
    for (const char separator : {'\t', ';'}) {
        if (header.find(separator) != std::string_view::npos) return separator;
    }
    return ',';
}

std::string joined(const std::vector<std::string_view>& fields, char with) {
    std::string all;
    for (const std::string_view& field : fields) {
        if (&field != &fields.front()) all += with;
        all += field;
    }
    return all;
}

double metres_in(const std::string& unit) {
    return unit == "m" ? 1.0 : unit == "ft" ? metres_per_yard / 3.0 : metres_per_yard;
}

std::optional<double> number_in(std::string_view field, char separator) {
    std::string digits(field);
    if (separator != ',') std::replace(digits.begin(), digits.end(), ',', '.');
    const auto number = parse_csv_number(digits);
    return number ? std::optional(number.value()) : std::nullopt;
}

/// "3.2", "-3.2", "3.2 L", "3.2R".
std::optional<double> side_in(std::string_view field, char separator) {
    double sign = 1.0;
    if (!field.empty() && (field.back() == 'L' || field.back() == 'R')) {
        sign = field.back() == 'L' ? -1.0 : 1.0;
        field.remove_suffix(1);
        while (!field.empty() && field.back() == ' ') field.remove_suffix(1);
    }
    const auto number = number_in(field, separator);
    return number ? std::optional(sign * *number) : std::nullopt;
}

/// Takes a whole number off the front; false when there is none.
bool take_number(std::string_view& text, int& number) {
    const auto [stopped, failure] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (failure != std::errc() || number < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(stopped - text.data()));
    return true;
}

bool take_day(std::string_view& text, const std::string& order, ShotRow& row) {
    std::array<int, 3> parts{};
    for (std::size_t i = 0; i < parts.size(); ++i) {
        if (i > 0) {
            if (text.empty() || std::string_view("-./").find(text.front()) == std::string_view::npos)
                return false;
            text.remove_prefix(1);
        }
        if (!take_number(text, parts[i])) return false;
    }
    const auto [year, month, day] = order == "dmy"   ? std::array{parts[2], parts[1], parts[0]}
                                    : order == "mdy" ? std::array{parts[2], parts[0], parts[1]}
                                                     : parts;
    // "5/14/26": which century is not for us to guess.
    if (year < oldest_year) return false;
    row.day = day_of_date(fmt::format("{:04}-{:02}-{:02}", year, month, day));
    return row.day.has_value();
}

bool take_time(std::string_view text, ShotRow& row) {
    int hour = 0;
    int minute = 0;
    int second = 0;
    if (!take_number(text, hour) || text.empty() || text.front() != ':') return false;
    text.remove_prefix(1);
    if (!take_number(text, minute)) return false;
    if (!text.empty() && text.front() == ':') {
        text.remove_prefix(1);
        if (!take_number(text, second)) return false;
        if (!text.empty() && text.front() == '.') {
            text.remove_prefix(1);
            int fraction = 0;
            if (!take_number(text, fraction)) return false;
        }
    }
    while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
    if (text == "PM" || text == "pm" || text == "AM" || text == "am") {
        if (hour < 1 || hour > 12) return false;
        hour = hour % 12 + (text == "PM" || text == "pm" ? 12 : 0);
        text = {};
    }
    if (!text.empty() || hour > 23 || minute > 59 || second > 60) return false;
    row.second_of_day = 3600.0 * hour + 60.0 * minute + second;
    return true;
}

/// "2026-05-14", "05/14/2026 10:20 AM", "14.05.2026T10:20:44".
bool read_date(std::string_view text, const std::string& order, ShotRow& row) {
    if (!take_day(text, order, row)) return false;
    if (text.empty()) return true;
    if (text.front() != ' ' && text.front() != 'T') return false;
    while (!text.empty() && (text.front() == ' ' || text.front() == 'T')) text.remove_prefix(1);
    return take_time(text, row);
}

struct Columns {
    std::optional<std::size_t> carry;
    std::optional<std::size_t> club;
    std::optional<std::size_t> date;
    std::optional<std::size_t> side;
};

Result<Columns> find_columns(const CsvText& lines, const ShotTableShape& shape) {
    Columns columns;
    const std::vector<std::string_view>& names = lines.fields();
    const auto find = [&](const std::string& name, std::optional<std::size_t>& place) -> Outcome {
        if (name.empty()) return Done{};
        const auto at = std::find(names.begin(), names.end(), name);
        if (at == names.end()) {
            return lines.problem("", "there is no column \"" + name + "\"",
                                 "the columns are: " + joined(names, ','));
        }
        if (std::find(at + 1, names.end(), name) != names.end()) {
            return lines.problem("", "there are several columns \"" + name + "\"",
                                 "give them different names in the first line");
        }
        place = static_cast<std::size_t>(at - names.begin());
        return Done{};
    };
    for (const auto& [name, place] :
         {std::pair(&shape.carry_column, &columns.carry), std::pair(&shape.club_column, &columns.club),
          std::pair(&shape.date_column, &columns.date), std::pair(&shape.side_column, &columns.side)}) {
        if (Outcome done = find(*name, *place); !done) return done.problem();
    }
    return columns;
}

}  // namespace

Result<std::string> shot_table_header(std::string_view text, const std::string& place) {
    CsvText lines(text, place, separator_of(text));
    const auto next = lines.next();
    if (!next) return next.problem();
    if (next.value() == CsvText::Next::end) {
        return Problem{ProblemKind::bad_input, place, "the table is empty", "export it again"};
    }
    return joined(lines.fields(), ',');
}

Result<ShotTable> read_shot_table(std::string_view text, const std::string& place,
                                  const ShotTableShape& shape, FarCarry far) {
    const char separator = separator_of(text);
    CsvText lines(text, place, separator);
    if (const auto header = lines.next(); !header) return header.problem();
    const auto columns = find_columns(lines, shape);
    if (!columns) return columns.problem();
    const std::size_t width = lines.fields().size();
    ShotTable table;
    std::map<std::string, std::int64_t> copies;
    while (true) {
        const auto next = lines.next();
        if (!next) return next.problem();
        if (next.value() == CsvText::Next::end) return table;
        const std::vector<std::string_view>& fields = lines.fields();
        const auto field = [&](const std::optional<std::size_t>& column) {
            return column && *column < fields.size() ? fields[*column] : std::string_view();
        };
        const auto not_read = [&](const std::string& why) {
            table.not_read.push_back(fmt::format("line {}: {}", lines.line(), why));
        };
        if (table.rows.size() + table.not_read.size() == most_shot_rows) {
            return lines.problem("", fmt::format("the table has more than {} lines", most_shot_rows),
                                 "split it into several, each with the first line above it");
        }
        if (std::any_of(fields.begin() + static_cast<std::ptrdiff_t>(std::min(width, fields.size())),
                        fields.end(), [](const std::string_view& extra) { return !extra.empty(); })) {
            not_read(fmt::format("has {} fields, and the first line has {}", fields.size(), width));
            continue;
        }
        ShotRow row;
        row.line = lines.line();
        row.row = joined(fields, '\x1f');
        const auto carry = number_in(field(columns.value().carry), separator);
        if (!carry || *carry <= 0.0 || *carry * metres_in(shape.carry_unit) > longest_carry_m) {
            not_read(fmt::format("\"{}\" is no carry: a number above 0, up to {:.0f}, without a unit is",
                                 field(columns.value().carry),
                                 longest_carry_m / metres_in(shape.carry_unit)));
            continue;
        }
        row.carry_m = *carry * metres_in(shape.carry_unit);
        if (far == FarCarry::asked_about && row.carry_m > wedge_reach_m) {
            const DistanceUnit unit = shape.carry_unit == "m" ? DistanceUnit::metres : DistanceUnit::yards;
            not_read(beyond_reach_words(row.carry_m, unit) + ": the unit, another club, or --far takes it");
            continue;
        }
        if (const std::string_view side = field(columns.value().side); !side.empty()) {
            const auto metres = side_in(side, separator);
            if (!metres || std::abs(*metres * metres_in(shape.side_unit)) > longest_carry_m) {
                not_read(fmt::format("\"{}\" is no distance to a side", side));
                continue;
            }
            row.side_m = *metres * metres_in(shape.side_unit);
        }
        if (columns.value().date && !read_date(field(columns.value().date), shape.date_order, row)) {
            not_read(
                fmt::format("\"{}\" is no date with four digits for the year (read as {}; --dates says "
                            "otherwise), with or without a local time",
                            field(columns.value().date), shape.date_order));
            continue;
        }
        row.club = field(columns.value().club);
        row.copy = copies[row.row]++;
        table.rows.push_back(std::move(row));
    }
}

}  // namespace footing
