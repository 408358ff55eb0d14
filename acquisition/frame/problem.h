#pragma once

#include <string>

namespace footing {

/// What kind of trouble it is; the program's exit code follows from it (see exit_code).
enum class ProblemKind {
    command_line,   ///< the words given to the program make no sense
    bad_input,      ///< a file or a stream is not what it should be
    device_failed,  ///< a port, a socket or the plates failed
    disk_failed,    ///< the disk refused, or is full
};

/// An error that may happen in the field, as a value.
struct Problem {
    ProblemKind kind = ProblemKind::bad_input;
    std::string place;   ///< where: file, line, byte, frame, port. May be empty.
    std::string what;    ///< what is wrong, in words a coach understands
    std::string remedy;  ///< what to do about it. May be empty.
};

/// One sentence for standard error or the screen: "PLACE: WHAT; REMEDY". Made harmless (clean_text.h): names
/// of files and words of strangers stand in it.
[[nodiscard]] std::string sentence(const Problem& problem);

/// 2 command line, 3 bad input, 4 device, 5 disk (0 is success).
[[nodiscard]] int exit_code(ProblemKind kind);

}  // namespace footing
