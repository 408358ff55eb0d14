#include "viewer/command_line/length_option.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"

namespace footing {

void add_length_option(Arguments& verb, std::string& length, const std::string& help) {
    verb.add_option("--length", length, help + ": half, three-quarter (or 3/4), full")
        ->check(one_of({"half", "three-quarter", "full", "1/2", "3/4"}));
}

}  // namespace footing
