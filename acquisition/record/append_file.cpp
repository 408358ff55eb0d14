#include "acquisition/record/append_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>

#include "acquisition/record/file_steps.h"

namespace footing {

namespace {

class DiskFile final : public AppendFile {
  public:
    DiskFile(int file, std::filesystem::path path) : file_(file), path_(std::move(path)) {}
    DiskFile(const DiskFile&) = delete;
    DiskFile& operator=(const DiskFile&) = delete;
    ~DiskFile() override { ::close(file_); }

    Outcome append(std::span<const std::byte> bytes) override {
        while (!bytes.empty()) {
            const ssize_t written = ::write(file_, bytes.data(), bytes.size());
            if (written < 0) {
                if (errno == EINTR) continue;
                return disk_problem(path_, "be written", errno);
            }
            bytes = bytes.subspan(static_cast<std::size_t>(written));
        }
        return Done{};
    }

    Outcome sync() override {
        if (::fdatasync(file_) != 0) return disk_problem(path_, "be synced to the disk", errno);
        return Done{};
    }

    Outcome cut_to(std::uint64_t bytes) override {
        if (::ftruncate(file_, static_cast<off_t>(bytes)) != 0)
            return disk_problem(path_, "be cut off", errno);
        return Done{};
    }

  private:
    int file_;
    std::filesystem::path path_;
};

}  // namespace

Result<std::unique_ptr<AppendFile>> create_append_file(const std::filesystem::path& path) {
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC, 0644);
    if (file < 0) {
        if (errno == EEXIST) return exists_already(path);
        return disk_problem(path, "be created", errno);
    }
    ::flock(file, LOCK_EX | LOCK_NB);
    auto created = std::make_unique<DiskFile>(file, path);
    if (Outcome kept = sync_folder_of(path); !kept.ok()) return kept.problem();
    return std::unique_ptr<AppendFile>(std::move(created));
}

}  // namespace footing
