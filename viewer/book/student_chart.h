#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "analysis/distance/distance_chart.h"
#include "viewer/book/book.h"

namespace footing {

/// By what the coach finds a shot.
struct ShotPlace {
    std::int64_t lesson = 0;
    std::int64_t swing = 0;  ///< its number within the lesson
};

/// A student with everything that the distance chart is made of. A shot's number is its swing's id.
struct StudentDistances {
    Student student;
    DistanceChart chart;
    std::map<std::int64_t, ShotPlace> places;  ///< of the chart's shots, by number
    /// Shots with a carry of which the wedge or the length was not said, so that the chart has no place for
    /// them; oldest first.
    std::vector<ShotPlace> without_place;
};

/// What is to be done about those, as a sentence for people; empty where there are none.
[[nodiscard]] std::string without_place_words(const std::vector<ShotPlace>& shots);

/// The chart of all carries of a student that are labelled with a wedge and a length, of the lessons up to a
/// date (included; empty: all). Fails as Book does.
[[nodiscard]] Result<StudentDistances> distances_of(Book& book, const std::string& who,
                                                    const DistanceOptions& options,
                                                    const std::string& until = "");

}  // namespace footing
