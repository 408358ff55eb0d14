#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

// The door of the fuzzer of the same name (tests/fuzz): reads any bytes as the program would.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace footing {

using Input = std::vector<std::uint8_t>;

/// A seed: the door's first byte (what the bytes are read as), then good bytes.
[[nodiscard]] inline Input seed_of(std::uint8_t read_as, std::span<const std::byte> bytes) {
    Input input{read_as};
    for (const std::byte byte : bytes) input.push_back(std::to_integer<std::uint8_t>(byte));
    return input;
}
[[nodiscard]] inline Input seed_of(std::uint8_t read_as, const std::string& text) {
    return seed_of(read_as, std::as_bytes(std::span(text)));
}

/// Mutates the seeds (bytes changed, inserted, removed, moved, cut off; now and then nothing but chance) and
/// gives each to the door, as often as `--inputs` says, in a process that may have 1 GB. A crash, a broken
/// promise or too much memory ends the program; else it prints how many inputs it survived. For main to
/// return.
int survive_mutations(const std::string& what, const std::vector<Input>& seeds, int count, char** words);

}  // namespace footing
