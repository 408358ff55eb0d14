#include "viewer/calibration/line_log.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>

#include "acquisition/record/file_steps.h"

namespace footing {

LineLog::~LineLog() {
    if (file_ >= 0) ::close(file_);
}

Outcome LineLog::create(const std::filesystem::path& path) {
    path_ = path;
    file_ = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC, 0644);
    if (file_ >= 0) return sync_folder_of(path);
    if (errno == EEXIST) return exists_already(path);
    return disk_problem(path, "be created", errno);
}

Outcome LineLog::append(const std::string& line) {
    int error = write_all(file_, line);
    if (error == 0 && ::fdatasync(file_) != 0) error = errno;
    if (error != 0) return disk_problem(path_, "take a reading", error);
    return Done{};
}

void LineLog::remove() {
    if (file_ < 0) return;
    ::close(file_);
    file_ = -1;
    ::unlink(path_.c_str());
}

}  // namespace footing
