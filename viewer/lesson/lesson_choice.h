#pragma once

#include <optional>
#include <string>
#include <vector>

#include "viewer/book/book_records.h"

namespace footing {

/// Where the frames of a lesson may come from.
struct PlatesChoice {
    enum class Kind { network, serial, simulated } kind = Kind::simulated;
    std::string address;  ///< HOST:PORT to listen on, or PATH[:BAUD]; empty for the simulated golfer
    std::string words;    ///< for people
    friend bool operator==(const PlatesChoice&, const PlatesChoice&) = default;
};

/// Who is taught on which plates.
struct LessonChoice {
    std::optional<Student> student;  ///< absent: nobody of the book; nothing is kept there
    /// One, or several devices with clocks of their own, recorded as one; the first one's clock is the time
    /// base.
    std::vector<PlatesChoice> plates;
};

}  // namespace footing
