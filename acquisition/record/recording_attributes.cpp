#include "acquisition/record/recording_attributes.h"

#include <algorithm>

namespace footing {

using recording::ElementType;

Problem unfit(const std::string& place, const Unfit& unfit) {
    return {ProblemKind::bad_input, place + ", " + unfit.object, unfit.what,
            "it is damaged, or no recording of Footing: look for another copy of it, or for its journal"};
}

bool has_type(const h5::ElementType& stored, ElementType wanted) {
    const auto is = [&](h5::ElementClass element_class, std::uint32_t bytes) {
        return stored.element_class == element_class && stored.bytes == bytes;
    };
    switch (wanted) {
        case ElementType::uint16:
            return is(h5::ElementClass::unsigned_integer, 2);
        case ElementType::uint32:
            return is(h5::ElementClass::unsigned_integer, 4);
        case ElementType::uint64:
            return is(h5::ElementClass::unsigned_integer, 8);
        case ElementType::int32:
            return is(h5::ElementClass::signed_integer, 4);
        case ElementType::int64:
            return is(h5::ElementClass::signed_integer, 8);
        case ElementType::float64:
            return is(h5::ElementClass::floating, 8);
        case ElementType::text:
            return stored.element_class == h5::ElementClass::text;
    }
    return false;
}

std::optional<std::string> text_attribute(const Attributes& attributes, std::string_view name) {
    const auto found = attributes.find(std::string(name));
    if (found == attributes.end() || found->second.type.element_class != h5::ElementClass::text)
        return std::nullopt;
    const std::vector<std::byte>& value = found->second.value;
    const auto end = std::find(value.begin(), value.end(), std::byte{0});
    return std::string(reinterpret_cast<const char*>(value.data()),
                       static_cast<std::size_t>(end - value.begin()));
}

}  // namespace footing
