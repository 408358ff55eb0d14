#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>

/// Every offset, code and limit of the C3D file format that is read here, from the public description of the
/// format (c3d.org). Blocks are 512 bytes and counted from 1; words are 16 bits.
namespace footing::c3d {

inline constexpr std::size_t block_bytes = 512;

// The header, the first block.
inline constexpr std::size_t parameter_block_offset = 0;     // u8, block where the parameters begin
inline constexpr std::size_t key_offset = 1;                 // u8
inline constexpr std::uint8_t key = 0x50;                    // "this is C3D"
inline constexpr std::size_t point_count_offset = 2;         // word, 3-D points a frame
inline constexpr std::size_t analog_count_offset = 4;        // word, analog values a 3-D frame, all channels
inline constexpr std::size_t first_frame_offset = 6;         // word, 1-based
inline constexpr std::size_t last_frame_offset = 8;          // word
inline constexpr std::size_t point_scale_offset = 12;        // real; negative: data are reals
inline constexpr std::size_t data_block_offset = 16;         // word, block where the data begin
inline constexpr std::size_t samples_per_frame_offset = 18;  // word, analog samples a 3-D frame
inline constexpr std::size_t point_rate_offset = 20;         // real, Hz
inline constexpr std::size_t event_key_offset = 2 * 149;     // word 150
inline constexpr std::uint16_t event_key = 12345;            // labels have four characters
inline constexpr std::size_t event_count_offset = 2 * 150;   // word 151
inline constexpr std::size_t event_times_offset = 2 * 152;   // words 153 to 188, reals, seconds
inline constexpr std::size_t event_shown_offset = 2 * 188;   // words 189 to 197, bytes, 0: shown
inline constexpr std::size_t event_labels_offset = 2 * 198;  // words 199 to 234
inline constexpr std::size_t event_label_length = 4;
inline constexpr std::size_t most_header_events = 18;

// The parameter section.
inline constexpr std::size_t parameter_block_count_offset = 2;  // u8
inline constexpr std::size_t processor_offset = 3;              // u8
inline constexpr std::uint8_t processor_intel = 84;
inline constexpr std::uint8_t processor_dec = 85;
inline constexpr std::uint8_t processor_mips = 86;
inline constexpr std::size_t first_record_offset = 4;
inline constexpr std::size_t most_dimensions = 7;

/// What a parameter's elements are; the number is the bytes of one, negative for characters.
enum class ElementType : std::int8_t { character = -1, byte = 1, word = 2, real = 4 };

/// The group of a C3D file in which this program keeps what the format has no place for (groups of one's own
/// are free to everybody, c3d.org; other readers pass over them): when the lesson began, and how well its
/// loads are known.
namespace provenance {
inline constexpr std::string_view group = "FOOTING";
inline constexpr std::string_view start_utc = "START_UTC";      // text, 2026-11-25T10:20:44.123Z
inline constexpr std::string_view zone = "ZONE";                // text, IANA name
inline constexpr std::string_view method = "CALIBRATION";       // text, how it was calibrated
inline constexpr std::string_view made = "CALIBRATED";          // text, ISO 8601 date, may be empty
inline constexpr std::string_view valid_until = "VALID_UNTIL";  // text, ISO 8601 date, may be empty
inline constexpr std::string_view relative_u = "LOAD_U";        // real, fraction: u of a plate's load
inline constexpr std::string_view common_u = "COMMON_U";        // real, fraction: what all plates share of it
inline constexpr std::string_view only_ratios = "ONLY_RATIOS";  // word, 1: newtons are a guess
}  // namespace provenance

/// A 3-D point: x, y, z and a word of residual and cameras.
inline constexpr std::size_t values_per_point = 4;

}  // namespace footing::c3d
