#include "viewer/command_line/weights_table.h"

#include <fmt/format.h>

#include "acquisition/frame/units.h"
#include "viewer/calibration/table_text.h"

namespace footing {

namespace {

constexpr double longest_s = 86400.0;
constexpr double heaviest_kg = 1000.0;
constexpr double furthest_mm = 1000.0;

/// Reads a row's numbers and keeps the first thing that was wrong.
class RowReader {
  public:
    RowReader(const TableText& table, const TableRow& row) : table_(table), row_(row) {}

    double number(const std::string& column, double least, double most) {
        const Result<double> value = number_of(row_.cells[table_.column(column)], row_.place);
        if (!value) return refuse(value.problem());
        if (value.value() < least || value.value() > most) {
            return refuse({ProblemKind::bad_input, row_.place,
                           fmt::format("\"{}\" is not from {:g} to {:g}", column, least, most), ""});
        }
        return value.value();
    }
    double number_if_there(const std::string& column, double least, double most) {
        return table_.has(column) ? number(column, least, most) : 0.0;
    }
    std::size_t plate() {
        const std::string& name = row_.cells[table_.column("plate")];
        if (name == "left" || name == "right") return name == "left" ? 0 : 1;
        refuse(
            {ProblemKind::bad_input, row_.place, quoted_word(name) + " is no plate", "write left or right"});
        return 0;
    }
    double refuse(Problem problem) {
        if (outcome_.ok()) outcome_ = std::move(problem);
        return 0.0;
    }
    [[nodiscard]] const Outcome& outcome() const { return outcome_; }

  private:
    const TableText& table_;
    const TableRow& row_;
    Outcome outcome_ = Done{};
};

}  // namespace

Result<std::vector<PlacedWeight>> parse_weights(const std::string& text, const std::string& place) {
    const Result<TableText> table = parse_table(text, place, {"from_s", "to_s", "plate", "kg"});
    if (!table) return table.problem();
    std::vector<PlacedWeight> weights;
    for (const TableRow& row : table.value().rows) {
        RowReader reader(table.value(), row);
        PlacedWeight weight;
        weight.from_s = reader.number("from_s", 0.0, longest_s);
        weight.to_s = reader.number("to_s", weight.from_s, longest_s);
        weight.plate = reader.plate();
        weight.mass_kg = reader.number("kg", 0.001, heaviest_kg);
        weight.at.x_m = reader.number_if_there("x_mm", -furthest_mm, furthest_mm) * metres_per_mm;
        weight.at.y_m = reader.number_if_there("y_mm", -furthest_mm, furthest_mm) * metres_per_mm;
        if (!reader.outcome().ok()) return reader.outcome().problem();
        weights.push_back(weight);
    }
    return weights;
}

}  // namespace footing
