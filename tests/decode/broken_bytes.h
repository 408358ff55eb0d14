#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <span>
#include <string_view>
#include <vector>

namespace footing {

using Bytes = std::vector<std::byte>;

inline Bytes bytes_of(std::initializer_list<int> values) {
    Bytes bytes;
    for (const int value : values) bytes.push_back(static_cast<std::byte>(value));
    return bytes;
}

inline Bytes bytes_of(std::string_view text) {
    Bytes bytes;
    for (const char letter : text) bytes.push_back(static_cast<std::byte>(letter));
    return bytes;
}

inline Bytes cut_at(Bytes bytes, std::size_t length) {
    bytes.resize(length);
    return bytes;
}

inline Bytes flip_bit(Bytes bytes, std::size_t bit) {
    bytes[bit / 8] ^= static_cast<std::byte>(1U << (bit % 8));
    return bytes;
}

inline Bytes joined(std::initializer_list<std::span<const std::byte>> parts) {
    Bytes all;
    for (const auto part : parts) all.insert(all.end(), part.begin(), part.end());
    return all;
}

}  // namespace footing
