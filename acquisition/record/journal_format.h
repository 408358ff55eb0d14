#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>

/// Every name, offset, type and limit of the journal: the append-only log that is written while recording.
/// Writer: journal_writer. Reader: journal_reader. The page for people: docs/recording_format.md.
///
/// Little-endian. A preamble of 16 bytes, then records one after the other, without padding:
///
///     u32 magic | u32 salt | u16 type | u16 version | u32 sequence | u32 payload length | payload | u32
///     CRC-32C
///
/// The checksum covers all of the record before it. The salt is drawn anew for each journal, so that blocks
/// of an older file that reappear on a damaged disk are never taken for this one's. The sequence goes up by
/// one each record.
namespace footing::journal {

inline constexpr std::array<std::uint8_t, 8> preamble_magic{0x89, 'F', 'G', 'J', 'R', 'N', 'L', 0x0A};
inline constexpr std::size_t preamble_salt_offset = 8;       // u32
inline constexpr std::size_t preamble_checksum_offset = 12;  // u32, CRC-32C of the twelve bytes before it
inline constexpr std::size_t preamble_bytes = 16;

inline constexpr std::uint32_t record_magic = 0x524A4746;  ///< as bytes 'F' 'G' 'J' 'R'
inline constexpr std::uint16_t version = 1;

enum class RecordType : std::uint16_t {
    info = 1,    ///< RecordingInfo as JSON, as known so far; at the start and each info_period_ns again
    frames = 2,  ///< a batch of frames
    gap = 3,     ///< u64 after_counter, u64 frames_missing, u64 from_time_us, u64 to_time_us; of one of
                 ///< several devices: then u16 device
    note = 4,    ///< i64 host_time_ns, then UTF-8 text
    swing = 5,   ///< f64 from_s, f64 to_s
    end = 6,     ///< RecordingInfo as JSON, final; nothing follows
};

// The head of a record.
inline constexpr std::size_t magic_offset = 0;
inline constexpr std::size_t salt_offset = 4;
inline constexpr std::size_t type_offset = 8;
inline constexpr std::size_t version_offset = 10;
inline constexpr std::size_t sequence_offset = 12;
inline constexpr std::size_t length_offset = 16;
inline constexpr std::size_t payload_offset = 20;
inline constexpr std::size_t checksum_bytes = 4;
inline constexpr std::size_t least_record_bytes = payload_offset + checksum_bytes;

/// How the values of a batch are stored.
enum class ValueType : std::uint16_t { int32 = 1, uint16 = 2, float64 = 3 };

// A batch of frames: u32 frames, u16 value type, u16 device, u32 values a frame; then for each frame its
// stamp and values. The device is 0 where there is only one, else its number from 1.
inline constexpr std::size_t batch_frames_offset = 0;
inline constexpr std::size_t batch_value_type_offset = 4;
inline constexpr std::size_t batch_device_offset = 6;
inline constexpr std::size_t batch_values_offset = 8;
inline constexpr std::size_t batch_head_bytes = 12;
// The stamp: u64 counter, u64 device time in us, i64 host time in ns, u16 inputs.
inline constexpr std::size_t stamp_counter_offset = 0;
inline constexpr std::size_t stamp_device_time_offset = 8;
inline constexpr std::size_t stamp_host_time_offset = 16;
inline constexpr std::size_t stamp_inputs_offset = 24;
inline constexpr std::size_t stamp_bytes = 26;

inline constexpr std::size_t gap_bytes = 32;
inline constexpr std::size_t device_gap_bytes = 34;
inline constexpr std::size_t swing_bytes = 16;
inline constexpr std::size_t note_head_bytes = 8;

/// A batch is written when it is this long, or flush_period_ns old.
inline constexpr std::size_t full_batch_bytes = std::size_t{128} << 10;
/// No record is longer; whoever claims so is damaged.
inline constexpr std::size_t most_payload_bytes = std::size_t{1} << 20;
inline constexpr std::size_t most_note_bytes = 4096;

inline constexpr std::int64_t flush_period_ns = 15'000'000;
inline constexpr std::int64_t sync_period_ns = 1'000'000'000;
inline constexpr std::int64_t info_period_ns = 10'000'000'000;

/// "lesson.h5" is journalled in "lesson.h5.journal".
inline constexpr std::string_view file_suffix = ".journal";

}  // namespace footing::journal
