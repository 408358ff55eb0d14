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

/// A shot with a carry of which the wedge or the length was not said.
struct ShotWithoutPlace {
    ShotPlace place;
    double carry_m = 0.0;
    std::optional<std::int64_t> wedge;
    std::optional<SwingLength> length;
};

/// A student with everything that the distance chart is made of. A shot's number is its swing's id.
struct StudentDistances {
    Student student;
    DistanceChart chart;
    std::map<std::int64_t, ShotPlace> places;     ///< of the chart's shots, by number
    std::vector<ShotWithoutPlace> without_place;  ///< oldest first
};

/// What is to be done about those at the command line, as a sentence for people; empty where there are none.
[[nodiscard]] std::string without_place_words(const std::vector<ShotWithoutPlace>& shots);

/// The chart of all carries of a student that are labelled with a wedge and a length, of the lessons up to a
/// date (included; empty: all). Fails as Book does.
[[nodiscard]] Result<StudentDistances> distances_of(Book& book, const std::string& who,
                                                    const DistanceOptions& options,
                                                    const std::string& until = "");

}  // namespace footing
