#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/plate_layout.h"
#include "acquisition/frame/result.h"

namespace footing {

inline constexpr double heaviest_mass_kg = 1000.0;
inline constexpr int most_repeats = 20;
inline constexpr double longest_creep_s = 7200.0;
inline constexpr double longest_walk_s = 600.0;

enum class CalibrationMethod {
    cells,         ///< known masses over each cell
    plate_points,  ///< known masses at marked points of each plate
    plate_total,   ///< a known weight somewhere on each plate: one factor a plate
    mat,           ///< walked over, then one known weight in several places: one factor
};

/// A marked point of a plate, from the plate's centre.
struct MarkedPoint {
    std::size_t plate = 0;
    PointM point;
    friend bool operator==(const MarkedPoint&, const MarkedPoint&) = default;
};

struct CalibrationPlanOptions {
    CalibrationMethod method = CalibrationMethod::cells;
    std::vector<double> masses_kg;    ///< on the plate together, growing: 10, 20, 30
    std::vector<MarkedPoint> points;  ///< for plate_points
    int repeats = 1;                  ///< how often each place is loaded and unloaded
    double creep_s = 0.0;             ///< how long the largest mass is left on; 0: no creep
    double walk_s = 20.0;             ///< for a mat
};

/// One thing to do, and the reading that follows it.
struct CalibrationStep {
    enum class Kind {
        empty,  ///< nothing stands there
        load,   ///< mass_kg stands there
        hold,   ///< the mass before stays for hold_s
        walk,   ///< someone walks all over the mat; no reading
    } kind = Kind::empty;
    std::size_t plate = 0;
    std::optional<std::size_t> cell;
    std::optional<PointM> point;
    double mass_kg = 0.0;
    double hold_s = 0.0;
    std::string words;  ///< "Put 20 kg over cell 1 of the left plate."
};

/// Whether there are masses, and they grow, from more than 0 to heaviest_mass_kg; else command_line.
[[nodiscard]] Outcome check_masses(const std::vector<double>& masses_kg);

/// What must be done, in order: each place empty, loaded step by step, unloaded step by step, empty. Fails
/// with command_line: no masses, not growing, no points, a method that the device cannot take part in.
[[nodiscard]] Result<std::vector<CalibrationStep>> plan_calibration(const DeviceDescription& device,
                                                                    const CalibrationPlanOptions& options);

/// Reads a file of marked points: header plate,x_mm,y_mm; the plate by its name, mm from its centre.
[[nodiscard]] Result<std::vector<MarkedPoint>> parse_points(const std::string& text, const std::string& place,
                                                            const PlateLayout& layout);

/// "the left plate", "the plate".
[[nodiscard]] std::string plate_words(const PlateLayout& layout, std::size_t plate);

/// "cell 1 of the left plate": by the number that it has in every drawing, from 1 on each plate.
[[nodiscard]] std::string cell_words(const PlateLayout& layout, std::size_t plate, std::size_t cell);

}  // namespace footing
