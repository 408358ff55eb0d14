#include "acquisition/record/recording_facts_reader.h"

#include <cmath>
#include <cstring>
#include <optional>

#include "acquisition/decode/crc32c.h"
#include "acquisition/record/dataset_reader.h"
#include "acquisition/record/recording_attributes.h"
#include "acquisition/record/recording_format_check.h"
#include "acquisition/record/recording_json.h"

namespace footing {

namespace {

using recording::DatasetFormat;
using recording::ElementType;

class FactsReader {
  public:
    FactsReader(const ReadOnlyFile& file, const h5::Structure& structure)
        : file_(file), structure_(structure) {}

    RecordingInfo read() {
        RecordingInfo info;
        read_root(info);
        read_layout(info.device.layout);
        read_clock(info);
        read_gaps(info);
        read_notes(info.notes);
        const std::string calibration_path(recording::calibration::record.path);
        if (structure_.datasets.contains(calibration_path)) {
            info.calibration_json = texts(recording::calibration::record).at(0);
        }
        const std::vector<double> from = column<double>(recording::swings::from);
        const std::vector<double> to = column<double>(recording::swings::to);
        same_length(recording::swings::group, from.size(), to.size());
        for (std::size_t i = 0; i < from.size(); ++i) info.swings.push_back({from[i], to[i]});
        info.frame_count = structure_.datasets.at(std::string(recording::frames::counter.path)).dimensions[0];
        read_devices(info);
        return info;
    }

  private:
    [[nodiscard]] const h5::Dataset& dataset(const DatasetFormat& format) const {
        const auto found = structure_.datasets.find(std::string(format.path));
        if (found == structure_.datasets.end()) throw Unfit{std::string(format.path), "is missing"};
        return found->second;
    }

    [[nodiscard]] std::vector<std::byte> bytes(const DatasetFormat& format) const {
        const DatasetReader reader(file_, dataset(format));
        std::vector<std::byte> all(static_cast<std::size_t>(reader.rows()) * reader.row_bytes());
        ChunkRoom room;
        if (reader.read(0, all, room) == DatasetReader::Verdict::damaged) {
            throw Unfit{std::string(format.path), "is damaged"};
        }
        return all;
    }

    template <typename Value>
    [[nodiscard]] std::vector<Value> column(const DatasetFormat& format) const {
        const std::vector<std::byte> all = bytes(format);
        std::vector<Value> values(all.size() / sizeof(Value));
        if (!all.empty()) std::memcpy(values.data(), all.data(), values.size() * sizeof(Value));
        return values;
    }

    template <typename Value>
    [[nodiscard]] std::vector<Value> exactly(const DatasetFormat& format, std::size_t count) const {
        std::vector<Value> values = column<Value>(format);
        if (values.size() != count) throw Unfit{std::string(format.path), "has the wrong length"};
        if constexpr (std::is_floating_point_v<Value>) {
            for (const Value value : values) {
                if (!std::isfinite(value))
                    throw Unfit{std::string(format.path), "holds a number that is not finite"};
            }
        }
        return values;
    }

    [[nodiscard]] std::vector<std::string> texts(const DatasetFormat& format) const {
        const std::vector<std::byte> all = bytes(format);
        const std::size_t length = dataset(format).type.bytes;
        std::vector<std::string> lines;
        for (std::size_t at = 0; at + length <= all.size(); at += length) {
            const std::string padded(reinterpret_cast<const char*>(all.data()) + at, length);
            lines.push_back(padded.substr(0, padded.find('\0')));
        }
        return lines;
    }

    static void same_length(std::string_view group, std::size_t a, std::size_t b) {
        if (a != b) throw Unfit{std::string(group), "its columns are not of one length"};
    }

    void read_root(RecordingInfo& info) const {
        namespace root = recording::root;
        const auto& attributes = structure_.groups.at("/");
        const auto text = [&](std::string_view name) {
            const std::optional<std::string> found = text_attribute(attributes, name);
            if (!found) throw Unfit{"attribute " + std::string(name), "is missing"};
            return *found;
        };
        info.uuid = text(root::uuid);
        info.zone = text(root::zone);
        info.cause = text(root::cause);
        info.program_version = text(root::program_version);
        info.origin = text(root::origin);
        info.device.name = text(root::device_name);
        const std::string hand = text(root::hand);
        if (hand != "right" && hand != "left") throw Unfit{"attribute hand", "is neither right nor left"};
        info.hand = hand == "left" ? Hand::left : Hand::right;
        const std::optional<RecordingOutcome> outcome = outcome_from_name(text(root::outcome));
        if (!outcome) throw Unfit{"attribute outcome", "is none of clean, lossy, truncated, incomplete"};
        info.outcome = *outcome;
        const auto serial =
            number_attribute<std::uint32_t>(attributes, root::device_serial, ElementType::uint32);
        const auto rate = number_attribute<double>(attributes, root::rate_hz, ElementType::float64);
        if (!serial) throw Unfit{"attribute device_serial", "is missing"};
        if (!rate || !std::isfinite(*rate) || *rate < 0)
            throw Unfit{"attribute rate_hz", "is missing or impossible"};
        info.device.serial = *serial;
        info.device.rate_hz = *rate;
        info.device.full_scale_counts =
            number_attribute<double>(attributes, root::full_scale_counts, ElementType::float64);
        info.device.newtons_per_count =
            number_attribute<double>(attributes, root::newtons_per_count, ElementType::float64);
        for (const std::optional<double>& number :
             {info.device.full_scale_counts, info.device.newtons_per_count}) {
            if (number && (!std::isfinite(*number) || *number <= 0)) {
                throw Unfit{"attributes of the device", "hold an impossible number"};
            }
        }
    }

    void read_layout(PlateLayout& layout) const {
        namespace names = recording::layout;
        const auto kind = text_attribute(structure_.groups.at(std::string(names::group)), names::kind);
        if (kind != "cells" && kind != "grid" && kind != "components") {
            throw Unfit{"/layout, attribute kind", "is none of cells, grid, components"};
        }
        layout.kind = kind == "cells"  ? FrameKind::cells
                      : kind == "grid" ? FrameKind::grid
                                       : FrameKind::components;
        const std::vector<std::string> plates = texts(names::plate_name);
        if (plates.size() > most_plates)
            throw Unfit{std::string(names::plate_name.path), "has too many entries"};
        const auto centres = exactly<double>(names::plate_centre, 2 * plates.size());
        const auto cell_plates = column<std::uint16_t>(names::cell_plate);
        if (cell_plates.size() > most_cells)
            throw Unfit{std::string(names::cell_plate.path), "has too many entries"};
        const auto offsets = exactly<double>(names::cell_offset, 2 * cell_plates.size());
        for (std::size_t i = 0; i < plates.size(); ++i) {
            layout.plates.push_back({plates[i], {centres[2 * i], centres[2 * i + 1]}, {}});
        }
        for (std::size_t i = 0; i < cell_plates.size(); ++i) {
            const bool in_order = i == 0 || cell_plates[i] >= cell_plates[i - 1];
            if (cell_plates[i] >= layout.plates.size() || !in_order) {
                throw Unfit{std::string(names::cell_plate.path),
                            "names a plate that is not there or not in order"};
            }
            layout.plates[cell_plates[i]].cells.push_back({offsets[2 * i], offsets[2 * i + 1]});
        }
        if (layout.kind == FrameKind::grid) {
            const auto shape = exactly<std::uint32_t>(names::grid_shape, 2);
            const auto pitch = exactly<double>(names::grid_pitch, 2);
            const auto centre = exactly<double>(names::grid_centre, 2);
            if (std::uint64_t{shape[0]} * shape[1] > most_grid_values) {
                throw Unfit{std::string(names::grid_shape.path), "is too large"};
            }
            layout.grid = Grid{shape[0], shape[1], pitch[0], pitch[1], {centre[0], centre[1]}};
        }
        check_values(layout);
    }

    void check_values(const PlateLayout& layout) const {
        const DatasetFormat format = value_format_of(structure_);
        const bool fits = layout.kind == FrameKind::grid ? format.rank == 3
                          : layout.kind == FrameKind::cells
                              ? format.path == recording::frames::counts.path
                              : format.path == recording::frames::components.path;
        std::uint64_t values = 1;
        const std::vector<std::uint64_t>& shape = dataset(format).dimensions;
        for (std::size_t k = 1; k < shape.size(); ++k) values *= shape[k];
        const bool same_shape = layout.kind != FrameKind::grid ||
                                (fits && shape[1] == layout.grid->rows && shape[2] == layout.grid->columns);
        if (!fits || !same_shape || values != values_per_frame(layout) || values == 0) {
            throw Unfit{std::string(format.path), "does not fit the layout of the plates"};
        }
    }

    void read_clock(RecordingInfo& info) const {
        namespace names = recording::clock;
        info.clock.slope = exactly<double>(names::slope, 1)[0];
        info.clock.offset_ns = exactly<double>(names::offset, 1)[0];
        info.clock.residual_sd_ns = exactly<double>(names::residual_sd, 1)[0];
        read_knots(info.clock);
        const auto steady = exactly<std::int64_t>(names::steady, 2);
        const auto utc = exactly<std::int64_t>(names::utc, 2);
        info.start = {steady[0], utc[0]};
        info.end = {steady[1], utc[1]};
    }

    void read_knots(ClockFit& fit) const {
        namespace names = recording::clock;
        if (!structure_.datasets.contains(std::string(names::knot_device_time.path))) return;
        fit.fit_residual_ns = exactly<double>(names::fit_residual, 1)[0];
        fit.worst_late_ns = exactly<double>(names::worst_late, 1)[0];
        const auto device = column<std::uint64_t>(names::knot_device_time);
        const auto host = exactly<std::int64_t>(names::knot_host_time, device.size());
        for (std::size_t i = 0; i < device.size(); ++i) {
            if (i > 0 && device[i] <= device[i - 1]) {
                throw Unfit{std::string(names::knot_device_time.path), "does not go forward"};
            }
            fit.knots.push_back({device[i], host[i]});
        }
    }

    void read_devices(RecordingInfo& info) const {
        std::size_t values = 0;
        for (const recording::DeviceDatasets& datasets : recording::device_datasets()) {
            if (!structure_.groups.contains(std::string(datasets.group))) break;
            const std::string place(datasets.facts.path);
            Result<JoinedDevice> device = parse_joined_device_json(texts(datasets.facts).at(0), place);
            if (!device.ok()) throw Unfit{place, device.problem().what};
            device.value().gaps = read_gap_columns(datasets.gap_after_counter, datasets.gap_frames_missing,
                                                   datasets.gap_from_time, datasets.gap_to_time);
            const DatasetFormat& format =
                info.device.layout.kind == FrameKind::components ? datasets.components : datasets.counts;
            const std::vector<std::uint64_t>& shape = dataset(format).dimensions;
            if (shape[1] != values_per_frame(device.value().device.layout) || shape[1] == 0) {
                throw Unfit{std::string(format.path), "does not fit the layout of its plates"};
            }
            values += shape[1];
            device.value().frame_count = shape[0];
            info.devices.push_back(std::move(device).value());
        }
        if (!info.devices.empty() && values != values_per_frame(info.device.layout)) {
            throw Unfit{std::string(recording::devices::group), "does not make up the whole"};
        }
    }

    [[nodiscard]] std::vector<Gap> read_gap_columns(const DatasetFormat& after_counter,
                                                    const DatasetFormat& frames_missing,
                                                    const DatasetFormat& from_time,
                                                    const DatasetFormat& to_time) const {
        const auto after = column<std::uint64_t>(after_counter);
        const auto missing = exactly<std::uint64_t>(frames_missing, after.size());
        const auto from = exactly<std::uint64_t>(from_time, after.size());
        const auto to = exactly<std::uint64_t>(to_time, after.size());
        std::vector<Gap> gaps;
        for (std::size_t i = 0; i < after.size(); ++i) gaps.push_back({after[i], missing[i], from[i], to[i]});
        return gaps;
    }

    void read_gaps(RecordingInfo& info) const {
        namespace names = recording::gaps;
        const auto& attributes = structure_.groups.at(std::string(names::group));
        for (const NamedLoss& loss : named_losses) {
            const auto number = number_attribute<std::uint64_t>(attributes, loss.name, ElementType::uint64);
            if (!number) throw Unfit{"/gaps, attribute " + std::string(loss.name), "is missing"};
            info.losses.*loss.member = *number;
        }
        info.gaps =
            read_gap_columns(names::after_counter, names::frames_missing, names::from_time, names::to_time);
    }

    void read_notes(std::vector<RecordingNote>& notes) const {
        const auto times = column<std::int64_t>(recording::notes::host_time);
        const std::vector<std::string> lines = texts(recording::notes::text);
        same_length(recording::notes::group, times.size(), lines.size());
        for (std::size_t i = 0; i < times.size(); ++i) notes.push_back({times[i], lines[i]});
    }

    const ReadOnlyFile& file_;
    const h5::Structure& structure_;
};

}  // namespace

Result<RecordingInfo> read_facts(const ReadOnlyFile& file, const h5::Structure& structure,
                                 const std::string& place) {
    try {
        return FactsReader(file, structure).read();
    } catch (const Unfit& problem) {
        return unfit(place, problem);
    }
}

std::vector<std::uint32_t> read_checksums(const ReadOnlyFile& file, const h5::Structure& structure,
                                          const DatasetFormat& format) {
    const auto found = structure.datasets.find(std::string(format.path));
    if (found == structure.datasets.end()) return {};
    const DatasetReader reader(file, found->second);
    std::vector<std::uint32_t> checksums(static_cast<std::size_t>(reader.rows()));
    ChunkRoom room;
    if (reader.read(0, std::as_writable_bytes(std::span(checksums)), room) ==
        DatasetReader::Verdict::damaged) {
        checksums.clear();
    }
    return checksums;
}

bool facts_are_whole(const h5::Structure& structure, const RecordingInfo& info) {
    const auto stored = number_attribute<std::uint32_t>(structure.groups.at("/"),
                                                        recording::root::facts_checksum, ElementType::uint32);
    const std::string facts = recording_json(info);
    return !stored || *stored == crc32c(std::as_bytes(std::span(facts)));
}

}  // namespace footing
