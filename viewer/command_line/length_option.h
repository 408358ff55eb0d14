#pragma once

#include <string>

namespace footing {

class Arguments;

/// Adds --length to a verb: what length_called() reads; refuses any other word.
void add_length_option(Arguments& verb, std::string& length, const std::string& help);

}  // namespace footing
