#include "acquisition/record/recording_facts_writer.h"

#include <array>
#include <chrono>

#include <fmt/format.h>

#include "acquisition/decode/crc32c.h"
#include "acquisition/record/recording_json.h"

namespace footing {

namespace {

/// One column of a table of structs.
template <typename Value, typename Row, typename Member>
void put_column(h5::FileWriter& file, const recording::DatasetFormat& format, const std::vector<Row>& rows,
                Member member) {
    std::vector<Value> column;
    column.reserve(rows.size());
    for (const Row& row : rows) column.push_back(row.*member);
    file.put<Value>(format, {column.size()}, column);
}

template <typename Value>
void put_single(h5::FileWriter& file, const recording::DatasetFormat& format, Value value) {
    file.put<Value>(format, {}, std::span<const Value>(&value, 1));
}

template <typename Value>
void put_pair(h5::FileWriter& file, const recording::DatasetFormat& format, Value first, Value second) {
    const std::array<Value, 2> pair{first, second};
    file.put<Value>(format, {2}, pair);
}

void write_root(h5::FileWriter& file, const RecordingInfo& info) {
    namespace root = recording::root;
    file.put_attribute("/", root::format, recording::format_name);
    file.put_attribute("/", root::version, recording::format_version);
    file.put_attribute("/", root::uuid, info.uuid);
    file.put_attribute("/", root::start_utc, utc_text(info.start.utc_ns));
    file.put_attribute("/", root::zone, info.zone);
    file.put_attribute("/", root::outcome, outcome_name(info.outcome));
    file.put_attribute("/", root::cause, info.cause);
    file.put_attribute("/", root::hand, std::string_view(info.hand == Hand::left ? "left" : "right"));
    file.put_attribute("/", root::program_version, info.program_version);
    file.put_attribute("/", root::origin, info.origin);
    file.put_attribute("/", root::device_name, info.device.name);
    file.put_attribute("/", root::device_serial, info.device.serial);
    file.put_attribute("/", root::rate_hz, info.device.rate_hz);
    if (info.device.full_scale_counts) {
        file.put_attribute("/", root::full_scale_counts, *info.device.full_scale_counts);
    }
    if (info.device.newtons_per_count) {
        file.put_attribute("/", root::newtons_per_count, *info.device.newtons_per_count);
    }
    const std::string facts = recording_json(info);
    file.put_attribute("/", root::facts_checksum, crc32c(std::as_bytes(std::span(facts))));
}

void write_layout(h5::FileWriter& file, const PlateLayout& layout) {
    namespace names = recording::layout;
    file.make_group(names::group);
    const std::string_view kind = layout.kind == FrameKind::cells  ? "cells"
                                  : layout.kind == FrameKind::grid ? "grid"
                                                                   : "components";
    file.put_attribute(names::group, names::kind, kind);
    if (layout.grid) {
        put_pair(file, names::grid_shape, layout.grid->rows, layout.grid->columns);
        put_pair(file, names::grid_pitch, layout.grid->pitch_x_m, layout.grid->pitch_y_m);
        put_pair(file, names::grid_centre, layout.grid->centre.x_m, layout.grid->centre.y_m);
    }
    std::vector<std::string> plate_names;
    std::vector<double> centres;
    std::vector<std::uint16_t> cell_plates;
    std::vector<double> offsets;
    for (const Plate& plate : layout.plates) {
        for (const PointM& cell : plate.cells) {
            cell_plates.push_back(static_cast<std::uint16_t>(plate_names.size()));
            offsets.insert(offsets.end(), {cell.x_m, cell.y_m});
        }
        plate_names.push_back(plate.name);
        centres.insert(centres.end(), {plate.centre.x_m, plate.centre.y_m});
    }
    file.put_texts(names::plate_name, {plate_names.size()}, plate_names);
    file.put<double>(names::plate_centre, {plate_names.size(), 2}, centres);
    file.put<std::uint16_t>(names::cell_plate, {cell_plates.size()}, cell_plates);
    file.put<double>(names::cell_offset, {cell_plates.size(), 2}, offsets);
}

void write_clock(h5::FileWriter& file, const RecordingInfo& info) {
    namespace names = recording::clock;
    file.make_group(names::group);
    put_single(file, names::slope, info.clock.slope);
    put_single(file, names::offset, info.clock.offset_ns);
    put_single(file, names::residual_sd, info.clock.residual_sd_ns);
    if (!info.clock.knots.empty()) {
        put_single(file, names::fit_residual, info.clock.fit_residual_ns);
        put_single(file, names::worst_late, info.clock.worst_late_ns);
        put_column<std::uint64_t>(file, names::knot_device_time, info.clock.knots,
                                  &ClockKnot::device_time_us);
        put_column<std::int64_t>(file, names::knot_host_time, info.clock.knots, &ClockKnot::host_time_ns);
    }
    put_pair(file, names::steady, info.start.steady_ns, info.end.steady_ns);
    put_pair(file, names::utc, info.start.utc_ns, info.end.utc_ns);
}

void write_gaps(h5::FileWriter& file, const RecordingInfo& info) {
    namespace names = recording::gaps;
    file.make_group(names::group);
    for (const NamedLoss& loss : named_losses) {
        file.put_attribute(names::group, loss.name, info.losses.*loss.member);
    }
    put_column<std::uint64_t>(file, names::after_counter, info.gaps, &Gap::after_counter);
    put_column<std::uint64_t>(file, names::frames_missing, info.gaps, &Gap::frames_missing);
    put_column<std::uint64_t>(file, names::from_time, info.gaps, &Gap::from_time_us);
    put_column<std::uint64_t>(file, names::to_time, info.gaps, &Gap::to_time_us);
}

void write_devices(h5::FileWriter& file, const RecordingInfo& info) {
    if (info.devices.empty()) return;
    file.put_attribute(recording::devices::group, recording::devices::residual, joined_residual_ns(info));
    for (std::size_t i = 0; i < info.devices.size(); ++i) {
        const recording::DeviceDatasets& datasets = recording::device_datasets().at(i);
        const std::string facts = joined_device_json(info.devices[i]);
        const std::vector<Gap>& gaps = info.devices[i].gaps;
        file.put_texts(datasets.facts, {}, std::span(&facts, 1));
        put_column<std::uint64_t>(file, datasets.gap_after_counter, gaps, &Gap::after_counter);
        put_column<std::uint64_t>(file, datasets.gap_frames_missing, gaps, &Gap::frames_missing);
        put_column<std::uint64_t>(file, datasets.gap_from_time, gaps, &Gap::from_time_us);
        put_column<std::uint64_t>(file, datasets.gap_to_time, gaps, &Gap::to_time_us);
    }
}

void write_notes(h5::FileWriter& file, const std::vector<RecordingNote>& notes) {
    namespace names = recording::notes;
    file.make_group(names::group);
    put_column<std::int64_t>(file, names::host_time, notes, &RecordingNote::host_time_ns);
    std::vector<std::string> texts;
    for (const RecordingNote& note : notes) texts.push_back(note.text);
    file.put_texts(names::text, {texts.size()}, texts);
}

}  // namespace

void write_facts(h5::FileWriter& file, const RecordingInfo& info) {
    write_root(file, info);
    write_layout(file, info.device.layout);
    write_clock(file, info);
    write_gaps(file, info);
    write_devices(file, info);
    write_notes(file, info.notes);
    file.make_group(recording::calibration::group);
    if (!info.calibration_json.empty()) {
        file.put_texts(recording::calibration::record, {}, std::span(&info.calibration_json, 1));
    }
    file.make_group(recording::swings::group);
    put_column<double>(file, recording::swings::from, info.swings, &SwingMark::from_s);
    put_column<double>(file, recording::swings::to, info.swings, &SwingMark::to_s);
}

std::string utc_text(std::int64_t utc_ns) {
    using namespace std::chrono;
    const sys_time<nanoseconds> instant{nanoseconds{utc_ns}};
    const sys_days day = floor<days>(instant);
    const year_month_day date{day};
    const hh_mm_ss time{floor<milliseconds>(instant - day)};
    return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", static_cast<int>(date.year()),
                       static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()),
                       time.hours().count(), time.minutes().count(), time.seconds().count(),
                       time.subseconds().count());
}

}  // namespace footing
