#include "viewer/command_line/length_option.h"

#include <CLI/CLI.hpp>

namespace footing {

void add_length_option(CLI::App& verb, std::string& length, const std::string& help) {
    verb.add_option("--length", length, help + ": half, three-quarter (or 3/4), full")
        ->check(CLI::IsMember({"half", "three-quarter", "full", "1/2", "3/4"}));
}

}  // namespace footing
