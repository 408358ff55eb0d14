#include "tests/import/c3d_sample.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <utility>

namespace footing::test {

namespace {

class Writer {
  public:
    explicit Writer(C3dByteOrder order) : order_(order) {}
    std::vector<std::byte> bytes;

    void byte(int value) { bytes.push_back(static_cast<std::byte>(value & 0xFF)); }
    void word(long value) {
        const int low = static_cast<int>(value & 0xFF);
        const int high = static_cast<int>((value >> 8) & 0xFF);
        byte(order_ == C3dByteOrder::mips ? high : low);
        byte(order_ == C3dByteOrder::mips ? low : high);
    }
    void real(double value) {
        for (const std::byte one : real_bytes(static_cast<float>(value), order_)) bytes.push_back(one);
    }
    void text(const std::string& text, std::size_t length) {
        for (std::size_t i = 0; i < length; ++i) byte(i < text.size() ? text[i] : ' ');
    }
    void fill_block() {
        while (bytes.size() % 512 != 0) byte(0);
    }

  private:
    C3dByteOrder order_;
};

class ParameterWriter {
  public:
    ParameterWriter(Writer& out) : out_(out) {}

    void group(int number, const std::string& name) {
        begin(-number, name);
        out_.word(3);
        out_.byte(0);
    }
    void words(int group, const std::string& name, const std::vector<int>& dimensions,
               const std::vector<double>& values) {
        record(group, name, 2, dimensions, values.size() * 2);
        for (const double value : values) out_.word(std::lround(value));
        out_.byte(0);
    }
    void reals(int group, const std::string& name, const std::vector<int>& dimensions,
               const std::vector<double>& values) {
        record(group, name, 4, dimensions, values.size() * 4);
        for (const double value : values) out_.real(value);
        out_.byte(0);
    }
    void texts(int group, const std::string& name, const std::vector<std::string>& values,
               std::size_t length) {
        record(group, name, -1, {static_cast<int>(length), static_cast<int>(values.size())},
               values.size() * length);
        for (const std::string& value : values) out_.text(value, length);
        out_.byte(0);
    }

  private:
    void begin(int number, const std::string& name) {
        out_.byte(static_cast<int>(name.size()));
        out_.byte(number);
        out_.text(name, name.size());
    }
    void record(int group, const std::string& name, int type, const std::vector<int>& dimensions,
                std::size_t size) {
        begin(group, name);
        out_.word(static_cast<long>(2 + 2 + dimensions.size() + size + 1));
        out_.byte(type);
        out_.byte(static_cast<int>(dimensions.size()));
        for (const int one : dimensions) out_.byte(one);
    }
    Writer& out_;
};

std::vector<double> flat(const C3dVector& a, double factor) {
    return {factor * a[0], factor * a[1], factor * a[2]};
}

double of(const std::vector<double>& values, std::size_t index, double fallback) {
    return index < values.size() ? values[index] : fallback;
}

}  // namespace

std::array<std::byte, 4> real_bytes(float value, C3dByteOrder order) {
    auto bits = std::bit_cast<std::uint32_t>(order == C3dByteOrder::dec ? value * 4.0F : value);
    std::array<std::byte, 4> bytes{};
    for (unsigned i = 0; i < 4; ++i) {
        unsigned place = i;
        if (order == C3dByteOrder::mips) place = 3 - i;
        if (order == C3dByteOrder::dec) place = i ^ 2U;
        bytes[place] = static_cast<std::byte>((bits >> (8 * i)) & 0xFFU);
    }
    return bytes;
}

std::vector<std::byte> C3dSample::bytes() const {
    const std::size_t samples = channels.empty() ? 0 : channels.front().size();
    const std::size_t frames = samples_per_frame > 0 ? samples / samples_per_frame : 0;
    const auto channel_count = static_cast<int>(channels.size());
    const auto plate_count = static_cast<int>(plates.size());

    Writer parameters(order);
    parameters.byte(1);
    parameters.byte(0x50);
    parameters.byte(0);  // blocks, below
    parameters.byte(order == C3dByteOrder::intel ? 84 : order == C3dByteOrder::dec ? 85 : 86);
    ParameterWriter put(parameters);
    const double point_scale = storage == Storage::reals ? -0.1 : 0.1;
    put.group(1, "POINT");
    put.words(1, "USED", {}, {static_cast<double>(points)});
    put.words(1, "FRAMES", {}, {static_cast<double>(frames)});
    put.reals(1, "SCALE", {}, {point_scale});
    put.reals(1, "RATE", {}, {point_rate_hz});
    put.texts(1, "UNITS", {length_unit}, 4);
    put.group(2, "ANALOG");
    put.words(2, "USED", {}, {static_cast<double>(channel_count)});
    put.reals(2, "RATE", {}, {point_rate_hz * static_cast<double>(samples_per_frame)});
    put.reals(2, "GEN_SCALE", {}, {general_scale});
    std::vector<double> scales;
    std::vector<double> offsets;
    std::vector<std::string> unit_names;
    for (std::size_t i = 0; i < channels.size(); ++i) {
        scales.push_back(of(scale, i, 1.0));
        offsets.push_back(of(offset, i, 0.0));
        unit_names.push_back(i < units.size() ? units[i] : "");
    }
    put.reals(2, "SCALE", {channel_count}, scales);
    put.words(2, "OFFSET", {channel_count}, offsets);
    put.texts(2, "UNITS", unit_names, 4);
    if (storage == Storage::unsigned_words) put.texts(2, "FORMAT", {"UNSIGNED"}, 8);
    if (!plates.empty()) {
        put.group(3, "FORCE_PLATFORM");
        put.words(3, "USED", {}, {static_cast<double>(plate_count)});
        std::vector<double> types;
        std::vector<double> corners;
        std::vector<double> origins;
        std::vector<double> numbers;
        std::vector<double> matrices;
        int stride = 6;
        for (const PlateSample& plate : plates) stride = plate.type == 3 ? 8 : stride;
        double next = 1;
        for (const PlateSample& plate : plates) {
            types.push_back(plate.type);
            for (const C3dVector& corner : plate.corners_m) {
                const auto one = flat(corner, 1.0 / unit_m);
                corners.insert(corners.end(), one.begin(), one.end());
            }
            const auto origin = flat(plate.origin_m, 1.0 / unit_m);
            origins.insert(origins.end(), origin.begin(), origin.end());
            const int count = plate.type == 3 ? 8 : 6;
            for (int i = 0; i < stride; ++i) numbers.push_back(i < count ? next++ : 0);
            auto matrix = plate.matrix;
            matrix.resize(36, 0.0);
            matrices.insert(matrices.end(), matrix.begin(), matrix.end());
        }
        put.words(3, "TYPE", {plate_count}, types);
        put.reals(3, "CORNERS", {3, 4, plate_count}, corners);
        put.reals(3, "ORIGIN", {3, plate_count}, origins);
        put.words(3, "CHANNEL", {stride, plate_count}, numbers);
        put.reals(3, "CAL_MATRIX", {6, 6, plate_count}, matrices);
        put.words(3, "ZERO", {2}, {static_cast<double>(zero[0]), static_cast<double>(zero[1])});
    }
    if (!events.empty()) {
        put.group(4, "EVENT");
        put.words(4, "USED", {}, {static_cast<double>(events.size())});
        std::vector<double> times;
        std::vector<std::string> labels;
        std::vector<std::string> contexts;
        for (const Event& event : events) {
            times.push_back(std::floor(event.time_s / 60.0));
            times.push_back(event.time_s - 60.0 * std::floor(event.time_s / 60.0));
            labels.push_back(event.label);
            contexts.push_back(event.context);
        }
        put.reals(4, "TIMES", {2, static_cast<int>(events.size())}, times);
        put.texts(4, "LABELS", labels, 16);
        put.texts(4, "CONTEXTS", contexts, 16);
    }
    parameters.byte(0);
    parameters.byte(0);
    parameters.fill_block();
    const std::size_t blocks = parameters.bytes.size() / 512;
    parameters.bytes[2] = static_cast<std::byte>(blocks);

    Writer file(order);
    file.byte(2);
    file.byte(0x50);
    file.word(static_cast<long>(points));
    file.word(static_cast<long>(channels.size() * samples_per_frame));
    file.word(static_cast<long>(first_frame));
    file.word(static_cast<long>(first_frame + frames - 1));
    file.word(0);
    file.real(point_scale);
    file.word(static_cast<long>(2 + blocks));
    file.word(static_cast<long>(samples_per_frame));
    file.real(point_rate_hz);
    file.fill_block();
    file.bytes.insert(file.bytes.end(), parameters.bytes.begin(), parameters.bytes.end());
    const auto put_value = [&](double value) {
        if (storage == Storage::reals) {
            file.real(value);
        } else {
            file.word(std::lround(value));
        }
    };
    for (std::size_t frame = 0; frame < frames; ++frame) {
        for (std::size_t i = 0; i < points * 4; ++i) put_value(7.0);
        for (std::size_t sample = 0; sample < samples_per_frame; ++sample) {
            for (std::size_t i = 0; i < channels.size(); ++i) {
                const double physical = channels[i][frame * samples_per_frame + sample];
                put_value(physical / (scales[i] * general_scale) + offsets[i]);
            }
        }
    }
    file.fill_block();
    return file.bytes;
}

C3dBytes in_memory(const std::vector<std::byte>& bytes) {
    return {bytes.size(), [&bytes](std::uint64_t offset, std::span<std::byte> into) {
                if (offset >= bytes.size()) return std::size_t{0};
                const std::size_t count = std::min<std::size_t>(into.size(), bytes.size() - offset);
                std::memcpy(into.data(), bytes.data() + offset, count);
                return count;
            }};
}

std::array<C3dVector, 4> corners_of(const C3dVector& centre, const C3dVector& x, const C3dVector& y,
                                    double size_x_m, double size_y_m) {
    const C3dVector half_x = 0.5 * size_x_m * x;
    const C3dVector half_y = 0.5 * size_y_m * y;
    return {centre + half_x + half_y, centre - half_x + half_y, centre - half_x - half_y,
            centre + half_x - half_y};
}

std::vector<double> channels_under(const C3dSample::PlateSample& plate, const C3dVector& force_n,
                                   const C3dVector& cop_m, double twist_n_m, double moment_unit_n_m) {
    if (plate.type == 3) {
        // Four sensors carry the force between them so that force and moment about the surface's centre are
        // right. The vertical shares are bilinear; the lever of the horizontal force down to the sensors
        // presses one side and lifts the other; the twist is carried by the x channels.
        const double a = plate.origin_m[0];
        const double b = plate.origin_m[1];
        const double depth = plate.origin_m[2];
        const C3dVector moment = cross(cop_m, force_n) + C3dVector{0.0, 0.0, twist_n_m};
        const double mx = moment[0] - depth * force_n[1];
        const double my = moment[1] + depth * force_n[0];
        const double quarter = 0.25 * force_n[2];
        const double by_x = mx / (4.0 * b);
        const double by_y = my / (4.0 * a);
        const double fx = 0.5 * force_n[0];
        const double twist_x = moment[2] / (2.0 * b);
        return {fx - twist_x,          fx + twist_x,          0.5 * force_n[1],      0.5 * force_n[1],
                quarter + by_x - by_y, quarter + by_x + by_y, quarter - by_x + by_y, quarter - by_x - by_y};
    }
    // About the sensors' origin, which lies at -origin from the surface's centre.
    const C3dVector moment = cross(cop_m + plate.origin_m, force_n) + C3dVector{0.0, 0.0, twist_n_m};
    std::vector<double> wanted{force_n[0], force_n[1], force_n[2]};
    for (const double one : moment) wanted.push_back(one / moment_unit_n_m);
    if (plate.type != 4) return wanted;
    // Gauss-Jordan on 6 x 6: channels such that matrix * channels = wanted.
    double system[6][7] = {};
    for (std::size_t row = 0; row < 6; ++row) {
        for (std::size_t column = 0; column < 6; ++column)
            system[row][column] = plate.matrix[6 * column + row];
        system[row][6] = wanted[row];
    }
    for (std::size_t pivot = 0; pivot < 6; ++pivot) {
        for (std::size_t row = 0; row < 6; ++row) {
            if (row == pivot) continue;
            const double factor = system[row][pivot] / system[pivot][pivot];
            for (std::size_t column = 0; column < 7; ++column)
                system[row][column] -= factor * system[pivot][column];
        }
    }
    std::vector<double> channels(6);
    for (std::size_t i = 0; i < 6; ++i) channels[i] = system[i][6] / system[i][i];
    return channels;
}

}  // namespace footing::test
