#include "acquisition/record/append_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <condition_variable>
#include <mutex>
#include <system_error>
#include <thread>
#include <utility>

#include "acquisition/record/file_steps.h"

namespace footing {

namespace {

/// Calls fdatasync on a thread of its own whenever it is asked to.
class Syncer {
  public:
    explicit Syncer(int file) : file_(file), thread_([this] { run(); }) {}
    Syncer(const Syncer&) = delete;
    Syncer& operator=(const Syncer&) = delete;
    ~Syncer() {
        {
            const std::lock_guard lock(mutex_);
            state_ = State::ended;
        }
        wake_.notify_one();
        thread_.join();
    }

    void ask() {
        {
            const std::lock_guard lock(mutex_);
            state_ = State::asked;
        }
        wake_.notify_one();
    }
    /// Number of the error of the first request that failed; 0 while none has.
    [[nodiscard]] int error() const { return error_.load(std::memory_order_acquire); }

  private:
    enum class State { idle, asked, ended };

    void run() {
        std::unique_lock lock(mutex_);
        while (true) {
            wake_.wait(lock, [this] { return state_ != State::idle; });
            if (state_ == State::ended) return;
            state_ = State::idle;
            lock.unlock();
            if (::fdatasync(file_) != 0) error_.store(errno, std::memory_order_release);
            lock.lock();
        }
    }

    int file_;
    std::mutex mutex_;
    std::condition_variable wake_;
    State state_ = State::idle;
    std::atomic<int> error_{0};
    std::thread thread_;  ///< last: it uses all of the above
};

class DiskFile final : public AppendFile {
  public:
    DiskFile(int file, std::filesystem::path temporary, std::filesystem::path target)
        : file_(file), temporary_(std::move(temporary)), path_(std::move(target)), syncer_(file) {}
    DiskFile(const DiskFile&) = delete;
    DiskFile& operator=(const DiskFile&) = delete;
    ~DiskFile() override {
        std::error_code ignored;
        if (!temporary_.empty()) std::filesystem::remove(temporary_, ignored);
    }

    Outcome append(std::span<const std::byte> bytes) override {
        while (!bytes.empty()) {
            const ssize_t written = ::write(file_.number, bytes.data(), bytes.size());
            if (written < 0) {
                if (errno == EINTR) continue;
                return disk_problem(path_, "be written", errno);
            }
            bytes = bytes.subspan(static_cast<std::size_t>(written));
        }
        return Done{};
    }

    Outcome appear() override {
        if (Outcome named = publish(temporary_, path_); !named.ok()) return named;
        temporary_.clear();
        return Done{};
    }

    Outcome sync_soon() override {
        if (syncer_.error() != 0) return disk_problem(path_, "be synced to the disk", syncer_.error());
        syncer_.ask();
        return Done{};
    }

    Outcome sync() override {
        if (::fdatasync(file_.number) != 0) return disk_problem(path_, "be synced to the disk", errno);
        return Done{};
    }

    Outcome cut_to(std::uint64_t bytes) override {
        if (::ftruncate(file_.number, static_cast<off_t>(bytes)) != 0)
            return disk_problem(path_, "be cut off", errno);
        return Done{};
    }

  private:
    /// Closes the file after the syncer has ended.
    struct Descriptor {
        explicit Descriptor(int opened) : number(opened) {}
        Descriptor(const Descriptor&) = delete;
        Descriptor& operator=(const Descriptor&) = delete;
        ~Descriptor() { ::close(number); }
        int number;
    };

    Descriptor file_;
    std::filesystem::path temporary_;  ///< empty once the file has appeared
    std::filesystem::path path_;
    Syncer syncer_;  ///< last: it uses the file
};

}  // namespace

Result<std::unique_ptr<AppendFile>> create_append_file(const std::filesystem::path& path) {
    std::error_code ignored;
    if (std::filesystem::exists(std::filesystem::symlink_status(path, ignored))) return exists_already(path);
    const std::filesystem::path temporary = temporary_beside(path);
    const int file = ::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC, 0644);
    if (file < 0) return disk_problem(path, "be created", errno);
    ::flock(file, LOCK_EX | LOCK_NB);
    return std::unique_ptr<AppendFile>(std::make_unique<DiskFile>(file, temporary, path));
}

}  // namespace footing
