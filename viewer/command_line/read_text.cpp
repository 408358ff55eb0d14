#include "viewer/command_line/read_text.h"

#include <span>

#include "acquisition/record/read_only_file.h"

namespace footing {

Result<std::string> read_text(const std::string& path) {
    constexpr std::uint64_t most_bytes = std::uint64_t{4} << 20;
    const Result<ReadOnlyFile> file = ReadOnlyFile::open(path);
    if (!file.ok()) return file.problem();
    if (file.value().size() > most_bytes) {
        return Problem{ProblemKind::bad_input, path, "is too large for a file of settings", "check the name"};
    }
    std::string text(static_cast<std::size_t>(file.value().size()), '\0');
    text.resize(file.value().read_at(0, std::as_writable_bytes(std::span(text))));
    return text;
}

}  // namespace footing
