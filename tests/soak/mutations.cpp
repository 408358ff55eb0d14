#include "tests/soak/mutations.h"

#include <fmt/format.h>
#include <sys/resource.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdlib>
#include <random>

#include "tests/soak/memory.h"

namespace footing {

namespace {

constexpr rlim_t most_memory_bytes = rlim_t{1} << 30U;

class Mutator {
  public:
    explicit Mutator(const std::vector<Input>& seeds) : seeds_(seeds) {}

    [[nodiscard]] Input next() {
        Input input = seeds_[below(seeds_.size())];
        if (below(20) == 0) {
            // Nothing but chance behind the first byte.
            input.resize(1 + below(400));
            for (std::size_t i = 1; i < input.size(); ++i) input[i] = byte();
        }
        for (std::size_t changes = 1 + below(8); changes > 0; --changes) change(input);
        return input;
    }

  private:
    std::size_t below(std::size_t limit) { return limit == 0 ? 0 : chance_() % limit; }
    std::uint8_t byte() { return static_cast<std::uint8_t>(chance_() >> 24U); }
    /// Any place but the first byte, which says what is read.
    std::size_t place(const Input& input) { return input.size() < 2 ? 1 : 1 + below(input.size() - 1); }

    void change(Input& input) {
        const std::size_t at = std::min(place(input), input.size());
        const auto here = input.begin() + static_cast<std::ptrdiff_t>(at);
        const std::size_t length = std::min<std::size_t>(1 + below(16), input.size() - at);
        switch (below(8)) {
            case 0:
                if (at < input.size()) input[at] = byte();
                break;
            case 1:
                if (at < input.size()) input[at] ^= static_cast<std::uint8_t>(1U << below(8));
                break;
            case 2: {
                // Values at which counts and lengths break.
                constexpr std::array<std::uint8_t, 6> edges{0x00, 0x01, 0x7F, 0x80, 0xFE, 0xFF};
                std::fill_n(here, length, edges[below(edges.size())]);
                break;
            }
            case 3:
                input.insert(here, 1 + below(16), byte());
                break;
            case 4:
                input.erase(here, here + static_cast<std::ptrdiff_t>(length));
                break;
            case 5: {
                const Input piece(here, here + static_cast<std::ptrdiff_t>(length));
                const std::size_t to = std::min(place(input), input.size());
                input.insert(input.begin() + static_cast<std::ptrdiff_t>(to), piece.begin(), piece.end());
                break;
            }
            case 6: {
                constexpr std::array<const char*, 10> words{"-1",   "1e999", "nan", "4294967296", "\"",
                                                            "\n\n", ",,,",   "{",   "]",          "\r\n#"};
                const std::string word = words[below(words.size())];
                input.insert(here, word.begin(), word.end());
                break;
            }
            default:
                if (below(4) == 0) input.resize(at);
                break;
        }
    }

    const std::vector<Input>& seeds_;
    std::mt19937_64 chance_{22};
};

}  // namespace

int survive_mutations(const std::string& what, const std::vector<Input>& seeds, int count, char** words) {
    std::uint64_t inputs = 1'000'000;
    for (int i = 1; i + 1 < count; i += 2) {
        if (std::string(words[i]) == "--inputs") inputs = std::strtoull(words[i + 1], nullptr, 10);
    }
    const rlimit limit{most_memory_bytes, most_memory_bytes};
    ::setrlimit(RLIMIT_AS, &limit);
    Mutator mutator(seeds);
    const auto begin = std::chrono::steady_clock::now();
    for (std::uint64_t i = 0; i < inputs; ++i) {
        const Input input = mutator.next();
        LLVMFuzzerTestOneInput(input.data(), input.size());
    }
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    fmt::print("  {}: {} mutated inputs survived in {:.0f} s, most memory {:.1f} MB\n", what, inputs,
               took.count(), memory_mb("VmHWM:"));
    return 0;
}

}  // namespace footing
