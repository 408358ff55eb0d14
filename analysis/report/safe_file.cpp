#include "analysis/report/safe_file.h"

#include <fcntl.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <random>

namespace footing {

namespace {

Problem disk_problem(const std::string& path, const std::string& what, int error) {
    std::string remedy = "choose another place";
    if (error == ENOSPC || error == EDQUOT) remedy = "make room on the disk, then write it again";
    if (error == ENOENT) remedy = "make the folder first, or choose another";
    if (error == EACCES || error == EPERM || error == EROFS) remedy = "choose a folder that you may write to";
    if (error == EISDIR) remedy = "name a file, not a folder";
    return {ProblemKind::disk_failed, path, what + ": " + std::strerror(error), remedy};
}

/// A file descriptor that closes itself.
class Descriptor {
  public:
    explicit Descriptor(int number) : number_(number) {}
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;
    ~Descriptor() {
        if (number_ >= 0) ::close(number_);
    }
    [[nodiscard]] int number() const { return number_; }
    /// 0, or the error that closing brought to light.
    int close() {
        const int result = ::close(number_);
        number_ = -1;
        return result == 0 ? 0 : errno;
    }

  private:
    int number_;
};

int write_all(int file, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

/// Into a device or a pipe, where nothing may be renamed over what stands there.
Outcome write_straight(const std::string& path, std::string_view bytes) {
    Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
    if (file.number() < 0) return disk_problem(path, "cannot be written", errno);
    if (const int error = write_all(file.number(), bytes); error != 0) {
        return disk_problem(path, "cannot be written", error);
    }
    return Done{};
}

/// A new file under a name that nobody has, with the permissions that new files get here; -1 and errno if
/// that fails.
int create_beside(const std::string& folder, std::string& name) {
    std::random_device random;
    for (int attempt = 0; attempt < 100; ++attempt) {
        name = folder + "/.footing-" + std::to_string(::getpid()) + "-" + std::to_string(random()) + ".tmp";
        const int file = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file >= 0 || errno != EEXIST) return file;
    }
    return -1;
}

}  // namespace

Outcome write_file_safely(const std::string& path, std::string_view bytes) {
    std::error_code ignored;
    const std::filesystem::file_status old = std::filesystem::status(path, ignored);
    if (std::filesystem::is_directory(old)) return disk_problem(path, "cannot be written", EISDIR);
    if (std::filesystem::exists(old) && !std::filesystem::is_regular_file(old))
        return write_straight(path, bytes);
    const std::filesystem::path parent = std::filesystem::path(path).parent_path();
    const std::string folder = parent.empty() ? "." : parent.string();

    std::string name;
    Descriptor file(create_beside(folder, name));
    if (file.number() < 0) return disk_problem(path, "cannot be written", errno);
    int error = write_all(file.number(), bytes);
    if (error == 0 && ::fsync(file.number()) != 0) error = errno;
    if (const int closing = file.close(); error == 0) error = closing;
    if (error == 0 && ::rename(name.c_str(), path.c_str()) != 0) error = errno;
    if (error != 0) {
        ::unlink(name.c_str());
        return disk_problem(path, "cannot be written", error);
    }
    const Descriptor directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (directory.number() >= 0 && ::fsync(directory.number()) != 0 && errno != EINVAL) {
        return disk_problem(path, "was written, but the disk does not say that it is safe", errno);
    }
    return Done{};
}

}  // namespace footing
