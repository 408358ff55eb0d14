#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

/// Every name, type, rank and unit of a recording (HDF5, earliest file format). Writer: recording_writer.
/// Reader: recording_reader. The page for people: docs/recording_format.md.
namespace footing::recording {

inline constexpr std::string_view format_name = "footing recording";
inline constexpr std::uint32_t format_version = 1;

/// Element types as stored, all little-endian; `text` is a fixed-length UTF-8 string.
enum class ElementType { uint16, uint32, uint64, int32, int64, float64, text };

/// The value of the attribute `unit` that every dataset must have (R16). "1": a plain number; "text": none
/// possible.
namespace unit {
inline constexpr std::string_view attribute = "unit";
inline constexpr std::string_view one = "1";
inline constexpr std::string_view text = "text";
inline constexpr std::string_view count = "count";  ///< raw counts of the device
inline constexpr std::string_view microsecond = "us";
inline constexpr std::string_view nanosecond = "ns";
inline constexpr std::string_view second = "s";
inline constexpr std::string_view metre = "m";
inline constexpr std::string_view newton = "N";
inline constexpr std::string_view newton_and_newton_metre = "N and N m";  ///< Fx Fy Fz in N, Mx My Mz in N m
}  // namespace unit

/// One dataset that may stand in a recording. What is not in this list is refused.
struct DatasetFormat {
    std::string_view path;
    ElementType type;
    std::size_t rank;
    std::string_view unit;
};

namespace frames {
inline constexpr std::string_view group = "/frames";
inline constexpr DatasetFormat counter{"/frames/counter", ElementType::uint64, 1, unit::one};
inline constexpr DatasetFormat device_time{"/frames/device_time", ElementType::uint64, 1, unit::microsecond};
inline constexpr DatasetFormat host_time{"/frames/host_time", ElementType::int64, 1, unit::nanosecond};
inline constexpr DatasetFormat inputs{"/frames/inputs", ElementType::uint16, 1, unit::one};
// Exactly one of these five.
inline constexpr DatasetFormat counts{"/frames/counts", ElementType::int32, 2, unit::count};
inline constexpr DatasetFormat counts_n{"/frames/counts", ElementType::float64, 2, unit::newton};
inline constexpr DatasetFormat grid{"/frames/grid", ElementType::uint16, 3, unit::count};
inline constexpr DatasetFormat grid_n{"/frames/grid", ElementType::float64, 3, unit::newton};
inline constexpr DatasetFormat components{"/frames/components", ElementType::float64, 2,
                                          unit::newton_and_newton_metre};
}  // namespace frames

/// CRC-32C of the values of each chunk of /frames, in order; a chunk is padded with zeros to its full length.
/// May be absent.
namespace checksums {
inline constexpr std::string_view group = "/checksums";
inline constexpr DatasetFormat counter{"/checksums/counter", ElementType::uint32, 1, unit::one};
inline constexpr DatasetFormat device_time{"/checksums/device_time", ElementType::uint32, 1, unit::one};
inline constexpr DatasetFormat host_time{"/checksums/host_time", ElementType::uint32, 1, unit::one};
inline constexpr DatasetFormat inputs{"/checksums/inputs", ElementType::uint32, 1, unit::one};
inline constexpr DatasetFormat values{"/checksums/values", ElementType::uint32, 1, unit::one};
}  // namespace checksums

namespace clock {
inline constexpr std::string_view group = "/clock";
inline constexpr DatasetFormat slope{"/clock/slope", ElementType::float64, 0, unit::one};
inline constexpr DatasetFormat offset{"/clock/offset", ElementType::float64, 0, unit::nanosecond};
inline constexpr DatasetFormat residual_sd{"/clock/residual_sd", ElementType::float64, 0, unit::nanosecond};
// These four may be absent, all together.
inline constexpr DatasetFormat fit_residual{"/clock/fit_residual", ElementType::float64, 0, unit::nanosecond};
inline constexpr DatasetFormat worst_late{"/clock/worst_late", ElementType::float64, 0, unit::nanosecond};
inline constexpr DatasetFormat knot_device_time{"/clock/knot_device_time", ElementType::uint64, 1,
                                                unit::microsecond};
inline constexpr DatasetFormat knot_host_time{"/clock/knot_host_time", ElementType::int64, 1,
                                              unit::nanosecond};
inline constexpr DatasetFormat steady{"/clock/steady", ElementType::int64, 1,
                                      unit::nanosecond};                                    ///< start, end
inline constexpr DatasetFormat utc{"/clock/utc", ElementType::int64, 1, unit::nanosecond};  ///< start, end
}  // namespace clock

namespace gaps {
inline constexpr std::string_view group = "/gaps";  ///< its attributes: LossCounters by name, u64
inline constexpr DatasetFormat after_counter{"/gaps/after_counter", ElementType::uint64, 1, unit::one};
inline constexpr DatasetFormat frames_missing{"/gaps/frames_missing", ElementType::uint64, 1, unit::one};
inline constexpr DatasetFormat from_time{"/gaps/from_time", ElementType::uint64, 1, unit::microsecond};
inline constexpr DatasetFormat to_time{"/gaps/to_time", ElementType::uint64, 1, unit::microsecond};
}  // namespace gaps

namespace notes {
inline constexpr std::string_view group = "/notes";
inline constexpr DatasetFormat host_time{"/notes/host_time", ElementType::int64, 1, unit::nanosecond};
inline constexpr DatasetFormat text{"/notes/text", ElementType::text, 1, unit::text};
}  // namespace notes

namespace calibration {
inline constexpr std::string_view group = "/calibration";
inline constexpr DatasetFormat record{"/calibration/record", ElementType::text, 0,
                                      unit::text};  ///< JSON, or absent
}  // namespace calibration

namespace layout {
inline constexpr std::string_view group = "/layout";
inline constexpr std::string_view kind = "kind";  ///< attribute: cells, grid or components
inline constexpr DatasetFormat plate_name{"/layout/plate_name", ElementType::text, 1, unit::text};
inline constexpr DatasetFormat plate_centre{"/layout/plate_centre", ElementType::float64, 2, unit::metre};
inline constexpr DatasetFormat cell_plate{"/layout/cell_plate", ElementType::uint16, 1,
                                          unit::one};  ///< 0-based
inline constexpr DatasetFormat cell_offset{"/layout/cell_offset", ElementType::float64, 2, unit::metre};
inline constexpr DatasetFormat grid_shape{"/layout/grid_shape", ElementType::uint32, 1,
                                          unit::one};  ///< rows, columns
inline constexpr DatasetFormat grid_pitch{"/layout/grid_pitch", ElementType::float64, 1, unit::metre};
inline constexpr DatasetFormat grid_centre{"/layout/grid_centre", ElementType::float64, 1, unit::metre};
}  // namespace layout

namespace swings {
inline constexpr std::string_view group = "/swings";
inline constexpr DatasetFormat from{"/swings/from", ElementType::float64, 1, unit::second};
inline constexpr DatasetFormat to{"/swings/to", ElementType::float64, 1, unit::second};
}  // namespace swings

/// Where several devices were joined (docs/recording_format.md): each one's frames as they came. May be
/// absent.
namespace devices {
inline constexpr std::string_view group = "/devices";
inline constexpr std::string_view residual = "residual";  ///< attribute: f64, ns, of the joined time
inline constexpr std::size_t most = 4;
}  // namespace devices

/// The datasets of one of the joined devices.
struct DeviceDatasets {
    std::string_view group;
    DatasetFormat facts;  ///< JSON: joined_device_json()
    DatasetFormat counter, device_time, host_time, inputs;
    DatasetFormat counts, components;  ///< exactly one of these
    DatasetFormat counter_checksums, device_time_checksums, host_time_checksums, inputs_checksums,
        value_checksums;
    DatasetFormat gap_after_counter, gap_frames_missing, gap_from_time, gap_to_time;
};

/// "/devices/1/…" and so on.
[[nodiscard]] const std::array<DeviceDatasets, devices::most>& device_datasets();

/// Every dataset that may stand in a recording, and every group.
[[nodiscard]] const std::vector<DatasetFormat>& all_datasets();
[[nodiscard]] bool is_known_group(std::string_view path);
/// Whether the dataset has a row a frame.
[[nodiscard]] bool is_frame_column(std::string_view path);

/// Attributes of the root.
namespace root {
inline constexpr std::string_view format = "format";
inline constexpr std::string_view version = "version";  ///< u32
inline constexpr std::string_view uuid = "uuid";
inline constexpr std::string_view start_utc = "start_utc";  ///< for people: 2026-11-25T10:20:44.123Z
inline constexpr std::string_view zone = "zone";
inline constexpr std::string_view outcome = "outcome";
inline constexpr std::string_view cause = "cause";
inline constexpr std::string_view hand = "hand";
inline constexpr std::string_view program_version = "program_version";
inline constexpr std::string_view origin = "origin";
inline constexpr std::string_view device_name = "device_name";
inline constexpr std::string_view device_serial = "device_serial";          ///< u32
inline constexpr std::string_view rate_hz = "rate_hz";                      ///< f64
inline constexpr std::string_view full_scale_counts = "full_scale_counts";  ///< f64, may be absent
inline constexpr std::string_view newtons_per_count = "newtons_per_count";  ///< f64, may be absent
inline constexpr std::string_view facts_checksum = "facts_checksum";  ///< u32, CRC-32C of recording_json()
}  // namespace root

inline constexpr std::array known_datasets{frames::counter,
                                           frames::device_time,
                                           frames::host_time,
                                           frames::inputs,
                                           frames::counts,
                                           frames::counts_n,
                                           frames::grid,
                                           frames::grid_n,
                                           frames::components,
                                           clock::slope,
                                           clock::offset,
                                           clock::residual_sd,
                                           clock::fit_residual,
                                           clock::worst_late,
                                           clock::knot_device_time,
                                           clock::knot_host_time,
                                           clock::steady,
                                           clock::utc,
                                           gaps::after_counter,
                                           gaps::frames_missing,
                                           gaps::from_time,
                                           gaps::to_time,
                                           notes::host_time,
                                           notes::text,
                                           calibration::record,
                                           layout::plate_name,
                                           layout::plate_centre,
                                           layout::cell_plate,
                                           layout::cell_offset,
                                           layout::grid_shape,
                                           layout::grid_pitch,
                                           layout::grid_centre,
                                           swings::from,
                                           swings::to,
                                           checksums::counter,
                                           checksums::device_time,
                                           checksums::host_time,
                                           checksums::inputs,
                                           checksums::values};
inline constexpr std::array known_groups{std::string_view("/"), frames::group, clock::group,
                                         gaps::group,           notes::group,  calibration::group,
                                         layout::group,         swings::group, checksums::group};

/// About this many bytes of values make a chunk; a chunk has at most most_chunk_frames frames.
inline constexpr std::size_t chunk_bytes = std::size_t{512} << 10;
inline constexpr std::uint64_t most_chunk_frames = 4096;
/// A reader refuses larger chunks, and more entries than these in the small tables.
inline constexpr std::uint64_t most_chunk_bytes = std::uint64_t{64} << 20;
inline constexpr std::uint64_t most_table_entries = 1'000'000;
inline constexpr std::uint64_t most_text_bytes = std::uint64_t{1} << 20;

}  // namespace footing::recording
