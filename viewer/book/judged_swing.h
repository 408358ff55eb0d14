#pragma once

#include <optional>

#include "viewer/book/book_records.h"

namespace footing {

/// The lead shares of a swing of the book against the band that its lesson asks for at its length. A share
/// whose uncertainty the book does not know is infinitely uncertain: nothing is sure of it.
struct JudgedSwing {
    TargetBand band;
    std::optional<ShareValue> address;
    std::optional<ShareValue> lowest;
    std::optional<ShareValue> impact;
    std::optional<ShareValue> finish;
    std::optional<Tempo> tempo;
};

[[nodiscard]] JudgedSwing judged_swing(const BookSwing& swing, const Lesson& lesson, double sure);

}  // namespace footing
