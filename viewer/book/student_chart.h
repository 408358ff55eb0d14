#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "analysis/distance/distance_chart.h"
#include "viewer/book/book.h"

namespace footing {

/// The band that a lesson asks for at this length of swing; the usual one where the coach set none, or where
/// the length is not known and the lengths have different bands.
[[nodiscard]] TargetBand band_for(const Lesson& lesson, std::optional<SwingLength> length);

/// A student with everything that the distance chart is made of. A shot's number is its swing's id.
struct StudentDistances {
    Student student;
    DistanceChart chart;
};

/// The chart of all carries of a student that are labelled with a wedge and a length. Fails as Book does.
[[nodiscard]] Result<StudentDistances> distances_of(Book& book, const std::string& who,
                                                    const DistanceOptions& options);

/// "ball first", "ground first", "thin".
[[nodiscard]] std::string strike_words(Strike strike);

}  // namespace footing
