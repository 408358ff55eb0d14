#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <optional>
#include <utility>

#include "viewer/calibration/calibration_work.h"
#include "viewer/calibration/make_calibration.h"

namespace footing {

Result<MadeCalibration> make_mat_calibration(const DeviceDescription& device,
                                             const std::vector<CalibrationReading>& readings,
                                             const MatFindings& findings, const Weighing& weighing,
                                             const std::string& made, int valid_months) {
    CalibrationWork work = start_calibration(device, readings, weighing);
    if (const Outcome sound = check_readings(work); !sound) return sound.problem();
    work.record.method = "a known weight on the mat";
    const CalibrationReading* empty = nullptr;
    std::map<double, std::vector<double>> totals;  // by mass, less the empty reading before
    for (const CalibrationReading& reading : readings) {
        if (reading.mass_kg == 0.0) {
            empty = &reading;
            continue;
        }
        if (empty == nullptr)
            return bad_readings("a load was read before the empty mat", "read the mat empty first");
        double total = 0.0;
        for (std::size_t i = 0; i < work.values; ++i) total += reading.counts[i] - empty->counts[i];
        totals[work.force_n(reading)].push_back(total);
    }
    if (totals.size() != 1 || empty == nullptr)
        return bad_readings("a mat wants one known weight in several places",
                            "use one weight, or one person");
    const std::optional<MatFactor> factor = mat_factor(totals.begin()->first, totals.begin()->second);
    if (!factor)
        return bad_readings("the mat does not answer to the load",
                            "see that it is plugged in and step on its middle");
    work.record.newtons_per_count.assign(work.values, factor->newtons_per_count);
    work.record.zero_counts = empty->counts;
    work.own_relative_u = std::min(factor->relative_u, 0.99);
    work.record.elements = ElementFindings{findings.dead, findings.clipped, findings.weak, findings.unchecked,
                                           findings.response};
    CalibrationErrors errors;
    errors.where = "mat";
    errors.full_load_n = totals.begin()->first;
    errors.degrees_of_freedom = static_cast<int>(factor->by_place.size()) - 1;
    const auto [lowest, highest] = std::minmax_element(factor->by_place.begin(), factor->by_place.end());
    errors.repeatability_n = (*highest - *lowest) / factor->newtons_per_count * errors.full_load_n;
    errors.residual_sd_n = factor->relative_u * errors.full_load_n;
    work.record.errors.push_back(errors);
    finish_calibration(work, made, valid_months);
    work.remarks.push_back(fmt::format(
        "{} dead, {} weak and {} clipped elements of {}; {} were not walked on and stay unjudged.",
        findings.dead.size(), findings.weak.size(), findings.clipped.size(), work.values,
        findings.unchecked.size()));
    if (!findings.clipped.empty()) {
        work.remarks.emplace_back(
            "Clipped elements read less than is there: loads come out low, and the centre of pressure is "
            "drawn away from "
            "them. Use a softer shoe, a foam sheet or a wider range of the device.");
    }
    return MadeCalibration{std::move(work.record), std::move(work.remarks)};
}

}  // namespace footing
