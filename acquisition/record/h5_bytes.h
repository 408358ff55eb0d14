#pragma once

#include <cstdint>
#include <cstring>
#include <span>
#include <stdexcept>
#include <string>
#include <type_traits>
#include <vector>

#include "acquisition/record/read_only_file.h"

namespace footing::h5 {

/// Thrown and caught inside the h5_* files only; it becomes a Problem at read_structure().
struct Malformed : std::runtime_error {
    using std::runtime_error::runtime_error;
};

inline constexpr std::uint64_t no_address = ~std::uint64_t{0};

/// Walks over bytes and never past their end.
class ByteCursor {
  public:
    explicit ByteCursor(std::span<const std::byte> bytes) : bytes_(bytes) {}

    template <typename Number>
    requires std::is_integral_v<Number> Number take() {
        Number number{};
        std::memcpy(&number, take_bytes(sizeof(Number)).data(), sizeof(Number));
        return number;
    }
    std::span<const std::byte> take_bytes(std::size_t count) {
        if (count > bytes_.size()) throw Malformed("a structure ends too early");
        const std::span<const std::byte> taken = bytes_.first(count);
        bytes_ = bytes_.subspan(count);
        return taken;
    }
    void skip(std::size_t count) { static_cast<void>(take_bytes(count)); }
    [[nodiscard]] std::size_t left() const { return bytes_.size(); }

  private:
    std::span<const std::byte> bytes_;
};

/// Exactly `count` bytes of the file at `address`.
inline std::vector<std::byte> load(const ReadOnlyFile& file, std::uint64_t address, std::size_t count) {
    if (address >= file.size() || count > file.size() - address) {
        throw Malformed("a structure lies beyond the end of the file");
    }
    std::vector<std::byte> bytes(count);
    if (file.read_at(address, bytes) != count) throw Malformed("the file became shorter while it was read");
    return bytes;
}

inline void expect_signature(ByteCursor& cursor, const char (&signature)[5]) {
    if (std::memcmp(cursor.take_bytes(4).data(), signature, 4) != 0) {
        throw Malformed(std::string("a ") + signature + " block is not where it should be");
    }
}

}  // namespace footing::h5
