#include "viewer/command_line/say.h"

#include <fmt/format.h>

#include <cstdio>

#include "acquisition/frame/clean_text.h"

namespace footing {

namespace {

constexpr std::size_t most_shown = 200;

}  // namespace

void say_line(std::string_view line) {
    fmt::print("{}\n", clean_text(line));
}

void tell_line(std::string_view line) {
    fmt::print(stderr, "{}\n", clean_text(line));
}

std::string shown_words(std::string_view words) {
    return clean_text(words, most_shown);
}

void complain(const Problem& problem, VerbOutcome& outcome) {
    fmt::print(stderr, "footing: {}\n", sentence(problem));
    outcome.exit_code = exit_code(problem.kind);
}

}  // namespace footing
