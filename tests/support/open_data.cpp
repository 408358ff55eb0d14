#include "tests/support/open_data.h"

#include <zlib.h>

#include <filesystem>
#include <sstream>

namespace footing::test {

namespace {

/// The file itself, or the first one in its folder whose name ends like it after a *.
std::filesystem::path found(const std::filesystem::path& path) {
    const std::string name = path.filename().string();
    if (name.empty() || name.front() != '*' || !std::filesystem::is_directory(path.parent_path())) return path;
    std::filesystem::path first;
    for (const auto& entry : std::filesystem::directory_iterator(path.parent_path())) {
        const bool fits = entry.path().filename().string().ends_with(name.substr(1));
        if (fits && (first.empty() || entry.path() < first)) first = entry.path();
    }
    return first;
}

}  // namespace

std::optional<std::string> open_data(const std::string& path_below_data) {
    const std::filesystem::path path =
        found(std::filesystem::path(FOOTING_SOURCE_DIR).parent_path() / "shared" / "data" / path_below_data);
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
        if (words.ends_with(separator)) parts.emplace_back();
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
