#pragma once

#include <string>
#include <string_view>

#include "acquisition/frame/problem.h"
#include "viewer/command_line/verbs.h"

namespace footing {

/// One line to standard output, made harmless for a terminal (acquisition/frame/clean_text.h): names of files
/// and devices and words out of recordings stand in it. What a stranger may have made long is cut before,
/// with shown_words().
void say_line(std::string_view line);

/// Text that is harmless already to standard output, as it is. What that cannot take is told at the end of
/// the program. (fmt::print would throw, and with that end a recording because its terminal was closed.)
void say_text(std::string_view text);

/// The same to standard error; what that cannot take, nobody can be told.
void tell_text(std::string_view text);

/// One line to standard error, made harmless.
void tell_line(std::string_view line);

/// Words of a stranger as a part of a line: harmless, at most 200 characters.
[[nodiscard]] std::string shown_words(std::string_view words);

/// Writes the problem to standard error as one sentence, and sets the exit code that goes with it.
void complain(const Problem& problem, VerbOutcome& outcome);

}  // namespace footing
