#include "acquisition/device/play_wire_form.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <string>
#include <utility>

#include "acquisition/decode/description.h"
#include "acquisition/decode/wire_format.h"

namespace footing {

namespace {

constexpr double most_cell_count = 2147483647.0;
constexpr double most_element_count = 65535.0;
constexpr std::chrono::milliseconds no_wait{0};

/// Looks for the load of largest magnitude, as long as frames hold newtons.
class LargestLoad final : public FrameSink {
  public:
    explicit LargestLoad(FrameKind kind) : kind_(kind) {}

    void take_frame(const FrameView& frame) override {
        const auto* newtons = std::get_if<std::span<const double>>(&frame.values);
        if (newtons == nullptr) {
            raw = true;
            return;
        }
        for (const double load_n : *newtons) {
            if (!std::isfinite(load_n) || (kind_ == FrameKind::grid && load_n < 0.0)) {
                if (!impossible) impossible = frame.stamp;
                continue;
            }
            largest_n = std::max(largest_n, std::abs(load_n));
        }
    }
    void take_gap(const Gap&) override {}

    bool raw = false;
    double largest_n = 0.0;
    std::optional<FrameStamp> impossible;

  private:
    FrameKind kind_;
};

/// The largest power of two that takes `largest_n` to no more than `most_count`.
double scale_for(double largest_n, double most_count) {
    if (largest_n <= 0.0) return 1.0;
    return std::exp2(std::clamp(std::floor(std::log2(most_count / largest_n)), -40.0, 40.0));
}

}  // namespace

Result<PlayWireForm> PlayWireForm::choose(const DeviceDescription& device, FrameSource& frames) {
    PlayWireForm form(device);
    const FrameKind kind = device.layout.kind;
    if (kind != FrameKind::components) {
        LargestLoad largest(kind);
        for (auto state = SourceState::running; state != SourceState::finished && !largest.raw;) {
            const auto polled = frames.poll(largest, no_wait);
            if (!polled) return polled.problem();
            state = polled.value();
        }
        if (largest.impossible) {
            return Problem{ProblemKind::bad_input,
                           frames.name() + ", frame " + std::to_string(largest.impossible->counter),
                           "holds a load that no device can send: not a number, or negative on a mat",
                           "play a recording of raw counts"};
        }
        if (!largest.raw && largest.largest_n > 0.0) {
            form.counts_per_newton_ =
                scale_for(largest.largest_n, kind == FrameKind::grid ? most_element_count : most_cell_count);
            form.description_.newtons_per_count = 1.0 / form.counts_per_newton_;
            form.description_.full_scale_counts.reset();
        }
    }
    if (encode_description({}, description_json(form.description_)).empty()) {
        return Problem{ProblemKind::bad_input, frames.name(),
                       "its layout has too many cells to be told in one packet",
                       "a line carries descriptions of at most " +
                           std::to_string(wire::most_description_bytes) + " bytes"};
    }
    return form;
}

PacketHead PlayWireForm::head(const FrameStamp& stamp) const {
    return {description_.serial, static_cast<std::uint32_t>(stamp.counter), stamp.device_time_us,
            stamp.inputs};
}

std::vector<std::vector<std::byte>> PlayWireForm::packets(const FrameView& frame) const {
    const PacketHead at = head(frame.stamp);
    if (value_count(frame.values) != values_per_frame(description_.layout)) return {};
    if (const auto* counts = std::get_if<std::span<const std::int32_t>>(&frame.values)) {
        return {encode_cells(at, *counts)};
    }
    if (const auto* elements = std::get_if<std::span<const std::uint16_t>>(&frame.values)) {
        if (!description_.layout.grid) return {};
        return encode_grid_bands(at, description_.layout.grid->rows, description_.layout.grid->columns,
                                 *elements);
    }
    return physical_packets(at, std::get<std::span<const double>>(frame.values));
}

std::vector<std::vector<std::byte>> PlayWireForm::physical_packets(const PacketHead& at,
                                                                   std::span<const double> values) const {
    const PlateLayout& layout = description_.layout;
    if (layout.kind == FrameKind::components) {
        const std::vector<float> reals(values.begin(), values.end());
        return {encode_components(at, reals)};
    }
    if (layout.kind == FrameKind::cells) {
        std::vector<std::int32_t> counts;
        for (const double load_n : values) {
            counts.push_back(static_cast<std::int32_t>(std::lround(load_n * counts_per_newton_)));
        }
        return {encode_cells(at, counts)};
    }
    if (!layout.grid) return {};
    std::vector<std::uint16_t> elements;
    for (const double load_n : values) {
        elements.push_back(static_cast<std::uint16_t>(std::lround(load_n * counts_per_newton_)));
    }
    return encode_grid_bands(at, layout.grid->rows, layout.grid->columns, elements);
}

}  // namespace footing
