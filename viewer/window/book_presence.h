#pragma once

#include <filesystem>

namespace footing {

/// Says to other windows that this one has the book open, for as long as this lives, and hears the same of
/// them: by a lock on a small file beside the book, which the system gives back however the program ends.
/// Where that file cannot be made (a folder that may not be written to), nobody is heard of.
class BookPresence {
  public:
    explicit BookPresence(const std::filesystem::path& book);
    ~BookPresence();
    BookPresence(const BookPresence&) = delete;
    BookPresence& operator=(const BookPresence&) = delete;

    /// Never waits.
    [[nodiscard]] bool others_are_there() const;

  private:
    int file_ = -1;
};

/// The file of the locks.
[[nodiscard]] std::filesystem::path presence_file(const std::filesystem::path& book);

}  // namespace footing
