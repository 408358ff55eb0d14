#pragma once

#include <string>

namespace footing {

/// How one shape of table is to be read: which columns mean what, in which units. The coach says it once for
/// each header; it is remembered.
struct ShotTableShape {
    std::string header;              ///< the header line's fields, joined by commas: what tells shapes apart
    std::string carry_column;        ///< by name
    std::string club_column;         ///< empty: the table does not say
    std::string date_column;         ///< empty: the table does not say
    std::string side_column;         ///< empty: the table does not say
    std::string carry_unit = "yd";   ///< yd, m, ft
    std::string side_unit = "yd";    ///< yd, m, ft
    std::string date_order = "ymd";  ///< ymd, dmy, mdy
};

}  // namespace footing
