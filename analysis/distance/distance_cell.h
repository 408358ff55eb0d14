#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analysis/distance/carry.h"

namespace footing {

/// The coach's limits. Defaults are common practice without a source; the coach sets each of them.
struct DistanceOptions {
    double outlier_alpha = 0.05;  ///< of Grubbs' two-sided test; 0: no test
    double confidence = 0.95;     ///< of every interval
    double known_within_m =
        3.0 * metres_per_yard;  ///< a number is known when its interval is no wider than this
    double widest_gap_m = 15.0 * metres_per_yard;  ///< between neighbours of the chart
    std::int64_t oldest_days = 180;                ///< since the newest shot of a cell
    std::int64_t today = 0;                        ///< days since 1970-01-01
};

/// The same limits in round numbers of the student's unit: 3 and 15 yards, or 3 and 15 metres.
[[nodiscard]] DistanceOptions usual_limits(DistanceUnit unit);

/// A test for outliers needs a cell's worth of shots: five (common practice, no source). With fewer, only the
/// coach sets a shot aside.
inline constexpr std::size_t fewest_for_outlier_test = 5;

/// So many shots make a number to play by: hit them, set aside what is no part of the others, average the
/// rest (common practice, no source). With fewer, the shots are told, not a number.
inline constexpr std::size_t shots_for_a_number = 5;

/// Carries are read to the whole yard or metre, so that shots alike to the last digit still differ: a reading
/// of one yard is a rectangle of half a yard either way (JCGM 100:2008, F.2.2.1), and no spread is taken to
/// be smaller.
inline constexpr double carry_reading_sd_m = metres_per_yard * 0.288675134594812882;  // 1/sqrt(12)

enum class Standing { kept, set_aside };

/// A shot, whether it counts, and why not.
struct JudgedCarry {
    Carry carry;
    Standing standing = Standing::kept;
    std::string
        reason;  ///< in words, for a shot set aside; for one that the coach keeps against the test as well
};

/// What is known about one wedge at one length of swing (docs/formulas.md, F51).
struct DistanceCell {
    std::size_t wedge = 0;
    SwingLength length = SwingLength::full;
    std::vector<JudgedCarry> shots;  ///< all of them, in the order they were given
    std::size_t kept = 0;
    std::optional<double> mean_m;  ///< of the shots kept
    std::optional<double> sd_m;    ///< with n - 1; from two shots on
    /// What intervals and chances go by: sd_m, unless the test set shots aside. Whoever drops what does not
    /// fit sees too little spread; so each such shot counts here as one at the edge of what the others let
    /// expect, and costs a degree of freedom. Never below carry_reading_sd_m.
    std::optional<double> fair_sd_m;
    double degrees_of_freedom = 0.0;
    std::optional<double> half_width_m;  ///< of the interval of the mean; from two shots on
    /// How many more shots make that interval as narrow as the coach asks, should the spread stay as it is;
    /// absent while there is no spread to go by.
    std::optional<std::size_t> shots_needed;
    std::optional<std::int64_t> newest_day;  ///< of the shots kept

    [[nodiscard]] std::size_t set_aside() const { return shots.size() - kept; }
    /// Shots towards shots_for_a_number: those hit, as long as most of them count; else those that count.
    [[nodiscard]] std::size_t collected() const;
    /// Whether the mean is a number to play by.
    [[nodiscard]] bool is_number() const { return collected() >= shots_for_a_number; }
};

/// Decides which shots count and sums them up. Grubbs' two-sided test is repeated on what is left for as long
/// as it finds an outlier and at least fewest_for_outlier_test shots remain; it stops at a shot that the
/// coach keeps. Nothing is deleted: every shot comes back with its standing.
[[nodiscard]] DistanceCell judge_cell(std::vector<Carry> shots, const DistanceOptions& options);

/// What is known of a cell, in words: "62 ± 2 yd"; "2 of 5 shots" where that is no number yet; "no shot yet".
[[nodiscard]] std::string known_words(const DistanceCell& cell, DistanceUnit unit);
/// "2 of 5 shots".
[[nodiscard]] std::string collected_words(const DistanceCell& cell);

/// Shots in all after which t_{n-1} * sd / sqrt(n) is at most `within`; at least two. `sd` and `within` in
/// the same unit, above zero.
[[nodiscard]] std::size_t shots_to_know(double sd, double within, double confidence);

}  // namespace footing
