#pragma once

#include <filesystem>
#include <string>

#include "acquisition/frame/result.h"

namespace footing {

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
