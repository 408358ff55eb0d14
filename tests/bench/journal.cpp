// Journal at full speed against plain `write` of the same bytes in the same run; folding ten minutes; reading
// an hour. 1 kHz x 8 cells. The smaller of several runs counts, the others share the machine with somebody.
#include <fcntl.h>
#include <fmt/format.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string>
#include <vector>

#include "acquisition/record/fold.h"
#include "tests/record/samples.h"

namespace {

using namespace footing;
using namespace footing::samples;
using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point begin) {
    return std::chrono::duration<double>(Clock::now() - begin).count();
}

/// All frames of so many seconds, through the writer as the journal thread calls it.
double write_journal(const std::filesystem::path& path, const FrameBlock& second, std::size_t seconds,
                     std::uint64_t& bytes) {
    std::filesystem::remove(path);
    const auto begin = Clock::now();
    Result<JournalWriter> writer = JournalWriter::create(path, info_for(two_plates()), 0);
    FrameBlock block = second;
    for (std::size_t s = 0; s < seconds; ++s) {
        for (std::size_t i = 0; i < block.size(); ++i) {
            if (!writer.value().append(block.frame(i), 0).ok()) std::abort();
            block.stamps[i].counter += 1000;
            block.stamps[i].device_time_us += 1'000'000;
            block.stamps[i].host_time_ns += 1'000'000'000;
        }
    }
    if (!writer.value().close(info_for(two_plates())).ok()) std::abort();
    bytes = writer.value().bytes_written();
    return seconds_since(begin);
}

/// The same bytes in writes of the same length, and one sync at the end as close() does.
double write_plainly(const std::filesystem::path& path, std::uint64_t bytes) {
    std::filesystem::remove(path);
    const std::vector<char> buffer(journal::full_batch_bytes, 'x');
    const auto begin = Clock::now();
    const int file = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND, 0644);
    for (std::uint64_t left = bytes; left > 0;) {
        const std::size_t count = std::min<std::uint64_t>(left, buffer.size());
        if (::write(file, buffer.data(), count) != static_cast<ssize_t>(count)) std::abort();
        left -= count;
    }
    ::fdatasync(file);
    ::close(file);
    return seconds_since(begin);
}

}  // namespace

int main(int argc, char** argv) {
    std::size_t seconds = 600;
    for (int i = 1; i + 1 < argc; i += 2) {
        if (std::string(argv[i]) == "--seconds") seconds = static_cast<std::size_t>(std::atoi(argv[i + 1]));
    }
    const ScratchFolder folder;
    const FrameBlock second = cell_frames(0, 1000);

    const std::size_t long_seconds = 6 * seconds;
    // An hour's bytes, so that creating and closing do not count for much. Journal and plain write take
    // turns, so that both meet the same disk.
    std::vector<double> journal_s;
    std::vector<double> plain_s;
    std::uint64_t bytes = 0;
    for (int run = 0; run < 5; ++run) {
        journal_s.push_back(write_journal(folder / "a.journal", second, long_seconds, bytes));
        plain_s.push_back(write_plainly(folder / "plain", bytes));
    }
    const double journal_best = *std::min_element(journal_s.begin(), journal_s.end());
    const double plain_best = *std::min_element(plain_s.begin(), plain_s.end());
    fmt::print("journal: {:.1f} MB, {:.0f} MB/s; plain write {:.0f} MB/s; journal / plain {:.2f}\n",
               bytes * 1e-6, bytes * 1e-6 / journal_best, bytes * 1e-6 / plain_best,
               plain_best / journal_best);

    static_cast<void>(write_journal(folder / "a.journal", second, seconds, bytes));
    const auto fold_begin = Clock::now();
    const Result<SalvageReport> folded = fold_journal(folder / "a.journal", folder / "a.h5");
    if (!folded.ok()) {
        fmt::print(stderr, "{}\n", sentence(folded.problem()));
        return 1;
    }
    fmt::print(
        "fold of {} s (written, checked, synced): {:.2f} s; {:.1f} MB in HDF5, {:.2f} of the journal\n",
        seconds, seconds_since(fold_begin), std::filesystem::file_size(folder / "a.h5") * 1e-6,
        static_cast<double>(std::filesystem::file_size(folder / "a.h5")) / static_cast<double>(bytes));

    Result<RecordingWriter> writer = RecordingWriter::create(folder / "long.h5", info_for(two_plates()));
    for (std::size_t s = 0; s < long_seconds; ++s) {
        if (!writer.value().append(cell_frames(1000 * s, 1000)).ok()) return 1;
    }
    if (!writer.value().close(info_for(two_plates())).ok()) return 1;
    double best_s = 1e9;
    std::uint64_t frames = 0;
    for (int run = 0; run < 5; ++run) {
        const auto begin = Clock::now();
        Result<RecordingReader> reader = RecordingReader::open(folder / "long.h5");
        frames = 0;
        while (frames < reader.value().frame_count()) {
            Result<FrameBlock> block = reader.value().read(frames, 65536);
            if (!block.ok()) return 1;
            frames += block.value().size();
        }
        best_s = std::min(best_s, seconds_since(begin));
    }
    rusage used{};
    ::getrusage(RUSAGE_SELF, &used);
    fmt::print("read of {:.0f} min ({} frames): {:.2f} s; largest memory of this program {:.0f} MB\n",
               long_seconds / 60.0, frames, best_s, used.ru_maxrss / 1024.0);
    return 0;
}
