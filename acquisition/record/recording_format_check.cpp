#include "acquisition/record/recording_format_check.h"

#include <algorithm>
#include <optional>

#include "acquisition/record/recording_attributes.h"

namespace footing {

using recording::DatasetFormat;
using recording::ElementType;

namespace {

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

/// Whether it is a recording at all, and one that this program knows.
Outcome check_head(const h5::Structure& structure, const std::string& place) {
    const auto& root = structure.groups.at("/");
    if (text_attribute(root, recording::root::format) != std::string(recording::format_name)) {
        return Problem{ProblemKind::bad_input, place, "is an HDF5 file, but no recording of this program",
                       "import it, or choose another file"};
    }
    if (number_attribute<std::uint32_t>(root, recording::root::version, ElementType::uint32) !=
        recording::format_version) {
        return Problem{ProblemKind::bad_input, place, "was written by another version of this program",
                       "open it with that version"};
    }
    return Done{};
}

void check_groups(const h5::Structure& structure) {
    for (const auto& [path, attributes] : structure.groups) {
        if (!recording::is_known_group(path)) throw Unfit{path, "a recording has no group of this name"};
    }
    for (const std::string_view group : recording::known_groups) {
        if (group == recording::checksums::group) continue;
        if (!structure.groups.contains(std::string(group))) throw Unfit{std::string(group), "is missing"};
    }
}

/// The stamps and one kind of values, all as long as the counters.
void check_frames(const h5::Structure& structure) {
    namespace frames = recording::frames;
    std::size_t columns = 0;
    for (const auto& [path, dataset] : structure.datasets) {
        if (!path.starts_with("/frames/")) continue;
        ++columns;
        const auto counter = structure.datasets.find(std::string(frames::counter.path));
        if (counter == structure.datasets.end()) throw Unfit{std::string(frames::counter.path), "is missing"};
        if (dataset.dimensions[0] != counter->second.dimensions[0]) {
            throw Unfit{path, "has another number of frames than /frames/counter"};
        }
    }
    for (const DatasetFormat& stamp : {frames::device_time, frames::host_time, frames::inputs}) {
        if (!structure.datasets.contains(std::string(stamp.path)))
            throw Unfit{std::string(stamp.path), "is missing"};
    }
    if (columns != 5)
        throw Unfit{"/frames", "must hold the stamps and exactly one of counts, grid, components"};
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

}  // namespace

Outcome check_format(const h5::Structure& structure, const std::string& place) {
    if (Outcome known = check_head(structure, place); !known) return known;
    try {
        check_groups(structure);
        for (const auto& [path, dataset] : structure.datasets) check_dataset(path, dataset);
        check_frames(structure);
        check_devices(structure);
    } catch (const Unfit& problem) {
        return unfit(place, problem);
    }
    return Done{};
}

DatasetFormat value_format_of(const h5::Structure& structure) {
    for (const DatasetFormat& format : recording::known_datasets) {
        if (format.rank < 2 || !format.path.starts_with("/frames/")) continue;
        const auto found = structure.datasets.find(std::string(format.path));
        if (found != structure.datasets.end() && has_type(found->second.type, format.type)) return format;
    }
    return recording::frames::counts;
}

}  // namespace footing
