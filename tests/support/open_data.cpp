#include "tests/support/open_data.h"

#include <zlib.h>

#include <filesystem>
#include <sstream>

namespace footing::test {

std::optional<std::string> open_data(const std::string& path_below_data) {
    const std::filesystem::path path =
        std::filesystem::path(FOOTING_SOURCE_DIR).parent_path() / "shared" / "data" / path_below_data;
    if (!std::filesystem::is_regular_file(path)) return std::nullopt;
    // gzread hands out a file that is not compressed as it is.
    gzFile file = gzopen(path.c_str(), "rb");
    if (!file) return std::nullopt;
    std::string text;
    std::vector<char> piece(1U << 16U);
    int length = 0;
    while ((length = gzread(file, piece.data(), static_cast<unsigned>(piece.size()))) > 0) {
        text.append(piece.data(), static_cast<std::size_t>(length));
    }
    gzclose(file);
    return text;
}

std::vector<TableRow> table_rows(const std::string& text) {
    std::istringstream lines(text);
    std::string line;
    std::getline(lines, line);
    const char separator = line.find('\t') != std::string::npos ? '\t' : ',';
    const auto split = [separator](std::string words) {
        if (!words.empty() && words.back() == '\r') words.pop_back();
        std::vector<std::string> parts;
        std::istringstream in(words);
        std::string part;
        while (std::getline(in, part, separator)) parts.push_back(part);
        return parts;
    };
    const std::vector<std::string> names = split(line);
    std::vector<TableRow> rows;
    while (std::getline(lines, line)) {
        const std::vector<std::string> parts = split(line);
        if (parts.size() < names.size()) continue;
        TableRow row;
        for (std::size_t i = 0; i < names.size(); ++i) row[names[i]] = parts[i];
        rows.push_back(std::move(row));
    }
    return rows;
}

}  // namespace footing::test
