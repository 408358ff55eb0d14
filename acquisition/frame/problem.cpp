#include "acquisition/frame/problem.h"

#include "acquisition/frame/clean_text.h"

namespace footing {

namespace {

/// Longer than any path with its sentence.
constexpr std::size_t most_characters = 10'000;

}  // namespace

std::string sentence(const Problem& problem) {
    std::string text;
    if (!problem.place.empty()) text += problem.place + ": ";
    text += problem.what;
    if (!problem.remedy.empty()) text += "; " + problem.remedy;
    return clean_text(text, most_characters);
}

int exit_code(ProblemKind kind) {
    switch (kind) {
        case ProblemKind::command_line:
            return 2;
        case ProblemKind::bad_input:
            return 3;
        case ProblemKind::device_failed:
            return 4;
        case ProblemKind::disk_failed:
            return 5;
    }
    return 3;
}

}  // namespace footing
