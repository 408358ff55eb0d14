#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"
#include "acquisition/record/append_file.h"
#include "acquisition/record/journal_format.h"
#include "acquisition/record/recording.h"

namespace footing {

/// Writes the journal (journal_format.h). Collects frames into batches; each batch is one `write`, at most 15
/// ms after its first frame as long as keep_up() is called that often, and the disk is synced each second. So
/// a killed program loses 15 ms, a computer that loses power about a second. One thread owns it. Times are
/// steady-clock nanoseconds, given by the caller.
class JournalWriter {
  public:
    /// Creates the file exclusively and writes what is known at the start. Fails with command_line when
    /// `path` exists, disk_failed otherwise.
    [[nodiscard]] static Result<JournalWriter> create(const std::filesystem::path& path,
                                                      const RecordingInfo& info, std::int64_t now_ns);
    /// The same on any file, for tests.
    [[nodiscard]] static Result<JournalWriter> create(std::unique_ptr<AppendFile> file,
                                                      const RecordingInfo& info, std::int64_t now_ns);

    /// All of these fail with disk_failed; after a failure call only close_after_failure().
    /// `device`: 0 where there is only one, else its number from 1 to RecordingInfo::devices.
    [[nodiscard]] Outcome append(const FrameView& frame, std::int64_t now_ns, std::uint16_t device = 0);
    [[nodiscard]] Outcome append(const Gap& gap, std::uint16_t device = 0);
    [[nodiscard]] Outcome append(const RecordingNote& note);
    [[nodiscard]] Outcome append(const SwingMark& swing);

    /// Writes and syncs what is due. `losses_so_far` goes into the file every ten seconds, so that they
    /// survive a kill.
    [[nodiscard]] Outcome keep_up(std::int64_t now_ns, const LossCounters& losses_so_far);

    /// Writes what is left and the end record, and syncs.
    [[nodiscard]] Outcome close(const RecordingInfo& final_facts);

    /// Drops the half-written record at the end and writes the end record if there is room for it. What had
    /// been flushed stays. The file is a good journal either way.
    void close_after_failure(const RecordingInfo& final_facts);

    [[nodiscard]] std::uint64_t bytes_written() const { return bytes_written_; }
    /// Frames that are in the file, not those still waiting in the batch.
    [[nodiscard]] std::uint64_t frames_written() const { return frames_written_; }

  private:
    JournalWriter(std::unique_ptr<AppendFile> file, RecordingInfo info);

    /// Frames of one device on their way to the file.
    struct Batch {
        std::vector<std::byte> record;  ///< room for it
        std::size_t bytes = 0;          ///< how much of it is filled; 0 when it is not begun
        std::uint32_t frames = 0;
        std::uint32_t values = 0;
        journal::ValueType type = journal::ValueType::int32;
        std::uint16_t device = 0;
        std::int64_t began_ns = 0;
    };

    static void begin(Batch& batch, journal::ValueType type, std::uint32_t values, std::int64_t now_ns);
    Outcome flush(Batch& batch);
    Outcome flush_all();
    Outcome write_record(journal::RecordType type, std::span<const std::byte> payload);
    Outcome write_info(journal::RecordType type, const RecordingInfo& info);
    Outcome write_bytes(std::span<const std::byte> bytes);
    void put_head(std::span<std::byte> record, journal::RecordType type);

    std::unique_ptr<AppendFile> file_;
    RecordingInfo info_;
    std::uint32_t salt_ = 0;
    std::uint32_t sequence_ = 0;
    std::vector<Batch> batches_;  ///< one a device
    std::int64_t synced_ns_ = 0;
    std::int64_t told_ns_ = 0;
    std::uint64_t bytes_written_ = 0;
    std::uint64_t bytes_synced_ = 0;
    std::uint64_t frames_written_ = 0;
};

}  // namespace footing
