#pragma once

#include <cstddef>
#include <vector>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// The whole recording in a few thousand columns, least and greatest total load in each; so that drawing the
/// timeline of an hour costs no more than that of a minute. For the screen only: stored data are never
/// thinned.
struct Overview {
    struct Column {
        float least_n = 0.0F;
        float greatest_n = 0.0F;
    };
    std::vector<Column> columns;        ///< equal parts of the recording, in order of time
    float greatest_n = 0.0F;            ///< of all columns
    std::size_t samples_with_feet = 0;  ///< in which the feet could be told apart
};

/// At most `columns` columns; fewer for a shorter trace, none for an empty one.
[[nodiscard]] Overview make_overview(const LoadTrace& trace, std::size_t columns = 4096);

}  // namespace footing
