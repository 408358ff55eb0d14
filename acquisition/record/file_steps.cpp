#include "acquisition/record/file_steps.h"

#include <fcntl.h>
#include <sys/random.h>
#include <sys/statvfs.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <limits>
#include <random>

#include <fmt/format.h>

namespace footing {

namespace {

std::filesystem::path folder_of(const std::filesystem::path& path) {
    return path.has_parent_path() ? path.parent_path() : std::filesystem::path(".");
}

/// Opens, syncs and closes; 0 or the error's number.
int sync_path(const std::filesystem::path& path, int flags) {
    const int file = ::open(path.c_str(), flags | O_CLOEXEC);
    if (file < 0) return errno;
    const int error = ::fsync(file) == 0 ? 0 : errno;
    ::close(file);
    return error;
}

void fill_with_chance(std::array<std::uint8_t, 16>& bytes) {
    if (::getrandom(bytes.data(), bytes.size(), 0) == static_cast<ssize_t>(bytes.size())) return;
    std::random_device chance;
    for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(chance());
}

}  // namespace

Problem disk_problem(const std::filesystem::path& path, const std::string& what, int error_number) {
    Problem problem{ProblemKind::disk_failed, path.string(),
                    fmt::format("could not {}: {}", what, std::strerror(error_number)), ""};
    switch (error_number) {
        case ENOSPC:
        case EDQUOT:
            problem.what = "the disk is full";
            problem.remedy = "free some space";
            break;
        case EFBIG:
            problem.what = "no larger file is allowed on this disk";
            problem.remedy = "record shorter lessons, or on another disk";
            break;
        case EACCES:
        case EPERM:
        case EROFS:
            problem.remedy = "choose a folder in which you may write";
            break;
        case ELOOP:
        case ENAMETOOLONG:
            problem.remedy = "choose another name";
            break;
        case ENOENT:
        case ENOTDIR:
            problem.remedy = "the folder does not exist: make it first";
            break;
        case EISDIR:
            problem.remedy = "name a file, not a folder";
            break;
        default:
            break;
    }
    return problem;
}

bool is_there(const std::filesystem::path& path) {
    std::error_code ignored;
    return std::filesystem::exists(path, ignored);
}

int write_all(int file, std::string_view bytes) {
    while (!bytes.empty()) {
        const ssize_t written = ::write(file, bytes.data(), bytes.size());
        if (written < 0 && errno == EINTR) continue;
        if (written < 0) return errno;
        bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return 0;
}

Problem exists_already(const std::filesystem::path& path) {
    return {ProblemKind::command_line, path.string(), "exists already and is never overwritten",
            "choose another name or move it away"};
}

std::filesystem::path temporary_beside(const std::filesystem::path& target) {
    std::filesystem::path name = target;
    name += "." + new_uuid().substr(0, 8) + ".tmp";
    return name;
}

Outcome publish(const std::filesystem::path& temporary, const std::filesystem::path& target) {
    if (const int error = sync_path(temporary, O_RDONLY); error != 0) {
        return disk_problem(target, "be synced to the disk", error);
    }
    if (::renameat2(AT_FDCWD, temporary.c_str(), AT_FDCWD, target.c_str(), RENAME_NOREPLACE) != 0) {
        if (errno == EEXIST) return exists_already(target);
        if (errno != EINVAL && errno != ENOSYS) return disk_problem(target, "be named", errno);
        // A file system without the flag: a hard link never replaces either.
        if (::link(temporary.c_str(), target.c_str()) != 0) {
            return errno == EEXIST ? exists_already(target) : disk_problem(target, "be named", errno);
        }
        ::unlink(temporary.c_str());
    }
    return sync_folder_of(target);
}

Outcome sync_folder_of(const std::filesystem::path& path) {
    const int error = sync_path(folder_of(path), O_RDONLY | O_DIRECTORY);
    if (error != 0 && error != EINVAL) return disk_problem(folder_of(path), "be synced to the disk", error);
    return Done{};
}

std::uint64_t free_bytes_beside(const std::filesystem::path& path) {
    struct statvfs facts {};
    if (::statvfs(folder_of(path).c_str(), &facts) != 0) return std::numeric_limits<std::uint64_t>::max();
    return static_cast<std::uint64_t>(facts.f_bavail) * facts.f_frsize;
}

std::string new_uuid() {
    std::array<std::uint8_t, 16> bytes{};
    fill_with_chance(bytes);
    bytes[6] = static_cast<std::uint8_t>((bytes[6] & 0x0FU) | 0x40U);
    bytes[8] = static_cast<std::uint8_t>((bytes[8] & 0x3FU) | 0x80U);
    std::string text;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        if (i == 4 || i == 6 || i == 8 || i == 10) text += '-';
        text += fmt::format("{:02x}", bytes[i]);
    }
    return text;
}

}  // namespace footing
