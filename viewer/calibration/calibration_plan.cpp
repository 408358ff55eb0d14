#include "viewer/calibration/calibration_plan.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "viewer/calibration/table_text.h"

namespace footing {

namespace {

Problem wrong(std::string what, std::string remedy) {
    return {ProblemKind::command_line, "", std::move(what), std::move(remedy)};
}

struct Place {
    std::size_t plate = 0;
    std::optional<std::size_t> cell;
    std::optional<PointM> point;
    std::string words;  ///< "over cell 1 of the left plate"
};

std::vector<Place> places_of(const PlateLayout& layout, const CalibrationPlanOptions& options) {
    std::vector<Place> places;
    for (std::size_t plate = 0; plate < layout.plates.size(); ++plate) {
        const std::string name = plate_words(layout, plate);
        if (options.method == CalibrationMethod::plate_total) places.push_back({plate, {}, {}, "on " + name});
        if (options.method == CalibrationMethod::cells) {
            for (std::size_t cell = 0; cell < layout.plates[plate].cells.size(); ++cell)
                places.push_back({plate, cell, {}, "over " + cell_words(layout, plate, cell)});
        }
    }
    if (options.method == CalibrationMethod::plate_points) {
        for (const MarkedPoint& marked : options.points) {
            places.push_back(
                {marked.plate,
                 {},
                 marked.point,
                 fmt::format("at the point x {:.0f} mm, y {:.0f} mm of {}", marked.point.x_m * mm_per_metre,
                             marked.point.y_m * mm_per_metre, plate_words(layout, marked.plate))});
        }
    }
    return places;
}

CalibrationStep step_at(const Place& place, CalibrationStep::Kind kind, double mass_kg, std::string words) {
    CalibrationStep step;
    step.kind = kind;
    step.plate = place.plate;
    step.cell = place.cell;
    step.point = place.point;
    step.mass_kg = mass_kg;
    step.words = std::move(words);
    return step;
}

void add_run(std::vector<CalibrationStep>& steps, const Place& place, const CalibrationPlanOptions& options,
             double creep_s) {
    using Kind = CalibrationStep::Kind;
    steps.push_back(step_at(place, Kind::empty, 0.0, "Leave the plates empty."));
    const auto& masses = options.masses_kg;
    for (const double mass : masses)
        steps.push_back(step_at(place, Kind::load, mass, fmt::format("Put {:g} kg {}.", mass, place.words)));
    if (creep_s > 0.0) {
        CalibrationStep hold = step_at(
            place, Kind::hold, masses.back(),
            fmt::format("Leave it there for {:g} min and keep away from the plates.", creep_s / 60.0));
        hold.hold_s = creep_s;
        steps.push_back(std::move(hold));
    }
    for (std::size_t i = masses.size(); i-- > 1;) {
        steps.push_back(
            step_at(place, Kind::load, masses[i - 1],
                    fmt::format("Take off until {:g} kg are left {}.", masses[i - 1], place.words)));
    }
    steps.push_back(step_at(place, Kind::empty, 0.0, "Take everything off the plates."));
}

std::vector<CalibrationStep> mat_steps(const CalibrationPlanOptions& options) {
    using Kind = CalibrationStep::Kind;
    const double mass = options.masses_kg.back();
    const auto stand = [&](const char* where) {
        return step_at({}, Kind::load, mass, fmt::format("Let {:g} kg stand still {}.", mass, where));
    };
    std::vector<CalibrationStep> steps;
    steps.push_back(step_at({}, Kind::empty, 0.0, "Leave the mat empty."));
    CalibrationStep walk =
        step_at({}, Kind::walk, 0.0,
                fmt::format("Walk slowly over the whole mat for {:g} s, so that every part is stepped on.",
                            options.walk_s));
    walk.hold_s = options.walk_s;
    steps.push_back(std::move(walk));
    for (const char* where : {"in the middle of the mat", "on its left part", "on its right part"}) {
        steps.push_back(step_at({}, Kind::empty, 0.0, "Step off the mat."));
        steps.push_back(stand(where));
    }
    steps.push_back(step_at({}, Kind::empty, 0.0, "Step off the mat."));
    return steps;
}

Outcome check_options(const DeviceDescription& device, const CalibrationPlanOptions& options) {
    if (device.layout.kind == FrameKind::components)
        return wrong("this device sends newtons, not counts: there is nothing to calibrate here",
                     "calibrate it with its own program, and check it with footing check");
    const bool is_mat = device.layout.kind == FrameKind::grid;
    if (is_mat != (options.method == CalibrationMethod::mat))
        return wrong(is_mat ? "this device is a mat" : "this device is no mat",
                     is_mat ? "give --mat" : "give --cells or --plate");
    if (const Outcome sound = check_masses(options.masses_kg); !sound) return sound;
    if (options.method == CalibrationMethod::plate_points && options.points.empty())
        return wrong("no points were given", "give --points FILE");
    if (options.repeats < 1 || options.repeats > most_repeats)
        return wrong(fmt::format("{} repeats are not from 1 to {}", options.repeats, most_repeats),
                     "give --repeats 2, or leave it out");
    if (!(options.creep_s >= 0.0 && options.creep_s <= longest_creep_s))
        return wrong(fmt::format("the creep time is not from 0 to {:g} min", longest_creep_s / 60.0),
                     "give --creep 10, or leave it out");
    if (!(options.walk_s > 0.0 && options.walk_s <= longest_walk_s))
        return wrong(fmt::format("the time to walk is not up to {:g} s", longest_walk_s),
                     "give --walk 20, or leave it out");
    return Done{};
}

}  // namespace

Outcome check_masses(const std::vector<double>& masses_kg) {
    if (masses_kg.empty()) return wrong("no masses were given", "give --masses 10,20,30 (kilograms)");
    double before = 0.0;
    for (const double mass : masses_kg) {
        if (!(mass > before && mass <= heaviest_mass_kg))
            return wrong(
                fmt::format("the masses must grow, from more than 0 to at most {:g} kg", heaviest_mass_kg),
                "give what stands on the plate in each step, as in --masses 10,20,30");
        before = mass;
    }
    return Done{};
}

std::string cell_words(const PlateLayout& layout, std::size_t plate, std::size_t cell) {
    return fmt::format("cell {} of {}", cell + 1, plate_words(layout, plate));
}

std::string plate_words(const PlateLayout& layout, std::size_t plate) {
    if (layout.plates.size() < 2) return "the plate";
    const std::string& name = layout.plates.at(plate).name;
    return name.empty() ? fmt::format("plate {}", plate + 1) : "the " + name + " plate";
}

Result<std::vector<CalibrationStep>> plan_calibration(const DeviceDescription& device,
                                                      const CalibrationPlanOptions& options) {
    if (const Outcome sound = check_options(device, options); !sound) return sound.problem();
    if (options.method == CalibrationMethod::mat) return mat_steps(options);
    std::vector<CalibrationStep> steps;
    for (const Place& place : places_of(device.layout, options)) {
        for (int repeat = 0; repeat < options.repeats; ++repeat)
            add_run(steps, place, options, repeat == 0 ? options.creep_s : 0.0);
    }
    return steps;
}

Result<std::vector<MarkedPoint>> parse_points(const std::string& text, const std::string& place,
                                              const PlateLayout& layout) {
    const Result<TableText> table = parse_table(text, place, {"plate", "x_mm", "y_mm"});
    if (!table) return table.problem();
    std::vector<MarkedPoint> points;
    for (const TableRow& row : table.value().rows) {
        const Result<std::size_t> plate =
            plate_called(row.cells[table.value().column("plate")], layout, row.place);
        if (!plate) return plate.problem();
        const Result<double> x_mm = number_of(row.cells[table.value().column("x_mm")], row.place);
        if (!x_mm) return x_mm.problem();
        const Result<double> y_mm = number_of(row.cells[table.value().column("y_mm")], row.place);
        if (!y_mm) return y_mm.problem();
        points.push_back({plate.value(), {x_mm.value() * metres_per_mm, y_mm.value() * metres_per_mm}});
    }
    // Plate by plate, so that nobody carries masses to and fro.
    std::stable_sort(points.begin(), points.end(),
                     [](const MarkedPoint& a, const MarkedPoint& b) { return a.plate < b.plate; });
    return points;
}

}  // namespace footing
