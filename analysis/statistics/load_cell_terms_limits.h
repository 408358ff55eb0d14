#pragma once

#include <optional>

namespace footing {

/// Limits of legal metrology, as yardsticks to judge plates by. A verdict against them is no verification.

enum class AccuracyClass { one, two, three, four };  ///< I, II, III, IIII

/// Maximum permissible error at initial verification of a weighing instrument, in scale intervals e, for a
/// load of `load_e` intervals (OIML R 76-1:2006, table 6). In service it is twice that. Nothing above the
/// table's end.
[[nodiscard]] std::optional<double> weighing_mpe_e(AccuracyClass accuracy, double load_e);

/// The same in the unit of the load: load and scale interval in one unit (kg, N).
[[nodiscard]] std::optional<double> weighing_mpe(AccuracyClass accuracy, double load, double scale_interval);

/// Share of a weighing instrument's error that a load cell may take when nothing else is stated.
inline constexpr double load_cell_share = 0.7;

/// Maximum permissible error of a load cell of class C in its intervals v, under a load of `load_v` intervals
/// (OIML R 60-1:2021, 5.3.2). Nothing above 10,000 v.
[[nodiscard]] std::optional<double> load_cell_mpe_v(double load_v, double share = load_cell_share);

/// Largest creep in 30 min under that load, in v (R 60-1, 5.5.1): 0.7 of the error allowed, and 0.15 of it
/// between 20 and 30 min.
[[nodiscard]] std::optional<double> creep_limit_v(double load_v);
[[nodiscard]] std::optional<double> late_creep_limit_v(double load_v);

/// Largest difference of the reading at minimum load before and after the 30 min load, in v.
inline constexpr double dead_load_return_limit_v = 0.5;

}  // namespace footing
