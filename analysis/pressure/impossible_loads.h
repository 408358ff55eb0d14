#pragma once

#include <cstddef>

#include "analysis/pressure/load_trace.h"

namespace footing {

/// Bridges, by a straight line and marked in LoadTrace::bridged, up to three instants in a row in which the
/// load under a foot (of both, where they cannot be told apart) is more than 300 N off the line between what
/// it was before and after, which are alike: a damaged value, since a body can do that neither with its mass
/// nor by a strike, which shakes the load by some tens of newtons [our own]. Returns how many instants were
/// bridged.
std::size_t bridge_impossible_loads(LoadTrace& trace);

}  // namespace footing
