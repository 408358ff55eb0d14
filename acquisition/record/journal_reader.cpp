#include "acquisition/record/journal_reader.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <string_view>
#include <utility>

#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/record/recording_json.h"

namespace footing {

namespace {

using journal::RecordType;
using journal::ValueType;

constexpr std::size_t most_record_bytes = journal::least_record_bytes + journal::most_payload_bytes;
constexpr std::size_t buffer_size = 4 * most_record_bytes;

std::size_t bytes_of(ValueType type) {
    switch (type) {
        case ValueType::int32:
            return sizeof(std::int32_t);
        case ValueType::uint16:
            return sizeof(std::uint16_t);
        case ValueType::float64:
            return sizeof(double);
    }
    return 0;
}

/// Physical values may stand for every kind of frame; raw counts only for the kind that has them.
bool belongs(ValueType type, FrameKind kind) {
    if (type == ValueType::float64) return true;
    return (type == ValueType::int32) == (kind == FrameKind::cells) && kind != FrameKind::components;
}

template <typename Value>
void read_values(FrameBlock& block, std::span<const std::byte> rows) {
    const std::size_t row_bytes = block.values_per_frame * sizeof(Value);
    std::vector<Value> values(block.size() * block.values_per_frame);
    for (std::size_t i = 0; row_bytes != 0 && i < block.size(); ++i) {
        std::memcpy(values.data() + i * block.values_per_frame,
                    rows.data() + i * (journal::stamp_bytes + row_bytes) + journal::stamp_bytes, row_bytes);
    }
    block.values = std::move(values);
}

}  // namespace

Result<JournalReader> JournalReader::open(const std::filesystem::path& path) {
    Result<ReadOnlyFile> file = ReadOnlyFile::open(path);
    if (!file.ok()) return file.problem();
    JournalReader reader(std::move(file).value());
    if (!reader.find_salt()) {
        return Problem{ProblemKind::bad_input, path.string(), "is not a journal of this program",
                       "name a recording (.h5) or its journal"};
    }
    if (!reader.find_info()) {
        return Problem{ProblemKind::bad_input, path.string(),
                       "the journal ends before it says what was recorded; there is nothing to recover", ""};
    }
    return reader;
}

std::optional<JournalItem> JournalReader::next() {
    while (const std::optional<Record> record = next_record()) {
        const std::span<const std::byte> payload = record->payload;
        const std::string_view text(reinterpret_cast<const char*>(payload.data()), payload.size());
        switch (record->type) {
            case RecordType::info:
            case RecordType::end: {
                Result<RecordingInfo> info = parse_recording_json(text, "journal");
                if (!info.ok()) break;
                if (record->type == RecordType::end) return JournalEnd{std::move(info).value()};
                // The layout stays as it was first told: the frames before it were read by it.
                info_.losses = info.value().losses;
                continue;
            }
            case RecordType::frames:
                if (std::optional<JournalItem> frames = read_batch(payload)) return frames;
                break;
            case RecordType::gap:
                if (std::optional<JournalItem> gap = read_gap(payload)) return gap;
                break;
            case RecordType::note:
                if (payload.size() < journal::note_head_bytes) break;
                return RecordingNote{read_little_endian<std::int64_t>(payload, 0),
                                     std::string(text.substr(journal::note_head_bytes))};
            case RecordType::swing:
                if (payload.size() != journal::swing_bytes) break;
                return SwingMark{read_little_endian<double>(payload, 0),
                                 read_little_endian<double>(payload, 8)};
        }
        // A good checksum about nonsense: written by another version or by a stranger.
        ++damage_.damaged_places;
        damage_.damaged_bytes += payload.size() + journal::least_record_bytes;
    }
    return std::nullopt;
}

std::optional<JournalReader::Record> JournalReader::next_record() {
    while (position_ < file_.size()) {
        const std::optional<Record> record = record_here();
        if (!record) {
            skip_damage();
            continue;
        }
        const std::span<const std::byte> bytes = window(record->payload.size() + journal::least_record_bytes);
        const auto sequence = read_little_endian<std::uint32_t>(bytes, journal::sequence_offset);
        position_ += bytes.size();
        if (sequence < next_sequence_) {  // a block that the disk wrote a second time
            ++damage_.damaged_places;
            damage_.damaged_bytes += bytes.size();
            continue;
        }
        damage_.missing_records += sequence - next_sequence_;
        next_sequence_ = sequence + 1;
        return record;
    }
    return std::nullopt;
}

std::optional<JournalReader::Record> JournalReader::record_here() {
    const std::span<const std::byte> head = window(journal::least_record_bytes);
    if (head.size() < journal::least_record_bytes) return std::nullopt;
    const auto length = read_little_endian<std::uint32_t>(head, journal::length_offset);
    if (read_little_endian<std::uint32_t>(head, journal::magic_offset) != journal::record_magic ||
        read_little_endian<std::uint32_t>(head, journal::salt_offset) != salt_ ||
        read_little_endian<std::uint16_t>(head, journal::version_offset) != journal::version ||
        length > journal::most_payload_bytes) {
        return std::nullopt;
    }
    const std::size_t size = journal::least_record_bytes + length;
    const std::span<const std::byte> bytes = window(size);
    if (bytes.size() < size) return std::nullopt;
    const std::size_t end = size - journal::checksum_bytes;
    if (read_little_endian<std::uint32_t>(bytes, end) != crc32c(bytes.first(end))) return std::nullopt;
    return Record{static_cast<RecordType>(read_little_endian<std::uint16_t>(bytes, journal::type_offset)),
                  bytes.subspan(journal::payload_offset, length)};
}

/// The salt from the preamble, or where that is damaged from the first record that is whole under its own
/// salt.
bool JournalReader::find_salt() {
    const std::span<const std::byte> preamble = window(journal::preamble_bytes);
    if (preamble.size() < journal::preamble_bytes) return false;
    salt_ = read_little_endian<std::uint32_t>(preamble, journal::preamble_salt_offset);
    const bool whole =
        std::memcmp(preamble.data(), journal::preamble_magic.data(), journal::preamble_magic.size()) == 0 &&
        read_little_endian<std::uint32_t>(preamble, journal::preamble_checksum_offset) ==
            crc32c(preamble.first(journal::preamble_checksum_offset));
    position_ = journal::preamble_bytes;
    if (whole) return true;
    constexpr std::size_t search_bytes = std::size_t{1} << 16;
    for (position_ = 0; position_ < std::min<std::uint64_t>(file_.size(), search_bytes); ++position_) {
        const std::span<const std::byte> head = window(journal::least_record_bytes);
        if (head.size() < journal::least_record_bytes) return false;
        if (read_little_endian<std::uint32_t>(head, journal::magic_offset) != journal::record_magic) continue;
        salt_ = read_little_endian<std::uint32_t>(head, journal::salt_offset);
        if (record_here()) {
            ++damage_.damaged_places;
            damage_.damaged_bytes += position_;
            return true;
        }
    }
    return false;
}

/// Looks ahead for the first facts, then goes back to where it was: frames may stand before them if the first
/// info record is damaged.
bool JournalReader::find_info() {
    const std::uint64_t begin = position_;
    const JournalDamage before = damage_;
    bool found = false;
    while (!found) {
        const std::optional<Record> record = next_record();
        if (!record) break;
        if (record->type != RecordType::info && record->type != RecordType::end) continue;
        Result<RecordingInfo> info = parse_recording_json(
            {reinterpret_cast<const char*>(record->payload.data()), record->payload.size()}, "journal");
        if (!info.ok()) continue;
        info_ = std::move(info).value();
        found = true;
    }
    position_ = begin;
    damage_ = before;
    next_sequence_ = 0;
    return found;
}

/// From a place that is no record to the next one, or to the end of the file.
void JournalReader::skip_damage() {
    const std::uint64_t begin = position_;
    std::array<std::byte, 8> sought{};
    write_little_endian(std::span(sought), 0, journal::record_magic);
    write_little_endian(std::span(sought), 4, salt_);
    ++position_;
    while (position_ < file_.size()) {
        const std::span<const std::byte> ahead = window(most_record_bytes);
        const void* at = ::memmem(ahead.data(), ahead.size(), sought.data(), sought.size());
        if (at == nullptr) {
            position_ += std::max<std::size_t>(1, ahead.size() - std::min(ahead.size(), sought.size() - 1));
            continue;
        }
        position_ += static_cast<std::uint64_t>(static_cast<const std::byte*>(at) - ahead.data());
        if (record_here()) {
            ++damage_.damaged_places;
            damage_.damaged_bytes += position_ - begin;
            return;
        }
        ++position_;
    }
    position_ = file_.size();
    damage_.cut_off_bytes += position_ - begin;
}

/// Of a recording of one device there is only number 0, of several there are only their numbers.
bool JournalReader::is_device(std::uint16_t number) const {
    return info_.devices.empty() ? number == 0 : number >= 1 && number <= info_.devices.size();
}

std::optional<JournalItem> JournalReader::read_gap(std::span<const std::byte> payload) {
    const bool of_several = payload.size() == journal::device_gap_bytes;
    if (!of_several && payload.size() != journal::gap_bytes) return std::nullopt;
    const auto number =
        of_several ? read_little_endian<std::uint16_t>(payload, journal::gap_bytes) : std::uint16_t{0};
    if (!is_device(number)) return std::nullopt;
    const Gap gap{
        read_little_endian<std::uint64_t>(payload, 0), read_little_endian<std::uint64_t>(payload, 8),
        read_little_endian<std::uint64_t>(payload, 16), read_little_endian<std::uint64_t>(payload, 24)};
    if (number == 0) return gap;
    return DeviceGap{static_cast<std::size_t>(number - 1), gap};
}

std::optional<JournalItem> JournalReader::read_batch(std::span<const std::byte> payload) {
    if (payload.size() < journal::batch_head_bytes) return std::nullopt;
    const auto frames = read_little_endian<std::uint32_t>(payload, journal::batch_frames_offset);
    const auto type =
        static_cast<ValueType>(read_little_endian<std::uint16_t>(payload, journal::batch_value_type_offset));
    const auto values = read_little_endian<std::uint32_t>(payload, journal::batch_values_offset);
    const auto number = read_little_endian<std::uint16_t>(payload, journal::batch_device_offset);
    if (!is_device(number)) return std::nullopt;
    const PlateLayout& layout = number == 0 ? info_.device.layout : info_.devices[number - 1U].device.layout;
    if (bytes_of(type) == 0 || values != values_per_frame(layout) ||
        !belongs(type, info_.device.layout.kind) || (value_type_ && *value_type_ != type)) {
        return std::nullopt;
    }
    const std::span<const std::byte> rows = payload.subspan(journal::batch_head_bytes);
    const std::size_t row_bytes = journal::stamp_bytes + values * bytes_of(type);
    if (rows.size() != std::uint64_t{frames} * row_bytes) return std::nullopt;
    value_type_ = type;

    FrameBlock block;
    block.values_per_frame = values;
    block.stamps.resize(frames);
    for (std::size_t i = 0; i < frames; ++i) {
        const std::span<const std::byte> row = rows.subspan(i * row_bytes, row_bytes);
        block.stamps[i] = {read_little_endian<std::uint64_t>(row, journal::stamp_counter_offset),
                           read_little_endian<std::uint64_t>(row, journal::stamp_device_time_offset),
                           read_little_endian<std::int64_t>(row, journal::stamp_host_time_offset),
                           read_little_endian<std::uint16_t>(row, journal::stamp_inputs_offset)};
    }
    switch (type) {
        case ValueType::int32:
            read_values<std::int32_t>(block, rows);
            break;
        case ValueType::uint16:
            read_values<std::uint16_t>(block, rows);
            break;
        case ValueType::float64:
            read_values<double>(block, rows);
            break;
    }
    if (number != 0) return DeviceFrames{number - 1U, std::move(block)};
    return block;
}

/// Up to `bytes` bytes from position_ on; fewer at the end of the file. Valid until the next call.
std::span<const std::byte> JournalReader::window(std::size_t bytes) {
    const std::uint64_t buffer_end = buffer_begin_ + buffer_bytes_;
    const bool inside = position_ >= buffer_begin_ && position_ < buffer_end &&
                        (position_ + bytes <= buffer_end || buffer_end == file_.size());
    if (!inside) {
        buffer_.resize(static_cast<std::size_t>(std::min<std::uint64_t>(buffer_size, file_.size())));
        buffer_begin_ = position_;
        buffer_bytes_ = file_.read_at(position_, buffer_);
    }
    const std::size_t from = static_cast<std::size_t>(position_ - buffer_begin_);
    return std::span<const std::byte>(buffer_).subspan(from, std::min(bytes, buffer_bytes_ - from));
}

bool looks_like_journal(const std::filesystem::path& path) {
    if (path.string().ends_with(journal::file_suffix)) return true;
    Result<ReadOnlyFile> file = ReadOnlyFile::open(path);
    if (!file.ok()) return false;
    std::array<std::byte, journal::preamble_magic.size()> begin{};
    return file.value().read_at(0, begin) == begin.size() &&
           std::memcmp(begin.data(), journal::preamble_magic.data(), begin.size()) == 0;
}

std::filesystem::path journal_of(const std::filesystem::path& target) {
    return target.string() + std::string(journal::file_suffix);
}

}  // namespace footing
