#include "viewer/command_line/book_words.h"

#include <fmt/format.h>

#include "analysis/report/number_words.h"
#include "analysis/report/text_safety.h"

namespace footing {

std::string shown(const std::string& name) {
    return clean_text(name, 60);
}

std::string shown_long(const std::string& words) {
    return clean_text(words, 400);
}

std::string removed_words(const Removed& removed) {
    const auto many = [](std::int64_t count, const char* one, const char* more) {
        return count_words(static_cast<std::size_t>(count), one, more);
    };
    std::string text =
        fmt::format("removed of {}: {}, {}, {}, {}\n", shown(removed.name),
                    many(removed.wedges, "wedge", "wedges"), many(removed.lessons, "lesson", "lessons"),
                    many(removed.swings, "swing", "swings"), many(removed.shots, "shot", "shots"));
    for (const std::string& file : removed.recordings) {
        text += fmt::format("the recording {} is still on the disk\n", file);
    }
    if (removed.log == RemovedLog::in_use) {
        text +=
            "another program has the book open: traces of what was removed stay in its log until it is "
            "closed "
            "there\n";
    }
    return text;
}

}  // namespace footing
