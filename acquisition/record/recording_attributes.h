#pragma once

#include <cstring>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "acquisition/frame/result.h"
#include "acquisition/record/h5_structure.h"
#include "acquisition/record/recording_format.h"

namespace footing {

/// What does not fit a recording of Footing, while it is read: carried up to the function that makes a
/// Problem of it, and no further.
struct Unfit {
    std::string object;
    std::string what;
};
[[nodiscard]] Problem unfit(const std::string& place, const Unfit& unfit);

[[nodiscard]] bool has_type(const h5::ElementType& stored, recording::ElementType wanted);

using Attributes = std::map<std::string, h5::Attribute>;
/// Absent where there is none of the name and type.
[[nodiscard]] std::optional<std::string> text_attribute(const Attributes& attributes, std::string_view name);
template <typename Number>
[[nodiscard]] std::optional<Number> number_attribute(const Attributes& attributes, std::string_view name,
                                                     recording::ElementType type) {
    const auto found = attributes.find(std::string(name));
    if (found == attributes.end() || !has_type(found->second.type, type) ||
        found->second.value.size() != sizeof(Number)) {
        return std::nullopt;
    }
    Number number{};
    std::memcpy(&number, found->second.value.data(), sizeof number);
    return number;
}

}  // namespace footing
