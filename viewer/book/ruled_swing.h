#pragma once

#include <optional>

#include "analysis/swing/lesson_findings.h"
#include "viewer/book/book_records.h"

namespace footing {

/// A swing of the book as the rules read it, its shares against the band that the lesson asks for at its
/// length. A share whose uncertainty the book does not know is infinitely uncertain: nothing is sure of it.
[[nodiscard]] RuledSwing ruled_swing(const BookSwing& swing, const Lesson& lesson, double sure);

[[nodiscard]] std::optional<Tempo> tempo_of(const BookSwing& swing);

}  // namespace footing
