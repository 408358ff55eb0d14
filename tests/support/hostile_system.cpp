// Loaded before the C library into a child process (LD_PRELOAD), this stands between the program and the
// system:
//   FOOTING_SHIM_BUFFER=BYTES     no socket is granted a larger receive buffer
//   FOOTING_SHIM_FOLDER=FOLDER    whatever is done to files in it is written down in
//   FOOTING_SHIM_LOG=FILE         in order, so that a test can lose power at any instant (file_operations.h)
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cstdarg>
#include <cstdint>
#include <cstdlib>
#include <mutex>
#include <string>
#include <string_view>

#include "tests/support/file_operations.h"

namespace {

using namespace footing::test;

std::mutex log_mutex;  // held over the operation and its line, so that their order is one and the same

template <typename Function>
Function* real(const char* name) {
    return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

bool is_watched(std::string_view path) {
    static const char* const folder = ::getenv("FOOTING_SHIM_FOLDER");
    return folder != nullptr && path.substr(0, std::string_view(folder).size()) == folder;
}

bool is_watched(int file) {
    char path[4096];
    const std::string link = "/proc/self/fd/" + std::to_string(file);
    const ssize_t length = ::readlink(link.c_str(), path, sizeof path);
    return length > 0 && is_watched(std::string_view(path, static_cast<std::size_t>(length)));
}

struct stat facts_of(int file) {
    struct stat facts {};
    ::fstat(file, &facts);
    return facts;
}

void note(FileOperation::Kind kind, std::uint64_t inode, std::uint64_t offset, std::string_view first,
          std::string_view second = {}) {
    static const int log = real<int(const char*, int, ...)>("open")(
        ::getenv("FOOTING_SHIM_LOG"), O_WRONLY | O_CREAT | O_APPEND | O_CLOEXEC, 0600);
    static auto* const put = real<ssize_t(int, const void*, std::size_t)>("write");
    const FileOperation::Head head{kind, inode, offset, first.size(), second.size()};
    std::string line(reinterpret_cast<const char*>(&head), sizeof head);
    line.append(first).append(second);
    if (put(log, line.data(), line.size()) != static_cast<ssize_t>(line.size())) ::abort();
}

ssize_t noted_write(int file, const void* bytes, std::size_t count, std::uint64_t offset, ssize_t written) {
    if (written > 0) {
        note(FileOperation::Kind::write, facts_of(file).st_ino, offset,
             {static_cast<const char*>(bytes), std::min(count, static_cast<std::size_t>(written))});
    }
    return written;
}

int noted_open(const char* symbol, const char* path, int flags, mode_t mode) {
    const auto open_it = [&] { return real<int(const char*, int, ...)>(symbol)(path, flags, mode); };
    if ((flags & O_CREAT) == 0 || !is_watched(path)) return open_it();
    const std::lock_guard lock(log_mutex);
    const bool was_there = ::access(path, F_OK) == 0;
    const int file = open_it();
    if (file >= 0 && !was_there) note(FileOperation::Kind::create, facts_of(file).st_ino, 0, path);
    return file;
}

ssize_t noted_pwrite(const char* symbol, int file, const void* bytes, std::size_t count, off_t offset) {
    const auto write_it = [&] {
        return real<ssize_t(int, const void*, std::size_t, off_t)>(symbol)(file, bytes, count, offset);
    };
    if (!is_watched(file)) return write_it();
    const std::lock_guard lock(log_mutex);
    return noted_write(file, bytes, count, static_cast<std::uint64_t>(offset), write_it());
}

int noted_truncate(const char* symbol, int file, off_t length) {
    const auto cut = [&] { return real<int(int, off_t)>(symbol)(file, length); };
    if (!is_watched(file)) return cut();
    const std::lock_guard lock(log_mutex);
    const int done = cut();
    if (done == 0)
        note(FileOperation::Kind::truncate, facts_of(file).st_ino, static_cast<std::uint64_t>(length), {});
    return done;
}

int noted_sync(const char* symbol, int file) {
    const auto sync_it = [&] { return real<int(int)>(symbol)(file); };
    if (!is_watched(file)) return sync_it();
    const std::lock_guard lock(log_mutex);
    const int done = sync_it();
    const struct stat facts = facts_of(file);
    if (done == 0) {
        note(S_ISDIR(facts.st_mode) ? FileOperation::Kind::sync_folder : FileOperation::Kind::sync,
             facts.st_ino, 0, {});
    }
    return done;
}

template <typename Operation>
int noted_names(FileOperation::Kind kind, const char* from, const char* to, Operation operation) {
    if (!is_watched(from)) return operation();
    const std::lock_guard lock(log_mutex);
    const int done = operation();
    if (done == 0) note(kind, 0, 0, from, to);
    return done;
}

mode_t mode_of(int flags, va_list arguments) {
    return (flags & O_CREAT) != 0 ? static_cast<mode_t>(va_arg(arguments, int)) : 0;
}

}  // namespace

extern "C" {

int setsockopt(int socket, int level, int option, const void* value, socklen_t length) {
    static const char* const most = ::getenv("FOOTING_SHIM_BUFFER");
    auto* const set = real<int(int, int, int, const void*, socklen_t)>("setsockopt");
    if (most != nullptr && level == SOL_SOCKET && (option == SO_RCVBUF || option == SO_RCVBUFFORCE)) {
        const int granted = std::min(std::atoi(most), *static_cast<const int*>(value));
        return set(socket, level, option, &granted, sizeof granted);
    }
    return set(socket, level, option, value, length);
}

int open(const char* path, int flags, ...) {
    va_list arguments;
    va_start(arguments, flags);
    const mode_t mode = mode_of(flags, arguments);
    va_end(arguments);
    return noted_open("open", path, flags, mode);
}
int open64(const char* path, int flags, ...) {
    va_list arguments;
    va_start(arguments, flags);
    const mode_t mode = mode_of(flags, arguments);
    va_end(arguments);
    return noted_open("open64", path, flags, mode);
}
ssize_t write(int file, const void* bytes, std::size_t count) {
    const auto write_it = [&] {
        return real<ssize_t(int, const void*, std::size_t)>("write")(file, bytes, count);
    };
    if (!is_watched(file)) return write_it();
    const std::lock_guard lock(log_mutex);
    const bool at_end = (::fcntl(file, F_GETFL) & O_APPEND) != 0;
    const auto offset = at_end ? facts_of(file).st_size : ::lseek(file, 0, SEEK_CUR);
    return noted_write(file, bytes, count, static_cast<std::uint64_t>(offset), write_it());
}
ssize_t pwrite(int file, const void* bytes, std::size_t count, off_t offset) {
    return noted_pwrite("pwrite", file, bytes, count, offset);
}
ssize_t pwrite64(int file, const void* bytes, std::size_t count, off_t offset) {
    return noted_pwrite("pwrite64", file, bytes, count, offset);
}
int ftruncate(int file, off_t length) noexcept {
    return noted_truncate("ftruncate", file, length);
}
int ftruncate64(int file, off_t length) noexcept {
    return noted_truncate("ftruncate64", file, length);
}
int fsync(int file) {
    return noted_sync("fsync", file);
}
int fdatasync(int file) {
    return noted_sync("fdatasync", file);
}
int rename(const char* from, const char* to) noexcept {
    return noted_names(FileOperation::Kind::rename, from, to,
                       [&] { return real<int(const char*, const char*)>("rename")(from, to); });
}
int renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) noexcept {
    return noted_names(FileOperation::Kind::rename, from, to, [&] {
        return real<int(int, const char*, int, const char*, unsigned)>("renameat2")(from_folder, from,
                                                                                    to_folder, to, flags);
    });
}
int link(const char* from, const char* to) noexcept {
    return noted_names(FileOperation::Kind::link, from, to,
                       [&] { return real<int(const char*, const char*)>("link")(from, to); });
}
int unlink(const char* path) noexcept {
    return noted_names(FileOperation::Kind::unlink, path, "",
                       [&] { return real<int(const char*)>("unlink")(path); });
}
int remove(const char* path) noexcept {
    return noted_names(FileOperation::Kind::unlink, path, "",
                       [&] { return real<int(const char*)>("remove")(path); });
}

}  // extern "C"
