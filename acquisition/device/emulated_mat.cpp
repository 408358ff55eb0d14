#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "acquisition/device/emulated_sensors.h"
#include "acquisition/frame/simulated_golfer.h"

namespace footing {

namespace {

constexpr double mat_width_m = 0.72;
constexpr double mat_depth_m = 0.48;
constexpr double full_scale_pa = 500e3;
constexpr double mat_full_scale_counts = 4095.0;  // 12 bits
constexpr double threshold_pa = 2.5e3;
constexpr double element_gain_error = 0.01;

// The four parts of a foot, from its middle: where they press, and how far each reaches.
constexpr double part_x_m = 0.022;
constexpr double part_y_m = 0.09;
constexpr double reach_x_m = 0.032;
constexpr double reach_y_m = 0.055;
constexpr std::size_t parts_per_foot = 4;
constexpr std::array<PointM, parts_per_foot> part_places{
    {{-part_x_m, part_y_m}, {part_x_m, part_y_m}, {-part_x_m, -part_y_m}, {part_x_m, -part_y_m}}};

/// Rounded to a tenth of a millimetre, as data sheets state it.
double stated_pitch_m(double extent_m, std::uint32_t elements) {
    return std::round(extent_m / elements * 1e4) * 1e-4;
}

class MatSensors final : public EmulatedSensors {
  public:
    MatSensors(const EmulatedDeviceSettings& settings, const GolferBody& body) {
        grid_.rows = settings.rows;
        grid_.columns = settings.columns;
        grid_.pitch_x_m = stated_pitch_m(mat_width_m, settings.columns);
        grid_.pitch_y_m = stated_pitch_m(mat_depth_m, settings.rows);
        const double area = grid_.pitch_x_m * grid_.pitch_y_m;
        newtons_per_count_ = std::round(full_scale_pa * area / mat_full_scale_counts * 1e6) * 1e-6;
        threshold_n_ = threshold_pa * area;
        noise_n_ = 0.1 * threshold_n_;
        Chance chance(settings.seed ^ 0x4d4154ULL);
        gains_.resize(std::size_t{grid_.rows} * grid_.columns);
        for (double& gain : gains_) gain = 1.0 + element_gain_error * chance.normal();
        force_n_.resize(gains_.size());
        counts_.resize(gains_.size());
        feet_[0].middle = body.left_foot();
        feet_[1].middle = body.right_foot();
        for (Foot& foot : feet_) {
            for (std::size_t part = 0; part < parts_per_foot; ++part) foot.parts[part] = press(foot, part);
        }
    }

    DeviceDescription description() const override {
        DeviceDescription description;
        description.name = std::string(simulated_golfer) + ", mat";
        description.full_scale_counts = mat_full_scale_counts;
        description.newtons_per_count = newtons_per_count_;
        description.layout.kind = FrameKind::grid;
        description.layout.grid = grid_;
        return description;
    }

    FrameValues measure(const GroundLoad& ground, double /*time_s*/, Chance& chance) override {
        std::fill(force_n_.begin(), force_n_.end(), 0.0);
        load(feet_[0], ground.left);
        load(feet_[1], ground.right);
        for (std::size_t i = 0; i < force_n_.size(); ++i) {
            counts_[i] = 0;
            if (force_n_[i] <= 0.0) continue;
            const double read_n = force_n_[i] * gains_[i] + noise_n_ * chance.normal();
            if (read_n < threshold_n_) continue;
            counts_[i] = static_cast<std::uint16_t>(
                std::min(std::round(read_n / newtons_per_count_), mat_full_scale_counts));
        }
        return std::span<const std::uint16_t>(counts_);
    }

  private:
    struct Element {
        std::size_t index;
        double weight;
    };
    struct Foot {
        PointM middle;
        std::array<std::vector<Element>, parts_per_foot> parts;  ///< the weights of each part add up to 1
    };

    /// A rounded heap of pressure, cut into a fine lattice and dropped into the elements, so that it keeps
    /// its centre on coarse grids as far as their elements allow.
    [[nodiscard]] std::vector<Element> press(const Foot& foot, std::size_t part) const {
        constexpr int lattice = 40;
        std::vector<double> weights(gains_.size(), 0.0);
        double sum = 0.0;
        for (int row = 0; row < lattice; ++row) {
            for (int column = 0; column < lattice; ++column) {
                const double u = (column + 0.5) / lattice * 2.0 - 1.0;
                const double v = (row + 0.5) / lattice * 2.0 - 1.0;
                const double pressure = 1.0 - u * u - v * v;
                if (pressure <= 0.0) continue;
                const double x = foot.middle.x_m + part_places[part].x_m + u * reach_x_m;
                const double y = foot.middle.y_m + part_places[part].y_m + v * reach_y_m;
                const double at_column = std::floor(x / grid_.pitch_x_m + 0.5 * grid_.columns);
                const double at_row = std::floor(0.5 * grid_.rows - y / grid_.pitch_y_m);
                if (at_column < 0.0 || at_column >= grid_.columns || at_row < 0.0 || at_row >= grid_.rows)
                    continue;
                weights[static_cast<std::size_t>(at_row) * grid_.columns +
                        static_cast<std::size_t>(at_column)] += pressure;
                sum += pressure;
            }
        }
        std::vector<Element> elements;
        for (std::size_t i = 0; i < weights.size(); ++i) {
            if (weights[i] > 0.0) elements.push_back({i, weights[i] / sum});
        }
        return elements;
    }

    void load(const Foot& foot, const FootLoad& on_it) {
        if (on_it.load_n <= 0.0) return;
        const double u = std::clamp((on_it.cop.x_m - foot.middle.x_m) / part_x_m, -1.0, 1.0);
        const double v = std::clamp((on_it.cop.y_m - foot.middle.y_m) / part_y_m, -1.0, 1.0);
        for (std::size_t part = 0; part < parts_per_foot; ++part) {
            const double along_x = 1.0 + (part_places[part].x_m > 0.0 ? u : -u);
            const double along_y = 1.0 + (part_places[part].y_m > 0.0 ? v : -v);
            const double part_n = 0.25 * on_it.load_n * along_x * along_y;
            for (const Element& element : foot.parts[part])
                force_n_[element.index] += part_n * element.weight;
        }
    }

    Grid grid_;
    double newtons_per_count_ = 1.0;
    double threshold_n_ = 0.0;
    double noise_n_ = 0.0;
    std::vector<double> gains_;
    std::vector<double> force_n_;
    std::vector<std::uint16_t> counts_;
    std::array<Foot, 2> feet_;
};

}  // namespace

std::unique_ptr<EmulatedSensors> make_mat_sensors(const EmulatedDeviceSettings& settings,
                                                  const GolferBody& body) {
    return std::make_unique<MatSensors>(settings, body);
}

}  // namespace footing
