#include "viewer/command_line/write_text.h"

#include <cstdio>

namespace footing {

Outcome write_text(const std::string& target, const std::string& text, FileReaders readers) {
    if (target != "-") return write_file_safely(target, text, readers);
    const bool written =
        std::fwrite(text.data(), 1, text.size(), stdout) == text.size() && std::fflush(stdout) == 0;
    if (!written)
        return Problem{ProblemKind::disk_failed, "standard output", "could not write all of it", ""};
    return Done{};
}

}  // namespace footing
