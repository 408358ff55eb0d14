#include "viewer/calibration/readings_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "viewer/calibration/table_text.h"

namespace footing {

namespace {

constexpr double seconds_between_readings = 60.0;

/// Text of a cell in this row; empty when there is no such column.
std::string text_in(const TableText& table, const TableRow& row, const std::string& column) {
    return table.has(column) ? row.cells[table.column(column)] : std::string();
}

Result<CalibrationReading> reading_of(const TableText& table, const TableRow& row,
                                      const DeviceDescription& device) {
    CalibrationReading reading;
    const Result<double> mass = number_of(row.cells[table.column("mass_kg")], row.place);
    if (!mass) return mass.problem();
    if (mass.value() < 0.0)
        return table_problem(row.place, "the mass is below 0", "give what stood on the plate in kilograms");
    reading.mass_kg = mass.value();
    const Result<std::size_t> plate = plate_called(text_in(table, row, "plate"), device.layout, row.place);
    if (!plate) return plate.problem();
    reading.plate = plate.value();
    const std::string cell = text_in(table, row, "cell");
    if (!cell.empty()) {
        const Result<double> number = number_of(cell, row.place);
        if (!number) return number.problem();
        const std::size_t cells = device.layout.plates[reading.plate].cells.size();
        if (number.value() < 1.0 || number.value() > static_cast<double>(cells) ||
            std::floor(number.value()) != number.value())
            return table_problem(row.place, fmt::format("the plate has no cell {}", cell),
                                 fmt::format("give 1 to {}", cells));
        reading.cell = static_cast<std::size_t>(number.value()) - 1;
    }
    const std::string x = text_in(table, row, "x_mm");
    const std::string y = text_in(table, row, "y_mm");
    if (x.empty() != y.empty()) return table_problem(row.place, "x_mm without y_mm", "give both or none");
    if (!x.empty()) {
        const Result<double> x_mm = number_of(x, row.place);
        if (!x_mm) return x_mm.problem();
        const Result<double> y_mm = number_of(y, row.place);
        if (!y_mm) return y_mm.problem();
        reading.point = PointM{x_mm.value() * metres_per_mm, y_mm.value() * metres_per_mm};
    }
    const std::size_t values = values_per_frame(device.layout);
    for (std::size_t i = 0; i < values; ++i) {
        const Result<double> counts =
            number_of(text_in(table, row, fmt::format("count_{}", i + 1)), row.place);
        if (!counts) return counts.problem();
        reading.counts.push_back(counts.value());
    }
    return reading;
}

}  // namespace

std::string readings_header(const DeviceDescription& device) {
    std::string line = "step,mass_kg,plate,cell,x_mm,y_mm,time_s";
    for (std::size_t i = 0; i < values_per_frame(device.layout); ++i) line += fmt::format(",count_{}", i + 1);
    return line + "\n";
}

std::string readings_line(const CalibrationReading& reading, const DeviceDescription& device) {
    std::string plate;
    if (reading.plate < device.layout.plates.size()) {
        const std::string& name = device.layout.plates[reading.plate].name;
        const bool plain = !name.empty() && name.find_first_of(",\"\r\n#") == std::string::npos;
        plate = plain ? name : std::to_string(reading.plate + 1);
    }
    std::string line = fmt::format("{},{},{},", reading.step, reading.mass_kg, plate);
    line += reading.cell ? fmt::format("{},", *reading.cell + 1) : std::string(",");
    line += reading.point
                ? fmt::format("{},{},", reading.point->x_m * mm_per_metre, reading.point->y_m * mm_per_metre)
                : std::string(",,");
    line += fmt::format("{:.3f}", reading.time_s);
    for (const double counts : reading.counts) line += fmt::format(",{}", counts);
    return line + "\n";
}

Result<std::vector<CalibrationReading>> parse_readings(const std::string& text, const std::string& place,
                                                       const DeviceDescription& device) {
    if (device.layout.kind != FrameKind::cells) {
        return table_problem(place, "readings from a file serve plates with cells only",
                             "calibrate a mat live, with --udp or --serial");
    }
    std::vector<std::string> needed{"mass_kg"};
    for (std::size_t i = 0; i < values_per_frame(device.layout); ++i)
        needed.push_back(fmt::format("count_{}", i + 1));
    if (device.layout.plates.size() > 1) needed.emplace_back("plate");
    const Result<TableText> parsed = parse_table(text, place, needed);
    if (!parsed) return parsed.problem();
    const TableText& table = parsed.value();
    std::vector<CalibrationReading> readings;
    for (const TableRow& row : table.rows) {
        Result<CalibrationReading> reading = reading_of(table, row, device);
        if (!reading) return reading.problem();
        reading.value().step = static_cast<int>(readings.size()) + 1;
        reading.value().time_s = static_cast<double>(readings.size()) * seconds_between_readings;
        if (const std::string time = text_in(table, row, "time_s"); !time.empty()) {
            const Result<double> time_s = number_of(time, row.place);
            if (!time_s) return time_s.problem();
            reading.value().time_s = time_s.value();
        }
        readings.push_back(std::move(reading).value());
    }
    return readings;
}

}  // namespace footing
