#include "acquisition/record/journal_writer.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <random>
#include <utility>

#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/record/recording_json.h"

namespace footing {

namespace {

using journal::RecordType;
using journal::ValueType;

template <typename Value>
constexpr ValueType type_of() {
    if constexpr (std::is_same_v<Value, std::int32_t>) return ValueType::int32;
    if constexpr (std::is_same_v<Value, std::uint16_t>) return ValueType::uint16;
    return ValueType::float64;
}

/// Writes the checksum of all before it into the last four bytes.
void seal(std::span<std::byte> bytes) {
    const std::size_t end = bytes.size() - journal::checksum_bytes;
    write_little_endian(bytes, end, crc32c(bytes.first(end)));
}

}  // namespace

JournalWriter::JournalWriter(std::unique_ptr<AppendFile> file, RecordingInfo info)
    : file_(std::move(file)), info_(std::move(info)), salt_(std::random_device{}()) {}

Result<JournalWriter> JournalWriter::create(const std::filesystem::path& path, const RecordingInfo& info,
                                            std::int64_t now_ns) {
    Result<std::unique_ptr<AppendFile>> file = create_append_file(path);
    if (!file.ok()) return file.problem();
    return create(std::move(file.value()), info, now_ns);
}

Result<JournalWriter> JournalWriter::create(std::unique_ptr<AppendFile> file, const RecordingInfo& info,
                                            std::int64_t now_ns) {
    JournalWriter writer(std::move(file), info);
    std::array<std::byte, journal::preamble_bytes> preamble{};
    std::memcpy(preamble.data(), journal::preamble_magic.data(), journal::preamble_magic.size());
    write_little_endian(std::span(preamble), journal::preamble_salt_offset, writer.salt_);
    seal(preamble);
    if (Outcome done = writer.write_bytes(preamble); !done.ok()) return done.problem();
    if (Outcome done = writer.write_info(RecordType::info, info); !done.ok()) return done.problem();
    if (Outcome done = writer.file_->appear(); !done.ok()) return done.problem();
    writer.synced_ns_ = now_ns;
    writer.told_ns_ = now_ns;
    writer.bytes_synced_ = writer.bytes_written_;
    return writer;
}

Outcome JournalWriter::append(const FrameView& frame, std::int64_t now_ns, std::uint16_t device) {
    while (batches_.size() <= device) {
        batches_.emplace_back();
        batches_.back().device = static_cast<std::uint16_t>(batches_.size() - 1);
    }
    Batch& batch = batches_[device];
    return std::visit(
        [&]<typename Value>(std::span<const Value> values) -> Outcome {
            const std::size_t frame_bytes = journal::stamp_bytes + values.size_bytes();
            const auto count = static_cast<std::uint32_t>(values.size());
            constexpr ValueType type = type_of<Value>();
            const bool fits = batch.bytes != 0 && type == batch.type && count == batch.values &&
                              batch.bytes + frame_bytes + journal::checksum_bytes <= batch.record.size();
            if (!fits) {
                if (Outcome done = flush(batch); !done.ok()) return done;
                begin(batch, type, count, now_ns);
            }
            const std::span<std::byte> room = std::span(batch.record).subspan(batch.bytes);
            write_little_endian(room, journal::stamp_counter_offset, frame.stamp.counter);
            write_little_endian(room, journal::stamp_device_time_offset, frame.stamp.device_time_us);
            write_little_endian(room, journal::stamp_host_time_offset, frame.stamp.host_time_ns);
            write_little_endian(room, journal::stamp_inputs_offset, frame.stamp.inputs);
            if (!values.empty()) {
                std::memcpy(room.data() + journal::stamp_bytes, values.data(), values.size_bytes());
            }
            batch.bytes += frame_bytes;
            ++batch.frames;
            return Done{};
        },
        frame.values);
}

Outcome JournalWriter::append(const Gap& gap, std::uint16_t device) {
    std::array<std::byte, journal::device_gap_bytes> payload{};
    write_little_endian(std::span(payload), 0, gap.after_counter);
    write_little_endian(std::span(payload), 8, gap.frames_missing);
    write_little_endian(std::span(payload), 16, gap.from_time_us);
    write_little_endian(std::span(payload), 24, gap.to_time_us);
    write_little_endian(std::span(payload), journal::gap_bytes, device);
    if (Outcome done = flush_all(); !done.ok()) return done;
    return write_record(RecordType::gap, std::span(payload).first(device == 0 ? journal::gap_bytes
                                                                              : journal::device_gap_bytes));
}

Outcome JournalWriter::append(const RecordingNote& note) {
    const std::size_t text_bytes = std::min(note.text.size(), journal::most_note_bytes);
    std::vector<std::byte> payload(journal::note_head_bytes + text_bytes);
    write_little_endian(std::span(payload), 0, note.host_time_ns);
    std::memcpy(payload.data() + journal::note_head_bytes, note.text.data(), text_bytes);
    if (Outcome done = flush_all(); !done.ok()) return done;
    return write_record(RecordType::note, payload);
}

Outcome JournalWriter::append(const SwingMark& swing) {
    std::array<std::byte, journal::swing_bytes> payload{};
    write_little_endian(std::span(payload), 0, swing.from_s);
    write_little_endian(std::span(payload), 8, swing.to_s);
    if (Outcome done = flush_all(); !done.ok()) return done;
    return write_record(RecordType::swing, payload);
}

Outcome JournalWriter::keep_up(std::int64_t now_ns, const LossCounters& losses_so_far) {
    for (Batch& batch : batches_) {
        if (batch.bytes == 0 || now_ns - batch.began_ns < journal::flush_period_ns) continue;
        if (Outcome done = flush(batch); !done.ok()) return done;
    }
    if (now_ns - told_ns_ >= journal::info_period_ns) {
        told_ns_ = now_ns;
        info_.losses = losses_so_far;
        if (Outcome done = write_info(RecordType::info, info_); !done.ok()) return done;
    }
    if (bytes_synced_ != bytes_written_ && now_ns - synced_ns_ >= journal::sync_period_ns) {
        synced_ns_ = now_ns;
        bytes_synced_ = bytes_written_;
        return file_->sync_soon();
    }
    return Done{};
}

Outcome JournalWriter::close(const RecordingInfo& final_facts) {
    if (Outcome done = flush_all(); !done.ok()) return done;
    if (Outcome done = write_info(RecordType::end, final_facts); !done.ok()) return done;
    return file_->sync();
}

void JournalWriter::close_after_failure(const RecordingInfo& final_facts) {
    // Both may fail on a full disk; the records before them are good all the same.
    if (!file_->cut_to(bytes_written_).ok()) return;
    if (!write_info(RecordType::end, final_facts).ok() && !file_->cut_to(bytes_written_).ok()) return;
    static_cast<void>(file_->sync().ok());
}

void JournalWriter::begin(Batch& batch, ValueType type, std::uint32_t values, std::int64_t now_ns) {
    const std::size_t frame_bytes = journal::stamp_bytes + std::size_t{values} * sizeof(double);
    const std::size_t needed =
        journal::payload_offset + journal::batch_head_bytes + frame_bytes + journal::checksum_bytes;
    batch.record.resize(std::max(journal::full_batch_bytes, needed));
    batch.type = type;
    batch.values = values;
    batch.frames = 0;
    batch.began_ns = now_ns;
    batch.bytes = journal::payload_offset + journal::batch_head_bytes;
}

Outcome JournalWriter::flush(Batch& batch) {
    if (batch.bytes == 0) return Done{};
    const std::span<std::byte> record = std::span(batch.record).first(batch.bytes + journal::checksum_bytes);
    const std::span<std::byte> head = record.subspan(journal::payload_offset);
    write_little_endian(head, journal::batch_frames_offset, batch.frames);
    write_little_endian(head, journal::batch_value_type_offset, static_cast<std::uint16_t>(batch.type));
    write_little_endian(head, journal::batch_device_offset, batch.device);
    write_little_endian(head, journal::batch_values_offset, batch.values);
    put_head(record, RecordType::frames);
    seal(record);
    batch.bytes = 0;
    Outcome done = write_bytes(record);
    if (done.ok()) frames_written_ += batch.frames;
    return done;
}

Outcome JournalWriter::flush_all() {
    for (Batch& batch : batches_) {
        if (Outcome done = flush(batch); !done.ok()) return done;
    }
    return Done{};
}

Outcome JournalWriter::write_record(RecordType type, std::span<const std::byte> payload) {
    std::vector<std::byte> record(journal::least_record_bytes + payload.size());
    put_head(record, type);
    if (!payload.empty())
        std::memcpy(record.data() + journal::payload_offset, payload.data(), payload.size());
    seal(record);
    return write_bytes(record);
}

Outcome JournalWriter::write_info(RecordType type, const RecordingInfo& info) {
    const std::string json = recording_json(info);
    return write_record(type, std::as_bytes(std::span(json)));
}

Outcome JournalWriter::write_bytes(std::span<const std::byte> bytes) {
    Outcome done = file_->append(bytes);
    if (done.ok()) bytes_written_ += bytes.size();
    return done;
}

void JournalWriter::put_head(std::span<std::byte> record, RecordType type) {
    const std::size_t payload_bytes = record.size() - journal::least_record_bytes;
    write_little_endian(record, journal::magic_offset, journal::record_magic);
    write_little_endian(record, journal::salt_offset, salt_);
    write_little_endian(record, journal::type_offset, static_cast<std::uint16_t>(type));
    write_little_endian(record, journal::version_offset, journal::version);
    write_little_endian(record, journal::sequence_offset, sequence_++);
    write_little_endian(record, journal::length_offset, static_cast<std::uint32_t>(payload_bytes));
}

}  // namespace footing
