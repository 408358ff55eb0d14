#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "acquisition/device/emulated_sensors.h"
#include "acquisition/frame/simulated_golfer.h"

namespace footing {

namespace {

constexpr double plate_offset_m = 0.21;  ///< of a plate's centre from the middle
constexpr double cell_x_m = 0.17;
constexpr double cell_y_m = 0.22;
constexpr double newtons_per_count = 0.00025;
constexpr double plate_full_scale_counts = 8388607.0;  // 24 bits, signed
constexpr std::size_t cells_per_plate = 4;
constexpr std::array<PointM, cells_per_plate> cell_places{
    {{-cell_x_m, cell_y_m}, {cell_x_m, cell_y_m}, {-cell_x_m, -cell_y_m}, {cell_x_m, -cell_y_m}}};

class PlateSensors final : public EmulatedSensors {
  public:
    explicit PlateSensors(const EmulatedDeviceSettings& settings)
        : part_(settings.part), noise_n_(settings.noise_n) {
        Chance chance(settings.seed ^ 0x43454c4c53ULL);
        for (Cell& cell : cells_) {
            cell.zero_counts = chance.between(-40000.0, 40000.0);
            cell.gain = 1.0 + settings.gain_error * chance.normal();
            cell.drift_n_per_s = settings.drift_n_per_min / 60.0 * chance.normal();
        }
    }

    DeviceDescription description() const override {
        DeviceDescription description;
        description.name = std::string(simulated_golfer) + ", two plates";
        description.full_scale_counts = plate_full_scale_counts;
        description.newtons_per_count = newtons_per_count;
        description.layout.kind = FrameKind::cells;
        const std::vector<PointM> places(cell_places.begin(), cell_places.end());
        description.layout.plates = {{"left", {-plate_offset_m, 0.0}, places},
                                     {"right", {plate_offset_m, 0.0}, places}};
        if (part_ == Part::left_plate) {
            description.name = std::string(simulated_golfer) + ", left plate";
            description.layout.plates.pop_back();
        } else if (part_ == Part::right_plate) {
            description.name = std::string(simulated_golfer) + ", right plate";
            description.layout.plates.erase(description.layout.plates.begin());
        }
        return description;
    }

    FrameValues measure(const GroundLoad& ground, double time_s, Chance& chance) override {
        measure_plate(ground.left, -plate_offset_m, 0, time_s, chance);
        measure_plate(ground.right, plate_offset_m, cells_per_plate, time_s, chance);
        const std::span<const std::int32_t> both(counts_);
        if (part_ == Part::left_plate) return both.first(cells_per_plate);
        if (part_ == Part::right_plate) return both.last(cells_per_plate);
        return both;
    }

  private:
    using Part = EmulatedDeviceSettings::Part;
    struct Cell {
        double zero_counts = 0.0;
        double gain = 1.0;
        double drift_n_per_s = 0.0;
    };

    void measure_plate(const FootLoad& foot, double centre_x_m, std::size_t first, double time_s,
                       Chance& chance) {
        const double u = (foot.cop.x_m - centre_x_m) / cell_x_m;
        const double v = foot.cop.y_m / cell_y_m;
        for (std::size_t i = 0; i < cells_per_plate; ++i) {
            const double along_x = 1.0 + (cell_places[i].x_m > 0.0 ? u : -u);
            const double along_y = 1.0 + (cell_places[i].y_m > 0.0 ? v : -v);
            const Cell& cell = cells_[first + i];
            const double force_n = 0.25 * foot.load_n * along_x * along_y * cell.gain +
                                   cell.drift_n_per_s * time_s + noise_n_ * chance.normal();
            const double counts = std::round(cell.zero_counts + force_n / newtons_per_count);
            counts_[first + i] = static_cast<std::int32_t>(
                std::clamp(counts, -plate_full_scale_counts, plate_full_scale_counts));
        }
    }

    Part part_;
    double noise_n_;
    std::array<Cell, 2 * cells_per_plate> cells_{};
    std::array<std::int32_t, 2 * cells_per_plate> counts_{};
};

}  // namespace

std::unique_ptr<EmulatedSensors> make_plate_sensors(const EmulatedDeviceSettings& settings) {
    return std::make_unique<PlateSensors>(settings);
}

}  // namespace footing
