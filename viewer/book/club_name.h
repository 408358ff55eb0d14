#pragma once

#include <string>
#include <vector>

#include "viewer/book/book_records.h"

namespace footing {

// The one rule by which a wedge is known by name, in the window, at the command line and in tables of
// distance devices. Names stay in the book as they were written.

/// By what two names of clubs are the same club: as names are compared (name_key), and a number of degrees
/// however it is written: "54", "54°", "54 °", "54.0", "54 deg", "54 degrees", "54° wedge".
[[nodiscard]] std::string club_key(const std::string& name);

/// The wedge that is called so; first the one that is written so, where an older book has two of one club.
/// Null: none is.
[[nodiscard]] const Wedge* find_club(const std::vector<Wedge>& wedges, const std::string& name);

}  // namespace footing
