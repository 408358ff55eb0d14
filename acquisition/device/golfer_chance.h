#pragma once

#include <cstdint>
#include <random>

namespace footing {

/// Random numbers that are the same everywhere for the same seed: the engine is fixed by the C++ standard,
/// and the distributions, which the standard leaves open, are our own.
class Chance {
  public:
    explicit Chance(std::uint64_t seed) : engine_(seed) {}

    /// Evenly spread over [low, high).
    [[nodiscard]] double between(double low, double high);
    /// True with this probability.
    [[nodiscard]] bool happens(double probability);
    /// Normal, mean 0, standard deviation 1 (polar method, Marsaglia & Bray 1964; from memory).
    [[nodiscard]] double normal();
    [[nodiscard]] std::uint64_t number() { return engine_(); }

  private:
    std::mt19937_64 engine_;
    double spare_ = 0.0;
    bool has_spare_ = false;
};

}  // namespace footing
