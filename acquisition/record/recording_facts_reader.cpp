#include "acquisition/record/recording_facts_reader.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <optional>

#include "acquisition/decode/crc32c.h"
#include "acquisition/record/dataset_reader.h"
#include "acquisition/record/recording_json.h"

namespace footing {

namespace {

using recording::DatasetFormat;
using recording::ElementType;

/// Carries a sentence up to read_facts, which makes a Problem of it.
struct Unfit {
    std::string object;
    std::string what;
};

bool has_type(const h5::ElementType& stored, ElementType wanted) {
    const auto is = [&](h5::ElementClass element_class, std::uint32_t bytes) {
        return stored.element_class == element_class && stored.bytes == bytes;
    };
    switch (wanted) {
        case ElementType::uint16:
            return is(h5::ElementClass::unsigned_integer, 2);
        case ElementType::uint32:
            return is(h5::ElementClass::unsigned_integer, 4);
        case ElementType::uint64:
            return is(h5::ElementClass::unsigned_integer, 8);
        case ElementType::int32:
            return is(h5::ElementClass::signed_integer, 4);
        case ElementType::int64:
            return is(h5::ElementClass::signed_integer, 8);
        case ElementType::float64:
            return is(h5::ElementClass::floating, 8);
        case ElementType::text:
            return stored.element_class == h5::ElementClass::text;
    }
    return false;
}

std::optional<std::string> text_attribute(const std::map<std::string, h5::Attribute>& attributes,
                                          std::string_view name) {
    const auto found = attributes.find(std::string(name));
    if (found == attributes.end() || found->second.type.element_class != h5::ElementClass::text)
        return std::nullopt;
    const std::vector<std::byte>& value = found->second.value;
    const auto end = std::find(value.begin(), value.end(), std::byte{0});
    return std::string(reinterpret_cast<const char*>(value.data()),
                       static_cast<std::size_t>(end - value.begin()));
}

template <typename Number>
std::optional<Number> number_attribute(const std::map<std::string, h5::Attribute>& attributes,
                                       std::string_view name, ElementType type) {
    const auto found = attributes.find(std::string(name));
    if (found == attributes.end() || !has_type(found->second.type, type) ||
        found->second.value.size() != sizeof(Number)) {
        return std::nullopt;
    }
    Number number{};
    std::memcpy(&number, found->second.value.data(), sizeof number);
    return number;
}

/// The formats that a path may have; more than one where values can be counts or newtons.
const DatasetFormat* format_of(const std::string& path, const h5::Dataset& dataset) {
    const DatasetFormat* nearest = nullptr;
    for (const DatasetFormat& format : recording::all_datasets()) {
        if (format.path != path) continue;
        nearest = &format;
        if (has_type(dataset.type, format.type)) return nearest;
    }
    return nearest;
}

void check_dataset(const std::string& path, const h5::Dataset& dataset) {
    const DatasetFormat* format = format_of(path, dataset);
    if (format == nullptr) throw Unfit{path, "a recording has no dataset of this name"};
    if (!has_type(dataset.type, format->type)) throw Unfit{path, "its values are of the wrong type"};
    if (dataset.dimensions.size() != format->rank) throw Unfit{path, "it has the wrong number of dimensions"};
    const std::optional<std::string> unit = text_attribute(dataset.attributes, recording::unit::attribute);
    if (!unit) throw Unfit{path, "its unit is missing; without one its numbers mean nothing"};
    if (*unit != format->unit) {
        throw Unfit{path, "its unit is '" + *unit + "' and not '" + std::string(format->unit) + "'"};
    }
    std::uint64_t chunk = dataset.type.bytes;
    for (const std::uint32_t dimension : dataset.chunk_dimensions) {
        chunk *= dimension;
        if (chunk > recording::most_chunk_bytes) throw Unfit{path, "its chunks are too large"};
    }
    const bool is_frames = recording::is_frame_column(path);
    std::uint64_t entries = 1;
    for (std::size_t k = is_frames ? 1 : 0; k < dataset.dimensions.size(); ++k) {
        entries *= std::min(dataset.dimensions[k], recording::most_table_entries + 1);
        if (entries > recording::most_table_entries) throw Unfit{path, "it has too many entries"};
    }
    if (!is_frames && entries * dataset.type.bytes > (std::uint64_t{64} << 20))
        throw Unfit{path, "it is too large"};
}

/// Of the joined devices: the stamps and one kind of values each, all as long as its counters.
void check_devices(const h5::Structure& structure) {
    for (const recording::DeviceDatasets& device : recording::device_datasets()) {
        if (!structure.groups.contains(std::string(device.group))) continue;
        const auto find = [&](const DatasetFormat& format) {
            const auto found = structure.datasets.find(std::string(format.path));
            return found == structure.datasets.end() ? nullptr : &found->second;
        };
        const h5::Dataset* const counter = find(device.counter);
        if (counter == nullptr) throw Unfit{std::string(device.counter.path), "is missing"};
        if ((find(device.counts) != nullptr) == (find(device.components) != nullptr))
            throw Unfit{std::string(device.group), "must hold exactly one of counts, components"};
        for (const DatasetFormat& column :
             {device.device_time, device.host_time, device.inputs, device.counts, device.components}) {
            const h5::Dataset* const dataset = find(column);
            if (dataset == nullptr && column.rank == 1) throw Unfit{std::string(column.path), "is missing"};
            if (dataset != nullptr && dataset->dimensions[0] != counter->dimensions[0])
                throw Unfit{std::string(column.path), "has another number of frames than its counters"};
        }
    }
}

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

Problem unfit(const std::string& place, const Unfit& unfit) {
    return {ProblemKind::bad_input, place + ", " + unfit.object, unfit.what,
            "it is damaged, or no recording of Footing: look for another copy of it, or for its journal"};
}

}  // namespace

Outcome check_format(const h5::Structure& structure, const std::string& place) {
    try {
        const auto& root = structure.groups.at("/");
        if (text_attribute(root, recording::root::format) != std::string(recording::format_name)) {
            return Problem{ProblemKind::bad_input, place, "is an HDF5 file, but no recording of this program",
                           "import it, or choose another file"};
        }
        const auto version =
            number_attribute<std::uint32_t>(root, recording::root::version, ElementType::uint32);
        if (version != recording::format_version) {
            return Problem{ProblemKind::bad_input, place, "was written by another version of this program",
                           "open it with that version"};
        }
        for (const auto& [path, attributes] : structure.groups) {
            if (!recording::is_known_group(path)) throw Unfit{path, "a recording has no group of this name"};
        }
        for (const std::string_view group : recording::known_groups) {
            if (group == recording::checksums::group) continue;
            if (!structure.groups.contains(std::string(group))) throw Unfit{std::string(group), "is missing"};
        }
        for (const auto& [path, dataset] : structure.datasets) check_dataset(path, dataset);
        namespace frames = recording::frames;
        std::size_t columns = 0;
        for (const auto& [path, dataset] : structure.datasets) {
            if (!path.starts_with("/frames/")) continue;
            ++columns;
            const auto counter = structure.datasets.find(std::string(frames::counter.path));
            if (counter == structure.datasets.end())
                throw Unfit{std::string(frames::counter.path), "is missing"};
            if (dataset.dimensions[0] != counter->second.dimensions[0]) {
                throw Unfit{path, "has another number of frames than /frames/counter"};
            }
        }
        for (const DatasetFormat& stamp : {frames::device_time, frames::host_time, frames::inputs}) {
            if (!structure.datasets.contains(std::string(stamp.path)))
                throw Unfit{std::string(stamp.path), "is missing"};
        }
        check_devices(structure);
        if (columns != 5)
            throw Unfit{"/frames", "must hold the stamps and exactly one of counts, grid, components"};
    } catch (const Unfit& problem) {
        return unfit(place, problem);
    }
    return Done{};
}

Result<RecordingInfo> read_facts(const ReadOnlyFile& file, const h5::Structure& structure,
                                 const std::string& place) {
    try {
        return FactsReader(file, structure).read();
    } catch (const Unfit& problem) {
        return unfit(place, problem);
    }
}

DatasetFormat value_format_of(const h5::Structure& structure) {
    for (const DatasetFormat& format : recording::known_datasets) {
        if (format.rank < 2 || !format.path.starts_with("/frames/")) continue;
        const auto found = structure.datasets.find(std::string(format.path));
        if (found != structure.datasets.end() && has_type(found->second.type, format.type)) return format;
    }
    return recording::frames::counts;
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
