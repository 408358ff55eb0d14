#include "acquisition/frame/count_words.h"

namespace footing {

std::string count_words(std::uint64_t count, std::string_view one, std::string_view many) {
    return std::to_string(count).append(" ").append(count == 1 ? one : many);
}

std::string part_words(std::uint64_t some, std::uint64_t all, std::string_view one, std::string_view many) {
    return std::to_string(some) + " of " + count_words(all, one, many);
}

}  // namespace footing
