#include "acquisition/record/safe_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <system_error>

#include "acquisition/record/file_steps.h"

namespace footing {

namespace {

constexpr const char* be_written = "be written";

/// Into a device or a pipe, where nothing may be renamed over what stands there.
Outcome write_straight(const std::filesystem::path& path, std::string_view bytes) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CLOEXEC);
    if (file < 0) return disk_problem(path, be_written, errno);
    const int error = write_all(file, bytes);
    ::close(file);
    if (error != 0) return disk_problem(path, be_written, error);
    return Done{};
}

/// Makes the file `temporary`, which must not exist; on failure nothing of it is left. 0, or the error's
/// number.
int make_synced(const std::filesystem::path& temporary, std::string_view bytes, FileReaders readers) {
    const mode_t mode = readers == FileReaders::owner ? 0600 : 0666;
    const int file = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    if (file < 0) return errno;
    int error = write_all(file, bytes);
    if (error == 0 && ::fsync(file) != 0) error = errno;
    if (::close(file) != 0 && error == 0) error = errno;
    if (error != 0) ::unlink(temporary.c_str());
    return error;
}

}  // namespace

Outcome write_file_safely(const std::filesystem::path& path, std::string_view bytes, FileReaders readers) {
    std::error_code ignored;
    const std::filesystem::file_status old = std::filesystem::status(path, ignored);
    if (std::filesystem::is_directory(old)) return disk_problem(path, be_written, EISDIR);
    if (std::filesystem::exists(old) && !std::filesystem::is_regular_file(old))
        return write_straight(path, bytes);

    const std::filesystem::path temporary = temporary_beside(path);
    if (const int error = make_synced(temporary, bytes, readers); error != 0)
        return disk_problem(path, be_written, error);
    if (::rename(temporary.c_str(), path.c_str()) != 0) {
        const int error = errno;
        ::unlink(temporary.c_str());
        return disk_problem(path, be_written, error);
    }
    return sync_folder_of(path);
}

Outcome check_name_is_free(const std::filesystem::path& path) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) return exists_already(path);
    return Done{};
}

Outcome write_new_file(const std::filesystem::path& path, std::string_view bytes, FileReaders readers) {
    if (const Outcome is_free = check_name_is_free(path); !is_free) return is_free;
    const std::filesystem::path temporary = temporary_beside(path);
    if (const int error = make_synced(temporary, bytes, readers); error != 0)
        return disk_problem(path, be_written, error);
    Outcome published = publish(temporary, path);
    if (!published) ::unlink(temporary.c_str());
    return published;
}

}  // namespace footing
