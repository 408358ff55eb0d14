#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <variant>
#include <vector>

#include "acquisition/frame/frame.h"
#include "acquisition/frame/quality.h"
#include "acquisition/frame/result.h"
#include "acquisition/record/journal_format.h"
#include "acquisition/record/read_only_file.h"
#include "acquisition/record/recording.h"

namespace footing {

/// What a journal has suffered. A cut-off end is normal after a kill; the rest is not.
struct JournalDamage {
    std::uint64_t damaged_places = 0;   ///< stretches of bytes in the middle that are no record
    std::uint64_t damaged_bytes = 0;    ///< in them
    std::uint64_t missing_records = 0;  ///< by the sequence numbers
    std::uint64_t cut_off_bytes = 0;    ///< of a last record that was not finished
};

/// Frames, or a gap, of one of several devices.
struct DeviceFrames {
    std::size_t device = 0;  ///< place in RecordingInfo::devices
    FrameBlock block;
};
struct DeviceGap {
    std::size_t device = 0;
    Gap gap;
};

/// The final facts, as the journal was closed.
struct JournalEnd {
    RecordingInfo info;
};

/// What a journal hands out, in the order in which it was written.
using JournalItem =
    std::variant<FrameBlock, Gap, DeviceFrames, DeviceGap, RecordingNote, SwingMark, JournalEnd>;

/// Reads a journal, whole or hurt. Skips what is damaged, counts it, and goes on at the next good record;
/// never hands out a frame that its checksum does not vouch for, and none twice. Memory: two records. One
/// thread at a time.
class JournalReader {
  public:
    /// Fails with bad_input when this is no journal, is still being written, or holds no facts of a recording
    /// at all.
    [[nodiscard]] static Result<JournalReader> open(const std::filesystem::path& path);

    /// The newest facts read so far; from open() on those of the first info record.
    [[nodiscard]] const RecordingInfo& info() const { return info_; }

    /// The next item; nothing at the end. Frames have the shape that info() tells.
    [[nodiscard]] std::optional<JournalItem> next();

    /// Complete when next() has returned nothing.
    [[nodiscard]] const JournalDamage& damage() const { return damage_; }

  private:
    explicit JournalReader(ReadOnlyFile file) : file_(std::move(file)) {}

    struct Record {
        journal::RecordType type;
        std::span<const std::byte> payload;
    };
    std::optional<Record> next_record();
    std::optional<Record> record_here();
    bool find_salt();
    bool find_info();
    void skip_damage();
    std::optional<JournalItem> read_batch(std::span<const std::byte> payload);
    std::optional<JournalItem> read_gap(std::span<const std::byte> payload);
    bool is_device(std::uint16_t number) const;
    std::span<const std::byte> window(std::size_t bytes);

    ReadOnlyFile file_;
    RecordingInfo info_;
    std::uint32_t salt_ = 0;
    std::uint32_t next_sequence_ = 0;
    std::uint64_t position_ = 0;
    std::vector<std::byte> buffer_;
    std::uint64_t buffer_begin_ = 0;
    std::size_t buffer_bytes_ = 0;
    std::optional<journal::ValueType> value_type_;
    JournalDamage damage_;
};

/// Whether the file begins as a journal does, or its name ends as a journal's does.
[[nodiscard]] bool looks_like_journal(const std::filesystem::path& path);

/// The journal that a recording to `target` is written to first.
[[nodiscard]] std::filesystem::path journal_of(const std::filesystem::path& target);

}  // namespace footing
