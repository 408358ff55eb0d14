#pragma once

#include <memory>

#include "viewer/command_line/book_option.h"

namespace footing {

class Arguments;

/// Adds "import" to the verb "shots": carries from a distance device's table. `shared` holds the verb's own
/// options.
void add_shots_import(Arguments& shots, std::shared_ptr<const BookOptions> shared, VerbOutcome& outcome);

}  // namespace footing
