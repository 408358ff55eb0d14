#include "viewer/book/undone_words.h"

#include <fmt/format.h>

#include <array>

#include "acquisition/frame/count_words.h"

namespace footing {

namespace {

struct Named {
    const char* table;
    const char* one;
    const char* several;
};

/// In the order in which a coach thinks of them.
constexpr std::array<Named, 10> named{{{"student", "student", "students"},
                                       {"wedge", "wedge", "wedges"},
                                       {"lesson", "lesson", "lessons"},
                                       {"lesson_band", "target band", "target bands"},
                                       {"swing", "swing", "swings"},
                                       {"shot", "shot", "shots"},
                                       {"recording", "recording in the index", "recordings in the index"},
                                       {"csv_shape", "known shape of a table", "known shapes of tables"},
                                       {"csv_club", "club's name in a table", "clubs' names in a table"},
                                       {"imported_line", "line of a table", "lines of a table"}}};

std::vector<std::string> words_of(const UndoneChange& change, const char* changed) {
    std::vector<std::string> words;
    const auto tell = [&](std::size_t count, const Named& what, const char* how) {
        if (count > 0) words.push_back(count_words(count, what.one, what.several) + " " + how);
    };
    for (const Named& what : named) {
        for (const UndoneRows& rows : change.rows) {
            if (rows.table != what.table) continue;
            tell(rows.returned, what, "there again");
            tell(rows.changed, what, changed);
            tell(rows.removed, what, "gone again");
        }
    }
    return words;
}

}  // namespace

std::vector<std::string> undone_words(const UndoneChange& change) {
    return words_of(change, "as before");
}

std::vector<std::string> made_again_words(const UndoneChange& change) {
    return words_of(change, "changed again");
}

}  // namespace footing
