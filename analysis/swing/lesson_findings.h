#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "analysis/swing/swing.h"

namespace footing {

/// The rules on what to keep and what to change after a lesson, for everything that speaks of it: a
/// recording's report, the student's, and what to practise. The limits are common practice of coaching, no
/// source; a rule that knows fewer than fewest_swings swings says nothing.

inline constexpr std::size_t fewest_swings = 3;

/// A swing as the rules read it; what is not known is absent.
struct RuledSwing {
    SwingKind kind = SwingKind::unknown;
    TargetBand band;
    std::optional<ShareValue> address;
    std::optional<ShareValue> impact;
    std::optional<ShareValue> finish;
    std::optional<ShareValue> lowest;
    std::optional<double> tempo_ratio;
    std::optional<bool> came_to_rest;  ///< in the finish
};

/// What a rule says. `open`: neither to keep nor to change.
enum class Ruling { too_few, keep, change, open };

/// How many shares were known, and what they were against the band.
struct VerdictCounts {
    std::size_t known = 0;
    std::array<std::size_t, 4> by_verdict{};

    [[nodiscard]] std::size_t of(Verdict verdict) const {
        return by_verdict[static_cast<std::size_t>(verdict)];
    }
};

/// Address: inside the band in at least two of three: keep. Below or above in more than half: change.
struct SetUpFinding {
    Ruling ruling = Ruling::too_few;
    Verdict side = Verdict::inside;  ///< below or above: which way to change; too_close: in more than half
    VerdictCounts counts;
};

/// Impact and finish: surely not under the band's lower edge (weight on the lead foot is what is wanted, so
/// above is no fault). Impact: in at least two of three: keep; finish: in all. Below in more than half:
/// change.
struct ArrivalFinding {
    Ruling ruling = Ruling::too_few;
    std::size_t arrived = 0;
    VerdictCounts counts;
};

/// Lowest share: surely under 50 % (value + 2u) in any swing: change. Possibly under it in none: keep.
struct LowestFinding {
    Ruling ruling = Ruling::too_few;
    std::size_t known = 0;
    std::size_t surely_under = 0;
    std::optional<ShareValue> least;
};

/// Spread of the tempo (standard deviation over mean): at most 10 %: keep; over 20 %: change.
struct TempoFinding {
    Ruling ruling = Ruling::too_few;
    std::size_t known = 0;
    double mean = 0.0;
    double spread = 0.0;
    double least = 0.0;
    double most = 0.0;
};

/// The finish came to rest in all: keep; in fewer than two of three: change.
struct RestFinding {
    Ruling ruling = Ruling::too_few;
    std::size_t known = 0;
    std::size_t held = 0;
};

struct LessonFindings {
    std::size_t swings = 0;
    bool all_shots = false;
    TargetBand band;       ///< of the first
    bool one_band = true;  ///< whether all were judged against it
    SetUpFinding set_up;
    ArrivalFinding impact;
    LowestFinding lowest;
    TempoFinding tempo;
    RestFinding rest;
    ArrivalFinding finish;

    /// Whether any rule knew enough to speak.
    [[nodiscard]] bool tell_enough() const;
};

/// `sure`: with which probability a share must have reached the band's lower edge to have arrived.
[[nodiscard]] LessonFindings lesson_findings(std::span<const RuledSwing> counted, double sure);

enum class AskedChange { set_up, impact, lowest, tempo, rest, finish };
/// What there is to change, the more important first: the order of a swing.
[[nodiscard]] std::vector<AskedChange> changes_of(const LessonFindings& findings);

}  // namespace footing
