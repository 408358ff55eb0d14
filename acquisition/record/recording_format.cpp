#include "acquisition/record/recording_format.h"

#include <algorithm>
#include <deque>
#include <string>

namespace footing::recording {

namespace {

std::array<DeviceDatasets, devices::most> make_device_datasets() {
    static std::deque<std::string> names;  // what the formats view
    std::array<DeviceDatasets, devices::most> all{};
    for (std::size_t i = 0; i < all.size(); ++i) {
        const std::string group = std::string(devices::group) + "/" + std::to_string(i + 1);
        const auto dataset = [&](const char* name, ElementType type, std::size_t rank,
                                 std::string_view unit) {
            names.push_back(group + "/" + name);
            return DatasetFormat{names.back(), type, rank, unit};
        };
        const auto checksums = [&](const char* name) {
            return dataset(name, ElementType::uint32, 1, unit::one);
        };
        names.push_back(group);
        all[i] = {names.back(),
                  dataset("facts", ElementType::text, 0, unit::text),
                  dataset("counter", ElementType::uint64, 1, unit::one),
                  dataset("device_time", ElementType::uint64, 1, unit::microsecond),
                  dataset("host_time", ElementType::int64, 1, unit::nanosecond),
                  dataset("inputs", ElementType::uint16, 1, unit::one),
                  dataset("counts", ElementType::int32, 2, unit::count),
                  dataset("components", ElementType::float64, 2, unit::newton_and_newton_metre),
                  checksums("counter_checksums"),
                  checksums("device_time_checksums"),
                  checksums("host_time_checksums"),
                  checksums("inputs_checksums"),
                  checksums("value_checksums"),
                  dataset("gap_after_counter", ElementType::uint64, 1, unit::one),
                  dataset("gap_frames_missing", ElementType::uint64, 1, unit::one),
                  dataset("gap_from_time", ElementType::uint64, 1, unit::microsecond),
                  dataset("gap_to_time", ElementType::uint64, 1, unit::microsecond)};
    }
    return all;
}

}  // namespace

const std::array<DeviceDatasets, devices::most>& device_datasets() {
    static const std::array<DeviceDatasets, devices::most> all = make_device_datasets();
    return all;
}

const std::vector<DatasetFormat>& all_datasets() {
    static const std::vector<DatasetFormat> all = [] {
        std::vector<DatasetFormat> formats(known_datasets.begin(), known_datasets.end());
        for (const DeviceDatasets& device : device_datasets()) {
            formats.insert(formats.end(),
                           {device.facts, device.counter, device.device_time, device.host_time, device.inputs,
                            device.counts, device.components, device.counter_checksums,
                            device.device_time_checksums, device.host_time_checksums, device.inputs_checksums,
                            device.value_checksums, device.gap_after_counter, device.gap_frames_missing,
                            device.gap_from_time, device.gap_to_time});
        }
        return formats;
    }();
    return all;
}

bool is_known_group(std::string_view path) {
    const auto is_it = [path](const DeviceDatasets& device) { return device.group == path; };
    return path == devices::group || std::ranges::find(known_groups, path) != known_groups.end() ||
           std::ranges::any_of(device_datasets(), is_it);
}

bool is_frame_column(std::string_view path) {
    const auto has_it = [path](const DeviceDatasets& device) {
        return path == device.counter.path || path == device.device_time.path ||
               path == device.host_time.path || path == device.inputs.path || path == device.counts.path ||
               path == device.components.path;
    };
    return path.starts_with("/frames/") || std::ranges::any_of(device_datasets(), has_it);
}

}  // namespace footing::recording
