#pragma once

#include <cstdint>
#include <functional>
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>

#include "acquisition/frame/result.h"
#include "viewer/book/book.h"
#include "viewer/command_line/verbs.h"

namespace footing {

class Arguments;

/// What every verb on the lesson book shares.
struct BookOptions {
    std::string book;  ///< empty: the usual place
    std::string json;  ///< a file, or - for standard output
};

/// Adds --book and --json to a verb.
void add_book_options(Arguments& verb, BookOptions& options);

/// A step below a verb ("students add") that also takes the verb's own options; `work` does it.
Arguments* add_step(Arguments& verb, const std::string& name, const std::string& help, VerbOutcome& outcome,
                    std::function<Outcome()> work);

/// What the verb does when no step is named.
void set_work(Arguments& verb, VerbOutcome& outcome, std::function<Outcome()> work);

[[nodiscard]] Result<Book> open_book(const BookOptions& options, OpenAs how);

/// The number of the student called `name` (or #number); nothing, for everybody, where no name is given.
[[nodiscard]] Result<std::optional<std::int64_t>> student_or_all(Book& book, const std::string& name);

/// Prints the text, unless only JSON is asked for, and writes the JSON where it is asked for: into a file
/// that only its owner may read, since it holds people's data.
[[nodiscard]] Outcome tell(const BookOptions& options, const std::string& text,
                           const nlohmann::ordered_json& json);

}  // namespace footing
