#include "acquisition/import/c3d_parameters.h"

#include <algorithm>
#include <cstdint>
#include <cstdlib>

namespace footing {

namespace {

char capital(char letter) {
    return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter;
}

Problem bad_record(const std::string& place, std::size_t offset, const std::string& what) {
    return {ProblemKind::bad_input, place + ", byte " + std::to_string(offset) + " of the parameters", what,
            "the file is damaged; export it again"};
}

}  // namespace

std::string c3d_text(const C3dNumbers& bytes, std::size_t offset, std::size_t length) {
    std::string text;
    for (std::size_t i = 0; i < length; ++i) {
        const char letter = static_cast<char>(bytes.byte(offset + i));
        if (letter == '\0') break;
        text += letter >= ' ' && letter <= '~' ? letter : '?';
    }
    text.erase(text.find_last_not_of(' ') + 1);
    text.erase(0, std::min(text.find_first_not_of(' '), text.size()));
    return text;
}

Result<C3dParameters> C3dParameters::parse(const C3dNumbers& section, const std::string& place) {
    C3dParameters all;
    const std::size_t size = section.bytes().size();
    std::size_t position = c3d::first_record_offset;
    while (position + 2 <= size) {
        const auto name_length = static_cast<std::size_t>(
            std::abs(static_cast<int>(static_cast<std::int8_t>(section.byte(position)))));
        const int number = static_cast<std::int8_t>(section.byte(position + 1));
        if (name_length == 0) break;
        const std::size_t pointer = position + 2 + name_length;
        if (pointer + 2 > size) return bad_record(place, position, "a name reaches beyond the parameters");
        std::string name = c3d_text(section, position + 2, name_length);
        std::ranges::transform(name, name.begin(), capital);

        std::size_t record_end = pointer + 2;
        if (number < 0) {
            all.groups_.push_back({-number, std::move(name)});
        } else {
            Parameter parameter{number, std::move(name), c3d::ElementType::byte, {}, {}, {}};
            std::size_t at = pointer + 2;
            const int type = static_cast<std::int8_t>(section.byte(at++));
            const std::size_t dimension_count = section.byte(at++);
            const bool known_type = type == -1 || type == 1 || type == 2 || type == 4;
            if (!known_type || dimension_count > c3d::most_dimensions) {
                return bad_record(place, position,
                                  "parameter " + parameter.name + " is of no type that C3D knows");
            }
            parameter.type = static_cast<c3d::ElementType>(type);
            std::uint64_t count = 1;
            for (std::size_t i = 0; i < dimension_count; ++i) {
                parameter.dimensions.push_back(section.byte(at++));
                count *= parameter.dimensions.back();
            }
            const auto element_bytes = static_cast<std::size_t>(std::abs(type));
            if (at > size || count > (size - at) / element_bytes) {
                return bad_record(place, position,
                                  "parameter " + parameter.name + " reaches beyond the parameters");
            }
            record_end = at + static_cast<std::size_t>(count) * element_bytes;
            if (parameter.type == c3d::ElementType::character) {
                const std::size_t length = parameter.dimensions.empty() ? 1 : parameter.dimensions.front();
                for (std::size_t i = 0; length > 0 && i < count / length; ++i) {
                    parameter.words.push_back(c3d_text(section, at + i * length, length));
                }
            } else {
                parameter.values.reserve(count);
                for (std::size_t i = 0; i < count; ++i) {
                    const std::size_t element = at + i * element_bytes;
                    switch (parameter.type) {
                        case c3d::ElementType::word:
                            parameter.values.push_back(section.signed_word(element));
                            break;
                        case c3d::ElementType::real:
                            parameter.values.push_back(section.real(element));
                            break;
                        default:
                            parameter.values.push_back(section.byte(element));
                            break;
                    }
                }
            }
            all.parameters_.push_back(std::move(parameter));
        }

        const std::size_t step = section.word(pointer);
        if (step == 0) break;
        // Records that overlap would let a small file claim a lot of memory.
        if (pointer + step < record_end) {
            return bad_record(place, position, "a parameter begins inside the one before it");
        }
        position = pointer + step;
    }
    return all;
}

const C3dParameters::Parameter* C3dParameters::find(std::string_view group, std::string_view name) const {
    for (const Group& candidate : groups_) {
        if (candidate.name != group) continue;
        for (const Parameter& parameter : parameters_) {
            if (parameter.group == candidate.number && parameter.name == name) return &parameter;
        }
    }
    return nullptr;
}

bool C3dParameters::has(std::string_view group, std::string_view name) const {
    return find(group, name) != nullptr;
}

std::vector<double> C3dParameters::numbers(std::string_view group, std::string_view name) const {
    const Parameter* found = find(group, name);
    return found == nullptr ? std::vector<double>{} : found->values;
}

std::vector<double> C3dParameters::counts(std::string_view group, std::string_view name) const {
    const Parameter* found = find(group, name);
    if (found == nullptr) return {};
    std::vector<double> values = found->values;
    if (found->type == c3d::ElementType::word) {
        for (double& value : values) {
            if (value < 0.0) value += 65536.0;
        }
    }
    return values;
}

std::optional<double> C3dParameters::number(std::string_view group, std::string_view name) const {
    const std::vector<double> all = numbers(group, name);
    return all.empty() ? std::nullopt : std::optional(all.front());
}

std::optional<double> C3dParameters::count(std::string_view group, std::string_view name) const {
    const std::vector<double> all = counts(group, name);
    return all.empty() ? std::nullopt : std::optional(all.front());
}

std::vector<std::string> C3dParameters::texts(std::string_view group, std::string_view name) const {
    const Parameter* found = find(group, name);
    return found == nullptr ? std::vector<std::string>{} : found->words;
}

std::vector<std::size_t> C3dParameters::dimensions(std::string_view group, std::string_view name) const {
    const Parameter* found = find(group, name);
    return found == nullptr ? std::vector<std::size_t>{} : found->dimensions;
}

}  // namespace footing
