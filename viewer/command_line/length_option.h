#pragma once

#include <string>

namespace CLI {
class App;
}

namespace footing {

/// Adds --length to a verb: what length_called() reads; CLI11 refuses any other word.
void add_length_option(CLI::App& verb, std::string& length, const std::string& help);

}  // namespace footing
