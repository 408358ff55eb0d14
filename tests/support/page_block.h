#pragma once

#include <doctest/doctest.h>

#include <string>

#include "tests/support/child_process.h"

namespace footing::test {

/// The first block of a language ("python", "c") on a page of the documentation, as it stands there; `page`
/// is its path from the repository's root.
inline std::string block_of_page(const std::string& page, const std::string& language) {
    const std::string text = read_file(std::string(FOOTING_SOURCE_DIR) + "/" + page);
    const std::string fence = "\n```" + language + "\n";
    const auto from = text.find(fence);
    REQUIRE_MESSAGE(from != std::string::npos, page << " has no block of " << language);
    const auto first = from + fence.size();
    const auto to = text.find("\n```", first);
    REQUIRE(to != std::string::npos);
    return text.substr(first, to + 1 - first);
}

}  // namespace footing::test
