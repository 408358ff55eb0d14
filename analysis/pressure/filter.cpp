#include "analysis/pressure/filter.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace footing {

namespace {

constexpr double pi = std::numbers::pi;

/// Transposed direct form II: what a section remembers.
struct Memory {
    double z0 = 0.0;
    double z1 = 0.0;
};

inline double step(const Section& section, Memory& memory, double x) {
    const double y = section.b0 * x + memory.z0;
    memory.z0 = section.b1 * x - section.a1 * y + memory.z1;
    memory.z1 = section.b2 * x - section.a2 * y;
    return y;
}

double gain_at_rest(const Section& section) {
    return (section.b0 + section.b1 + section.b2) / (1.0 + section.a1 + section.a2);
}

/// The memory that a section has when `level` came for ever (scipy.signal.sosfilt_zi).
Memory steady_memory(const Section& section, double level) {
    const double out = gain_at_rest(section) * level;
    return {out - section.b0 * level, section.b2 * level - section.a2 * out};
}

template <std::size_t Count>
using Memories = std::array<Memory, Count>;

template <std::size_t Count>
Memories<Count> steady_memories(std::span<const Section> sections, double level) {
    Memories<Count> memories;
    for (std::size_t i = 0; i < Count; ++i) {
        memories[i] = steady_memory(sections[i], level);
        level *= gain_at_rest(sections[i]);
    }
    return memories;
}

template <std::size_t Count>
inline double cascade(const Section* sections, Memories<Count>& memories, double x) {
    for (std::size_t i = 0; i < Count; ++i) x = step(sections[i], memories[i], x);
    return x;
}

/// Samples after which nothing of a wrong start is left in double precision.
std::size_t settling_samples(std::span<const Section> sections) {
    double radius = 0.0;
    for (const Section& section : sections) {
        // Complex poles: |p|^2 = a2; real ones: the larger root.
        const double discriminant = section.a1 * section.a1 - 4.0 * section.a2;
        const double largest = discriminant <= 0.0 ? std::sqrt(section.a2)
                                                   : 0.5 * (std::abs(section.a1) + std::sqrt(discriminant));
        radius = std::max(radius, largest);
    }
    if (radius <= 0.0) return 8;
    if (radius >= 1.0) return static_cast<std::size_t>(-1) / 64;
    return static_cast<std::size_t>(std::log(1e-19) / std::log(radius)) + 8 * sections.size();
}

enum class Direction { forward, backward };

/// Two samples at once, far apart in the column.
using Pair = double __attribute__((vector_size(16)));

struct PairSection {
    Pair b0, b1, b2, a1, a2;
};

struct PairMemory {
    Pair z0, z1;
};

Pair both(double value) {
    return Pair{value, value};
}

PairSection both(const Section& section) {
    return {both(section.b0), both(section.b1), both(section.b2), both(section.a1), both(section.a2)};
}

/// The same operations in the same order as for one sample.
inline Pair step(const PairSection& section, PairMemory& memory, Pair x) {
    const Pair y = section.b0 * x + memory.z0;
    memory.z0 = section.b1 * x - section.a1 * y + memory.z1;
    memory.z1 = section.b2 * x - section.a2 * y;
    return y;
}

/// One pass over a column in place. Each output waits for the one before it, which leaves most of the
/// processor idle; so a long column is cut in parts that go in step, two in each vector. A
/// part starts from the memory it would have, got by running over the end of the part before it for as long
/// as a wrong start can be seen at all.
template <std::size_t Count, Direction direction>
void pass(std::span<const Section> all_sections, std::span<double> column, Memories<Count>& memories) {
    std::array<Section, Count> sections;
    std::copy_n(all_sections.begin(), Count, sections.begin());
    const std::size_t n = column.size();
    const auto at = [&](std::size_t i) -> double& {
        if constexpr (direction == Direction::forward) {
            return column[i];
        } else {
            return column[n - 1 - i];
        }
    };
    constexpr std::size_t pairs = Count == 1 ? 4 : 2;  // as many as the processor has registers for
    constexpr std::size_t parts = 2 * pairs;
    const std::size_t settling = settling_samples(all_sections);
    const std::size_t length = n / parts;
    std::size_t done = 0;
    if (length >= 4 * settling) {
        std::array<Memories<Count>, parts> start;
        start[0] = memories;
        for (std::size_t part = 1; part < parts; ++part) {
            const std::size_t begin = part * length - settling;
            start[part] = steady_memories<Count>(sections, at(begin));
            for (std::size_t i = begin; i < part * length; ++i)
                static_cast<void>(cascade<Count>(sections.data(), start[part], at(i)));
        }
        std::array<PairSection, Count> wide;
        for (std::size_t k = 0; k < Count; ++k) wide[k] = both(sections[k]);
        std::array<std::array<PairMemory, Count>, pairs> memory;
        for (std::size_t pair = 0; pair < pairs; ++pair) {
            for (std::size_t k = 0; k < Count; ++k) {
                const Memory& one = start[2 * pair][k];
                const Memory& other = start[2 * pair + 1][k];
                memory[pair][k] = PairMemory{Pair{one.z0, other.z0}, Pair{one.z1, other.z1}};
            }
        }
        for (std::size_t i = 0; i < length; ++i) {
            for (std::size_t pair = 0; pair < pairs; ++pair) {
                double& one = at(2 * pair * length + i);
                double& other = at((2 * pair + 1) * length + i);
                Pair x{one, other};
                for (std::size_t k = 0; k < Count; ++k) x = step(wide[k], memory[pair][k], x);
                one = x[0];
                other = x[1];
            }
        }
        for (std::size_t k = 0; k < Count; ++k)
            memories[k] = {memory[pairs - 1][k].z0[1], memory[pairs - 1][k].z1[1]};
        done = parts * length;
    }
    Memories<Count> memory = memories;
    for (; done < n; ++done) at(done) = cascade<Count>(sections.data(), memory, at(done));
    memories = memory;
}

template <std::size_t Count>
void zero_lag(std::span<const Section> sections, std::span<double> column) {
    std::size_t zeros_at_origin_b = 0;
    std::size_t zeros_at_origin_a = 0;
    for (const Section& section : sections) {
        zeros_at_origin_b += section.b2 == 0.0 ? 1 : 0;
        zeros_at_origin_a += section.a2 == 0.0 ? 1 : 0;
    }
    const std::size_t taps = 2 * Count + 1 - std::min(zeros_at_origin_b, zeros_at_origin_a);
    const std::size_t n = column.size();
    const std::size_t edge = std::min(3 * taps, n - 1);
    std::vector<double> before(edge);
    std::vector<double> after(edge);
    for (std::size_t i = 0; i < edge; ++i) {
        before[i] = 2.0 * column[0] - column[edge - i];
        after[i] = 2.0 * column[n - 1] - column[n - 2 - i];
    }

    Memories<Count> memories = steady_memories<Count>(sections, edge > 0 ? before[0] : column[0]);
    pass<Count, Direction::forward>(sections, before, memories);
    pass<Count, Direction::forward>(sections, column, memories);
    pass<Count, Direction::forward>(sections, after, memories);
    memories = steady_memories<Count>(sections, edge > 0 ? after.back() : column[n - 1]);
    pass<Count, Direction::backward>(sections, after, memories);
    pass<Count, Direction::backward>(sections, column, memories);
}

}  // namespace

std::vector<Section> butterworth_low_pass(int order, double cutoff_hz, double rate_hz) {
    assert(order > 0 && order % 2 == 0);
    assert(cutoff_hz > 0.0 && cutoff_hz < 0.5 * rate_hz);
    const double warped = std::tan(pi * cutoff_hz / rate_hz);
    std::vector<Section> sections;
    for (int i = 0; i < order / 2; ++i) {
        const double damping = 2.0 * std::sin(pi * (2 * i + 1) / (2.0 * order));
        const double scale = 1.0 / (1.0 + damping * warped + warped * warped);
        const double b0 = warped * warped * scale;
        sections.push_back({b0, 2.0 * b0, b0, 2.0 * (warped * warped - 1.0) * scale,
                            (1.0 - damping * warped + warped * warped) * scale});
    }
    return sections;
}

double cutoff_for_two_passes(int order, double cutoff_hz, double rate_hz) {
    const double correction = std::pow(std::numbers::sqrt2 - 1.0, 1.0 / (2.0 * order));
    return std::atan(std::tan(pi * cutoff_hz / rate_hz) / correction) * rate_hz / pi;
}

CausalFilter::CausalFilter(std::vector<Section> sections)
    : sections_(std::move(sections)), states_(sections_.size()) {}

void CausalFilter::settle_at(double level) {
    for (std::size_t i = 0; i < sections_.size(); ++i) {
        const Memory memory = steady_memory(sections_[i], level);
        states_[i] = {memory.z0, memory.z1};
        level *= gain_at_rest(sections_[i]);
    }
    settled_ = true;
}

double CausalFilter::operator()(double sample) {
    if (std::isnan(sample)) return sample;
    if (!settled_) settle_at(sample);
    for (std::size_t i = 0; i < sections_.size(); ++i) {
        Memory memory{states_[i].z0, states_[i].z1};
        sample = step(sections_[i], memory, sample);
        states_[i] = {memory.z0, memory.z1};
    }
    return sample;
}

void zero_lag_filter(std::span<const Section> sections, std::span<double> column) {
    if (column.size() < 2) return;
    switch (sections.size()) {
        case 0:
            return;
        case 1:
            return zero_lag<1>(sections, column);
        case 2:
            return zero_lag<2>(sections, column);
        case 3:
            return zero_lag<3>(sections, column);
        case 4:
            return zero_lag<4>(sections, column);
        default:
            assert(false && "orders up to 8 are supported");
    }
}

void zero_lag_filter_known(std::span<const Section> sections, std::span<double> column) {
    const auto is_known = [](double value) { return !std::isnan(value); };
    auto begin = std::find_if(column.begin(), column.end(), is_known);
    while (begin != column.end()) {
        const auto end = std::find_if_not(begin, column.end(), is_known);
        zero_lag_filter(sections, std::span<double>(begin, end));
        begin = std::find_if(end, column.end(), is_known);
    }
}

}  // namespace footing
