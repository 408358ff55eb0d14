#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <variant>

#include "viewer/panels/compare_desk.h"

namespace footing {

// What happens where swings are laid over each other, and what the coach may ask for there.

/// To the front, with the shots picked (all swings where there are too few shots); again: back.
struct ShowCompare {};
struct HideCompare {};
/// A worker has laid over each other what was picked.
struct HearComparison {
    std::shared_ptr<const Comparison> comparison;
};
/// Another lesson is wanted beside the open one.
struct CompareWith {
    std::string file;
};
/// A worker has read it.
struct HearOther {
    std::shared_ptr<const LessonResult> lesson;
};
struct DropOther {};
struct PickKind {
    Picked how = Picked::shots;
};
struct MoveInList {
    int step = 1;
};
/// Takes a swing in or out.
struct PickSwing {
    std::size_t row = 0;
};
/// That of the row.
struct PickThis {};
struct AlignOnNext {};

using CompareAction = std::variant<ShowCompare, HideCompare, HearComparison, CompareWith, HearOther,
                                   DropOther, PickKind, MoveInList, PickSwing, PickThis, AlignOnNext>;

/// The state after one of these; without an open lesson only a wish for another lesson is dropped.
[[nodiscard]] ViewState carry_out_compare(ViewState state, const CompareAction& action);

/// After the lessons or the coach's words changed: picks again by what was asked for.
void pick_again(ViewState& state);

}  // namespace footing
