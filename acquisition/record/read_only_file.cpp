#include "acquisition/record/read_only_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

namespace footing {

Result<ReadOnlyFile> ReadOnlyFile::open(const std::filesystem::path& path) {
    const auto refuse = [&](const char* what, const char* remedy) {
        return Problem{ProblemKind::bad_input, path.string(), what, remedy};
    };
    const int file = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (file < 0) {
        if (errno == ENOENT || errno == ENOTDIR) return refuse("there is no such file", "check the name");
        if (errno == ELOOP || errno == ENAMETOOLONG) return refuse(std::strerror(errno), "check the name");
        if (errno == EACCES || errno == EPERM)
            return refuse("you may not read it", "copy it to where you may, or ask whose it is");
        return refuse(std::strerror(errno), "try again, or copy it to another disk");
    }
    ReadOnlyFile opened(file, 0);
    struct stat facts {};
    if (::fstat(file, &facts) != 0)
        return refuse(std::strerror(errno), "try again, or copy it to another disk");
    if (S_ISDIR(facts.st_mode)) return refuse("is a folder", "name a file in it");
    if (!S_ISREG(facts.st_mode))
        return refuse("is no ordinary file", "write what it gives into a file, and name that");
    if (::flock(file, LOCK_SH | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        return refuse("is being written by another program", "stop that recording first");
    }
    opened.size_ = static_cast<std::uint64_t>(facts.st_size);
    return opened;
}

ReadOnlyFile::ReadOnlyFile(ReadOnlyFile&& other) noexcept
    : file_(std::exchange(other.file_, -1)), size_(other.size_) {}

ReadOnlyFile& ReadOnlyFile::operator=(ReadOnlyFile&& other) noexcept {
    std::swap(file_, other.file_);
    std::swap(size_, other.size_);
    return *this;
}

ReadOnlyFile::~ReadOnlyFile() {
    if (file_ >= 0) ::close(file_);
}

std::size_t ReadOnlyFile::read_at(std::uint64_t offset, std::span<std::byte> bytes) const {
    std::size_t done = 0;
    while (done < bytes.size() && offset + done < size_) {
        const ssize_t got =
            ::pread(file_, bytes.data() + done, bytes.size() - done, static_cast<off_t>(offset + done));
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) break;
        done += static_cast<std::size_t>(got);
    }
    return done;
}

}  // namespace footing
