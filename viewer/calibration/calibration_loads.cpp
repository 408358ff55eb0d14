#include "viewer/calibration/calibration_loads.h"

#include <cmath>
#include <utility>

#include "analysis/statistics/straight_line.h"

namespace footing {

namespace {

/// Numbers the runs: a new one begins where the load stands elsewhere, or where an empty plate is read again.
class RunCounter {
  public:
    std::size_t run_of(const CalibrationReading& reading) {
        if (before_ != nullptr) {
            const bool moved = reading.cell != before_->cell || reading.point != before_->point;
            const bool anew = before_->mass_kg == 0.0 && reading.mass_kg == 0.0;
            if (moved || anew) ++run_;
        }
        before_ = &reading;
        return run_;
    }

  private:
    const CalibrationReading* before_ = nullptr;
    std::size_t run_ = 0;
};

}  // namespace

std::vector<LoadReading> loads_on(const CalibrationWork& work, std::size_t plate,
                                  std::optional<std::size_t> cell, const std::vector<double>& weights) {
    std::vector<LoadReading> loads;
    RunCounter runs;
    for (const CalibrationReading& reading : work.readings) {
        if (reading.plate != plate || (cell && reading.cell != cell)) continue;
        double sum = 0.0;
        for (std::size_t i = 0; i < weights.size(); ++i)
            sum += weights[i] * reading.counts[work.first_value[plate] + i];
        loads.push_back(
            {work.force_n(reading), sum, reading.time_s, LoadDirection::growing, runs.run_of(reading)});
    }
    tell_directions(loads);
    return loads;
}

std::vector<LoadReading> cell_loads(const CalibrationWork& work, std::size_t plate, std::size_t cell,
                                    std::size_t answering) {
    std::vector<double> weights(work.cells_of(plate).size(), 0.0);
    weights[answering] = 1.0;
    return loads_on(work, plate, cell, weights);
}

double carried_elsewhere(const CalibrationWork& work, std::size_t plate, std::size_t cell) {
    double own = 0.0;
    double others = 0.0;
    for (std::size_t other = 0; other < work.cells_of(plate).size(); ++other) {
        std::vector<double> force_n;
        std::vector<double> counts;
        for (const LoadReading& load : cell_loads(work, plate, cell, other)) {
            force_n.push_back(load.force_n);
            counts.push_back(load.counts);
        }
        const Result<StraightLine> line = fit_straight_line(force_n, counts);
        if (!line) return 0.0;
        (other == cell ? own : others) += std::abs(line.value().slope);
    }
    return own + others > 0.0 ? others / (own + others) : 0.0;
}

std::vector<PlateReading> plate_readings(const CalibrationWork& work, std::size_t plate) {
    const std::vector<PointM>& cells = work.cells_of(plate);
    const std::vector<LoadReading> loads =
        loads_on(work, plate, std::nullopt, std::vector<double>(cells.size(), 0.0));
    std::vector<PlateReading> taken;
    auto load = loads.begin();
    for (const CalibrationReading& reading : work.readings) {
        if (reading.plate != plate) continue;
        const LoadReading& told = *load++;
        if (told.direction == LoadDirection::held) continue;
        const auto first = reading.counts.begin() + static_cast<std::ptrdiff_t>(work.first_value[plate]);
        PlateReading kept;
        kept.force_n = told.force_n;
        kept.point = reading.cell ? cells[*reading.cell] : reading.point.value_or(PointM{});
        kept.run = told.run;
        kept.counts.assign(first, first + static_cast<std::ptrdiff_t>(cells.size()));
        taken.push_back(std::move(kept));
    }
    return taken;
}

}  // namespace footing
