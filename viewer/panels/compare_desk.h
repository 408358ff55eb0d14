#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "analysis/report/aligned_figure.h"
#include "analysis/report/lesson_result.h"

namespace footing {

struct ViewState;

/// A swing that may be laid over others: of the lesson that is open (0), or of the one beside it (1).
struct ComparedSwing {
    std::size_t lesson = 0;
    std::size_t place = 0;  ///< in its lesson's swings
    friend bool operator==(const ComparedSwing&, const ComparedSwing&) = default;
};

/// How the swings were picked; said above them.
enum class Picked { shots, practice, all, shot_and_practice, by_hand };

/// The swings laid over each other, as a worker computed them; never changed after.
struct Comparison {
    std::uint64_t revision = 0;  ///< the one that was asked for
    AlignedSwings aligned;
    AlignedNames names;
};

/// Swings on the coach's desk to be laid over each other. Plain data; changed by carry_out() only.
struct CompareDesk {
    std::vector<ComparedSwing> picked;  ///< in the order of the list
    Picked how = Picked::shots;
    std::size_t shot = 0;        ///< with shot_and_practice: its place in the list
    std::size_t event = 4;       ///< place in named_events that they are aligned on: impact
    std::size_t row = 0;         ///< place in the list
    std::uint64_t revision = 1;  ///< a comparison of this revision is wanted
    std::shared_ptr<const Comparison> comparison;
    std::string other_file;  ///< another lesson that is wanted beside the open one; empty: none
    std::shared_ptr<const LessonResult> other;
};

/// The lessons whose swings are listed; an absent one has none.
[[nodiscard]] std::array<const LessonResult*, 2> compared_lessons(const ViewState& state);
/// All swings that can be picked, those of the open lesson first. Those that the coach called no swing are
/// left out.
[[nodiscard]] std::vector<ComparedSwing> compared_list(const ViewState& state);
[[nodiscard]] bool is_picked(const CompareDesk& desk, const ComparedSwing& swing);
/// "swing 12", "swing 3 of 2026-05-14".
[[nodiscard]] std::string compared_name(const ViewState& state, const ComparedSwing& swing);
/// What a swing is by the coach's word, else by what was found.
[[nodiscard]] SwingKind compared_kind(const ViewState& state, const ComparedSwing& swing);
/// For people: the day of the lesson beside the open one, with the time where both were on one day; or its
/// file's name. Needs compare->other.
[[nodiscard]] std::string other_lesson_words(const ViewState& state);

}  // namespace footing
