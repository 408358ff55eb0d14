#include "acquisition/import/whole_file.h"

#include <fmt/format.h>

#include <span>

#include "acquisition/record/read_only_file.h"

namespace footing {

Result<std::string> read_whole_file(const std::filesystem::path& path, std::uint64_t most_bytes) {
    const auto file = ReadOnlyFile::open(path);
    if (!file) return file.problem();
    if (file.value().size() > most_bytes) {
        return Problem{ProblemKind::bad_input, path.string(),
                       fmt::format("the file is longer than {} MB", most_bytes >> 20), "import it in parts"};
    }
    std::string text(file.value().size(), '\0');
    const std::size_t got =
        file.value().read_at(0, std::as_writable_bytes(std::span(text.data(), text.size())));
    if (got != text.size()) {
        return Problem{ProblemKind::bad_input, path.string(),
                       fmt::format("only {} of {} bytes can be read", got, text.size()),
                       "copy the file again from where it came"};
    }
    return text;
}

}  // namespace footing
