#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace footing {

/// How many, with the word that goes with the number: "1 swing", "8 swings".
[[nodiscard]] std::string count_words(std::uint64_t count, std::string_view one, std::string_view many);

/// Some of how many: "5 of 6 shots", "1 of 1 shot". The word goes with how many there are in all.
[[nodiscard]] std::string part_words(std::uint64_t some, std::uint64_t all, std::string_view one,
                                     std::string_view many);

}  // namespace footing
