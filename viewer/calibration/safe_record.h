#pragma once

#include <filesystem>
#include <string>

#include "acquisition/frame/result.h"

namespace footing {

/// Fails with the problem that something has this name already; to be asked before an hour of work.
[[nodiscard]] Outcome check_name_is_free(const std::filesystem::path& path);

/// A new file that appears whole or not at all: temporary file beside it, fsync, rename, fsync of the folder
/// (R14). Never overwrites (R15). Fails with command_line when the name is taken, disk_failed.
[[nodiscard]] Outcome write_new_file(const std::filesystem::path& path, const std::string& text);

/// A text file that grows line by line, each on disk before the next: so that hours of readings survive
/// whatever happens. Created new, never overwrites.
class LineLog {
  public:
    LineLog() = default;
    ~LineLog();
    LineLog(const LineLog&) = delete;
    LineLog& operator=(const LineLog&) = delete;

    [[nodiscard]] Outcome create(const std::filesystem::path& path);
    [[nodiscard]] Outcome append(const std::string& line);
    /// Takes the file away: what it held is safe elsewhere.
    void remove();
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
    int file_ = -1;
};

}  // namespace footing
