#include "viewer/command_line/say.h"

#include <cstdio>

#include "acquisition/frame/clean_text.h"

namespace footing {

namespace {

constexpr std::size_t most_shown = 200;

}  // namespace

void say_text(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stdout);
}

void tell_text(std::string_view text) {
    std::fwrite(text.data(), 1, text.size(), stderr);
}

void say_line(std::string_view line) {
    say_text(clean_text(line) + "\n");
}

void tell_line(std::string_view line) {
    tell_text(clean_text(line) + "\n");
}

std::string shown_words(std::string_view words) {
    return clean_text(words, most_shown);
}

void complain(const Problem& problem, VerbOutcome& outcome) {
    tell_text("footing: " + sentence(problem) + "\n");
    outcome.exit_code = exit_code(problem.kind);
}

}  // namespace footing
