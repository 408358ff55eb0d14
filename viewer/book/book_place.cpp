#include "viewer/book/book_place.h"

#include <fmt/format.h>
#include <glib.h>
#include <sys/stat.h>

#include <cerrno>
#include <cstring>
#include <memory>

namespace footing {

namespace {

struct Free {
    void operator()(char* text) const { g_free(text); }
};
using OwnText = std::unique_ptr<char, Free>;

std::string normalised(const std::string& text, GNormalizeMode mode) {
    const OwnText valid(g_utf8_make_valid(text.c_str(), static_cast<gssize>(text.size())));
    const OwnText normal(g_utf8_normalize(valid.get(), -1, mode));
    return normal ? normal.get() : valid.get();
}

}  // namespace

Result<std::filesystem::path> usual_book_place() {
    const std::filesystem::path folder = std::filesystem::path(g_get_user_data_dir()) / "footing";
    if (g_mkdir_with_parents(folder.c_str(), 0700) != 0) {
        return Problem{ProblemKind::disk_failed, folder.string(),
                       fmt::format("the folder of the lesson book cannot be made: {}", std::strerror(errno)),
                       "name a file with --book"};
    }
    return folder / "lessons.book";
}

Result<std::string> tidy_text(const std::string& text, const std::string& what, std::size_t most_bytes) {
    if (text.size() > most_bytes) {
        return Problem{ProblemKind::command_line, what,
                       fmt::format("is {} bytes long, and {} are the most", text.size(), most_bytes),
                       "shorten it"};
    }
    std::string tidy = normalised(text, G_NORMALIZE_NFC);
    for (char& letter : tidy) {
        const auto byte = static_cast<unsigned char>(letter);
        if (byte < 0x20 || byte == 0x7F) letter = ' ';
    }
    const std::size_t first = tidy.find_first_not_of(' ');
    if (first == std::string::npos)
        return Problem{ProblemKind::command_line, what, "is empty", "write something"};
    return tidy.substr(first, tidy.find_last_not_of(' ') - first + 1);
}

std::string name_key(const std::string& name) {
    std::string visible;
    const std::string normal = normalised(name, G_NORMALIZE_NFKC);
    for (const char* at = normal.c_str(); *at != '\0'; at = g_utf8_next_char(at)) {
        // What no eye can see tells no two names apart (Unicode category Cf).
        if (g_unichar_type(g_utf8_get_char(at)) != G_UNICODE_FORMAT)
            visible.append(at, static_cast<std::size_t>(g_utf8_next_char(at) - at));
    }
    const OwnText folded(g_utf8_casefold(visible.c_str(), -1));
    return normalised(folded.get(), G_NORMALIZE_NFKC);
}

}  // namespace footing
