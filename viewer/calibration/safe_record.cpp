#include "viewer/calibration/safe_record.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "acquisition/record/file_steps.h"

namespace footing {

namespace {

/// 0, or errno.
int write_all(int file, const std::string& text) {
    std::size_t written = 0;
    while (written < text.size()) {
        const ssize_t count = ::write(file, text.data() + written, text.size() - written);
        if (count < 0 && errno != EINTR) return errno;
        if (count > 0) written += static_cast<std::size_t>(count);
    }
    return 0;
}

}  // namespace

Outcome check_name_is_free(const std::filesystem::path& path) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) return exists_already(path);
    return Done{};
}

Outcome write_new_file(const std::filesystem::path& path, const std::string& text) {
    if (const Outcome is_free = check_name_is_free(path); !is_free) return is_free;
    const std::filesystem::path temporary = temporary_beside(path);
    const int file = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0644);
    if (file < 0) return disk_problem(path, "create the file", errno);
    int error = write_all(file, text);
    if (::close(file) != 0 && error == 0) error = errno;
    if (error == 0) {
        Outcome published = publish(temporary, path);
        if (published) return published;
        ::unlink(temporary.c_str());
        return published;
    }
    ::unlink(temporary.c_str());
    return disk_problem(path, "write the file", error);
}

LineLog::~LineLog() {
    if (file_ >= 0) ::close(file_);
}

Outcome LineLog::create(const std::filesystem::path& path) {
    path_ = path;
    file_ = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC, 0644);
    if (file_ >= 0) return sync_folder_of(path);
    if (errno == EEXIST) return exists_already(path);
    return disk_problem(path, "create the file", errno);
}

Outcome LineLog::append(const std::string& line) {
    int error = write_all(file_, line);
    if (error == 0 && ::fdatasync(file_) != 0) error = errno;
    if (error != 0) return disk_problem(path_, "write a reading", error);
    return Done{};
}

void LineLog::remove() {
    if (file_ < 0) return;
    ::close(file_);
    file_ = -1;
    ::unlink(path_.c_str());
}

}  // namespace footing
