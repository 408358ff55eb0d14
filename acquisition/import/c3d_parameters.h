#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/result.h"
#include "acquisition/import/c3d_format.h"
#include "acquisition/import/c3d_numbers.h"

namespace footing {

/// Text as C3D stores it, of fixed length: without the blanks or zeros that fill it up; what is not printable
/// ASCII becomes a question mark, so that it can be shown and stored anywhere.
[[nodiscard]] std::string c3d_text(const C3dNumbers& bytes, std::size_t offset, std::size_t length);

/// The parameters of a C3D file, by GROUP and NAME. Names are compared in capitals. Allocates only for what
/// really stands in the bytes.
class C3dParameters {
  public:
    /// `section` begins at the parameter section's first byte and ends where the data begin, or the file.
    /// Fails with bad_input, naming `place`, when a record reaches beyond the section or points backwards.
    [[nodiscard]] static Result<C3dParameters> parse(const C3dNumbers& section, const std::string& place);

    [[nodiscard]] bool has(std::string_view group, std::string_view name) const;
    /// All elements, first index fastest; empty when the parameter is absent or is text.
    [[nodiscard]] std::vector<double> numbers(std::string_view group, std::string_view name) const;
    /// The same with 16-bit words read without a sign: counts and channel numbers.
    [[nodiscard]] std::vector<double> counts(std::string_view group, std::string_view name) const;
    /// The first element; nothing when there is none.
    [[nodiscard]] std::optional<double> number(std::string_view group, std::string_view name) const;
    [[nodiscard]] std::optional<double> count(std::string_view group, std::string_view name) const;
    /// Each text without the blanks that fill it up; empty when the parameter is absent or is no text.
    [[nodiscard]] std::vector<std::string> texts(std::string_view group, std::string_view name) const;
    /// The lengths by dimension; empty for a single element or an absent parameter.
    [[nodiscard]] std::vector<std::size_t> dimensions(std::string_view group, std::string_view name) const;

  private:
    struct Parameter {
        int group = 0;
        std::string name;
        c3d::ElementType type = c3d::ElementType::byte;
        std::vector<std::size_t> dimensions;
        std::vector<double> values;      ///< of numbers, words with their sign
        std::vector<std::string> words;  ///< of characters
    };
    struct Group {
        int number = 0;
        std::string name;
    };

    [[nodiscard]] const Parameter* find(std::string_view group, std::string_view name) const;

    std::vector<Group> groups_;
    std::vector<Parameter> parameters_;
};

}  // namespace footing
