#include "acquisition/import/c3d_plate.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "acquisition/frame/plate_layout.h"

namespace footing {

namespace {

constexpr std::size_t corner_count = 4;
constexpr double least_edge_m = 0.1;
constexpr double most_edge_m = 5.0;
constexpr double most_distance_m = 1000.0;
constexpr double most_skew = 0.1;  // cosine of the angle between two edges, and misfit of the fourth corner

Problem bad(const C3dFile& file, std::size_t index, const std::string& what, const std::string& remedy) {
    return {ProblemKind::bad_input, file.place() + ", force plate " + std::to_string(index + 1), what,
            remedy};
}

double element(const std::vector<double>& values, std::size_t index) {
    return index < values.size() ? values[index] : std::nan("");
}

C3dVector vector_at(const std::vector<double>& values, std::size_t index, double unit_m) {
    return unit_m * C3dVector{element(values, index), element(values, index + 1), element(values, index + 2)};
}

bool finite(const C3dVector& a) {
    return std::isfinite(a[0]) && std::isfinite(a[1]) && std::isfinite(a[2]);
}

/// "N.mm", "N*mm", "Nmm" -> "nmm".
std::string letters_only(const std::string& unit) {
    std::string letters;
    for (const char letter : unit) {
        if (letter >= 'a' && letter <= 'z') letters += letter;
        if (letter >= 'A' && letter <= 'Z') letters += static_cast<char>(letter - 'A' + 'a');
    }
    return letters;
}

std::optional<double> known_unit(const std::string& name) {
    static const std::map<std::string, double> units{{"n", 1.0},    {"kn", 1e3},   {"nm", 1.0},
                                                     {"nmm", 1e-3}, {"ncm", 1e-2}, {"knm", 1e3}};
    const auto found = units.find(letters_only(name));
    return found == units.end() ? std::nullopt : std::optional(found->second);
}

std::optional<double> length_unit_m(const C3dFile& file) {
    const std::vector<std::string> units = file.parameters().texts("POINT", "UNITS");
    const std::string unit = units.empty() ? "" : letters_only(units.front());
    if (unit.empty() || unit == "mm") return 1e-3;
    if (unit == "cm") return 1e-2;
    if (unit == "m") return 1.0;
    return std::nullopt;
}

/// Corners -> centre and axes: corner 1 at +x +y, then -x +y, -x -y, +x -y, as C3D orders them.
Outcome place_plate(C3dPlate& plate, const C3dFile& file, std::size_t index, double unit_m) {
    const std::vector<double> all = file.parameters().numbers("FORCE_PLATFORM", "CORNERS");
    std::array<C3dVector, corner_count> corners{};
    for (std::size_t i = 0; i < corner_count; ++i)
        corners[i] = vector_at(all, 3 * (corner_count * index + i), unit_m);
    const Problem absurd = bad(file, index, "its corners do not make a plate",
                               "set FORCE_PLATFORM:CORNERS and export the file again");
    for (const C3dVector& corner : corners) {
        if (!finite(corner) || length(corner) > most_distance_m) return absurd;
    }
    const C3dVector along_x = corners[0] - corners[1];
    const C3dVector along_y = corners[0] - corners[3];
    for (const double edge : {length(along_x), length(along_y)}) {
        if (!(edge >= least_edge_m && edge <= most_edge_m)) return absurd;
    }
    if (std::abs(dot(direction(along_x), direction(along_y))) > most_skew) return absurd;
    const C3dVector misfit = corners[2] - (corners[1] + corners[3] - corners[0]);
    if (length(misfit) > most_skew * std::min(length(along_x), length(along_y))) return absurd;

    plate.centre = 0.25 * (corners[0] + corners[1] + corners[2] + corners[3]);
    plate.x = direction(along_x);
    plate.z = direction(cross(plate.x, along_y));
    plate.y = cross(plate.z, plate.x);
    return Done{};
}

Outcome read_channels(C3dPlate& plate, const C3dFile& file, std::size_t index) {
    const std::size_t count = plate.type == C3dPlate::Type::eight_sensors ? 8 : 6;
    const std::vector<std::size_t> shape = file.parameters().dimensions("FORCE_PLATFORM", "CHANNEL");
    const std::vector<double> all = file.parameters().counts("FORCE_PLATFORM", "CHANNEL");
    const std::size_t stride = shape.empty() ? 0 : shape.front();
    for (std::size_t i = 0; i < count; ++i) {
        const double channel = i < stride ? element(all, stride * index + i) : std::nan("");
        if (!(channel >= 1.0 && channel <= static_cast<double>(file.channel_count()))) {
            return bad(file, index, "its channels are not among the file's analog channels",
                       "set FORCE_PLATFORM:CHANNEL and export the file again");
        }
        plate.channels.push_back(static_cast<std::size_t>(channel) - 1);
    }
    return Done{};
}

Outcome read_origin(C3dPlate& plate, const C3dFile& file, std::size_t index, double unit_m) {
    plate.origin = vector_at(file.parameters().numbers("FORCE_PLATFORM", "ORIGIN"), 3 * index, unit_m);
    if (!finite(plate.origin) || length(plate.origin) > most_edge_m) {
        return bad(file, index, "its ORIGIN is missing or absurd",
                   "set FORCE_PLATFORM:ORIGIN and export the file again");
    }
    if (plate.type == C3dPlate::Type::eight_sensors) {
        if (!(plate.origin[0] > 0.0 && plate.origin[1] > 0.0)) {
            return bad(file, index, "does not say how far apart its sensors are",
                       "set FORCE_PLATFORM:ORIGIN to half their distances and the depth");
        }
        // The sensors lie below the surface; some files give the depth without its sign.
        plate.origin[2] = -std::abs(plate.origin[2]);
    } else if (plate.origin[2] > 0.0) {
        // z points down and the sensors lie below the surface, so this is the vector the other way round.
        plate.origin = -1.0 * plate.origin;
    }
    return Done{};
}

Outcome read_matrix(C3dPlate& plate, const C3dFile& file, std::size_t index) {
    if (plate.type != C3dPlate::Type::calibration_matrix) return Done{};
    const std::vector<std::size_t> shape = file.parameters().dimensions("FORCE_PLATFORM", "CAL_MATRIX");
    const std::vector<double> all = file.parameters().numbers("FORCE_PLATFORM", "CAL_MATRIX");
    bool usable = shape.size() >= 2 && shape[0] == 6 && shape[1] == 6;
    double largest = 0.0;
    for (std::size_t i = 0; i < plate.matrix.size() && usable; ++i) {
        plate.matrix[i] = element(all, plate.matrix.size() * index + i);
        usable = std::isfinite(plate.matrix[i]);
        largest = std::max(largest, std::abs(plate.matrix[i]));
    }
    if (!usable || largest == 0.0) {
        return bad(file, index, "is of type 4 but has no calibration matrix of 6 x 6",
                   "set FORCE_PLATFORM:CAL_MATRIX and export the file again");
    }
    return Done{};
}

void read_units(C3dPlate& plate, const C3dFile& file, double length_m) {
    const std::vector<std::string> units = file.parameters().texts("ANALOG", "UNITS");
    const auto unit_of = [&](std::size_t channel) {
        return channel < units.size() ? known_unit(units[channel]) : std::nullopt;
    };
    plate.force_unit_n = unit_of(plate.channels[2]).value_or(1.0);
    plate.moment_unit_n_m = plate.type == C3dPlate::Type::eight_sensors
                                ? plate.force_unit_n
                                : unit_of(plate.channels[3]).value_or(length_m);
}

Result<C3dPlate> read_plate(const C3dFile& file, std::size_t index) {
    const double type = element(file.parameters().numbers("FORCE_PLATFORM", "TYPE"), index);
    C3dPlate plate;
    if (type == 2.0) {
        plate.type = C3dPlate::Type::six_components;
    } else if (type == 3.0) {
        plate.type = C3dPlate::Type::eight_sensors;
    } else if (type == 4.0) {
        plate.type = C3dPlate::Type::calibration_matrix;
    } else {
        const std::string name = std::isfinite(type)
                                     ? "of type " + std::to_string(static_cast<long long>(type))
                                     : std::string("of no type");
        return bad(file, index, "is " + name + "; only types 2, 3 and 4 can be read",
                   "export the plate as forces and moments (type 2)");
    }
    const auto unit_m = length_unit_m(file);
    if (!unit_m) {
        return bad(file, index, "lengths are in a unit that is not known",
                   "export the file in mm or m (POINT:UNITS)");
    }
    if (Outcome done = place_plate(plate, file, index, *unit_m); !done) return done.problem();
    if (Outcome done = read_channels(plate, file, index); !done) return done.problem();
    if (Outcome done = read_origin(plate, file, index, *unit_m); !done) return done.problem();
    if (Outcome done = read_matrix(plate, file, index); !done) return done.problem();
    read_units(plate, file, *unit_m);
    return plate;
}

}  // namespace

C3dWrench C3dPlate::wrench(std::span<const double> values) const {
    C3dWrench raw;
    if (type == Type::eight_sensors) {
        // Sensors 1 to 4 at (+a +b), (-a +b), (-a -b), (+a -b), az0 from the surface (the usual sums of a
        // plate on four three-component sensors; reference: Duarte & Watanabe, Notes on Scientific
        // Computing for Biomechanics and Motor Control, the notebook on a plate with eight channels).
        const auto [a, b, depth] = origin;
        raw.force_n = {values[0] + values[1], values[2] + values[3],
                       values[4] + values[5] + values[6] + values[7]};
        raw.moment_n_m = {b * (values[4] + values[5] - values[6] - values[7]) + depth * raw.force_n[1],
                          a * (-values[4] + values[5] + values[6] - values[7]) - depth * raw.force_n[0],
                          b * (-values[0] + values[1]) + a * (values[2] - values[3])};
        return {force_unit_n * raw.force_n, moment_unit_n_m * raw.moment_n_m};
    }
    std::array<double, 6> components{};
    if (type == Type::calibration_matrix) {
        for (std::size_t input = 0; input < 6; ++input) {
            for (std::size_t output = 0; output < 6; ++output) {
                components[output] += matrix[6 * input + output] * values[input];
            }
        }
    } else {
        std::copy_n(values.begin(), 6, components.begin());
    }
    raw.force_n = force_unit_n * C3dVector{components[0], components[1], components[2]};
    raw.moment_n_m = moment_unit_n_m * C3dVector{components[3], components[4], components[5]};
    raw.moment_n_m = raw.moment_n_m + cross(raw.force_n, origin);
    return raw;
}

Result<std::vector<C3dPlateEntry>> read_c3d_plates(const C3dFile& file) {
    const double used = file.parameters().count("FORCE_PLATFORM", "USED").value_or(0.0);
    if (!(used >= 1.0)) {
        return Problem{ProblemKind::bad_input, file.place(), "has no force plates in it",
                       "export the force plates too (group FORCE_PLATFORM)"};
    }
    if (used > static_cast<double>(most_plates)) {
        return Problem{ProblemKind::bad_input, file.place(), "says that it has more than 16 force plates",
                       "the file is damaged; export it again"};
    }
    std::vector<C3dPlateEntry> entries;
    for (std::size_t i = 0; i < static_cast<std::size_t>(used); ++i) {
        auto plate = read_plate(file, i);
        if (plate) {
            entries.push_back({std::move(plate).value(), std::nullopt});
        } else {
            entries.push_back({std::nullopt, plate.problem()});
        }
    }
    return entries;
}

}  // namespace footing
