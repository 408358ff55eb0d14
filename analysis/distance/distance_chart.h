#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analysis/distance/distance_cell.h"

namespace footing {

enum class Bag { in, out };

struct ChartWedge {
    std::string name;
    std::optional<double> loft_deg;
    Bag bag = Bag::in;
};

/// A shot with the cell it belongs to.
struct ChartShot {
    std::size_t wedge = 0;  ///< index into the wedges
    SwingLength length = SwingLength::full;
    Carry carry;
};

enum class WarningKind {
    longer_swing_not_longer,  ///< `second` is swung further back than `first` and does not carry further
    lower_loft_not_longer,    ///< `second` has less loft than `first` and does not carry further
    overlap,                  ///< `first` and `second` cannot be told apart by the shots so far
    wide_gap,                 ///< nothing lies between `first` and `second`, and they are far apart
    old,                      ///< `first` rests on shots of long ago
};

struct ChartWarning {
    WarningKind kind = WarningKind::overlap;
    std::size_t first = 0;                          ///< index into the cells
    std::size_t second = 0;                         ///< the same; equal to first for `old`
    double difference_m = 0.0;                      ///< mean of second less mean of first
    std::optional<double> difference_half_width_m;  ///< of its interval (Welch)
    std::int64_t age_days = 0;                      ///< for `old`
};

/// Every wedge at every length: nine cells for three wedges, twelve for four (docs/formulas.md, F51 and F52).
struct DistanceChart {
    std::vector<ChartWedge> wedges;
    std::vector<DistanceCell> cells;  ///< wedge by wedge in their order, half to full
    std::vector<ChartWarning> warnings;

    [[nodiscard]] const ChartWedge& wedge_of(std::size_t cell) const { return wedges[cells[cell].wedge]; }
    /// "54 half".
    [[nodiscard]] std::string cell_name(std::size_t cell) const;
    /// Cells of wedges in the bag with a mean, shortest first.
    [[nodiscard]] std::vector<std::size_t> usable_cells() const;
    /// Of these, those that are a number to play by (distance_cell.h).
    [[nodiscard]] std::vector<std::size_t> numbers() const;
};

/// Judges every cell and looks for what does not fit together. Wedges out of the bag have cells but no
/// warnings.
[[nodiscard]] DistanceChart make_distance_chart(std::vector<ChartWedge> wedges,
                                                const std::vector<ChartShot>& shots,
                                                const DistanceOptions& options);

/// A warning as a sentence in the student's unit.
[[nodiscard]] std::string warning_words(const DistanceChart& chart, const ChartWarning& warning,
                                        DistanceUnit unit);

/// Why an interval is wider than the shots that count would make it, in a sentence: the test set some aside,
/// and who drops what does not fit sees too little spread. Empty where it is not.
[[nodiscard]] std::string wide_interval_words(const DistanceChart& chart, std::size_t cell, double confidence,
                                              DistanceUnit unit);

[[nodiscard]] std::string warning_name(WarningKind kind);  ///< longer_swing_not_longer, …

}  // namespace footing
