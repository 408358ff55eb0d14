#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

namespace fs = std::filesystem;

namespace {

struct Include {
    std::string file;  ///< from the repository's root
    std::string target;
};

std::vector<Include> includes_below(const std::string& folder) {
    static const std::regex pattern(R"re(^\s*#\s*include\s*[<"]([^>"]+)[>"])re");
    const fs::path root = FOOTING_SOURCE_DIR;
    std::vector<Include> found;
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
        const std::string suffix = entry.path().extension().string();
        if (suffix != ".h" && suffix != ".cpp") continue;
        std::ifstream in(entry.path());
        std::string line;
        while (std::getline(in, line)) {
            std::smatch match;
            if (std::regex_search(line, match, pattern)) {
                found.push_back({fs::relative(entry.path(), root).string(), match[1].str()});
            }
        }
    }
    return found;
}

std::string module_of(const std::string& path) {
    const auto first = path.find('/');
    const auto second = first == std::string::npos ? first : path.find('/', first + 1);
    return second == std::string::npos ? path : path.substr(0, second);
}

bool starts_with_any(const std::string& text, const std::vector<std::string>& starts) {
    return std::any_of(starts.begin(), starts.end(),
                       [&](const std::string& s) { return text.rfind(s, 0) == 0; });
}

const std::vector<std::string> own_folders{"acquisition/", "analysis/", "viewer/", "tests/"};

}  // namespace

TEST_CASE("acquisition sees only acquisition, and frame sees only itself") {
    for (const Include& include : includes_below("acquisition")) {
        if (!starts_with_any(include.target, own_folders)) continue;
        CAPTURE(include.file);
        CAPTURE(include.target);
        CHECK(include.target.rfind("acquisition/", 0) == 0);
        if (module_of(include.file) == "acquisition/frame")
            CHECK(module_of(include.target) == "acquisition/frame");
    }
}

TEST_CASE("analysis sees only analysis and acquisition/frame: no port, no file format, no window") {
    for (const Include& include : includes_below("analysis")) {
        CAPTURE(include.file);
        CAPTURE(include.target);
        if (starts_with_any(include.target, own_folders)) {
            const bool allowed =
                include.target.rfind("analysis/", 0) == 0 || module_of(include.target) == "acquisition/frame";
            CHECK(allowed);
        }
        CHECK_FALSE(
            starts_with_any(include.target, {"boost/asio", "hdf5", "H5", "sqlite3", "imgui", "GLFW/"}));
    }
}

TEST_CASE("acquisition/frame needs the standard library only") {
    for (const Include& include : includes_below("acquisition/frame")) {
        if (starts_with_any(include.target, own_folders)) continue;
        CAPTURE(include.file);
        CAPTURE(include.target);
        CHECK(include.target.find('/') == std::string::npos);
        CHECK(include.target.find('.') == std::string::npos);
    }
}

TEST_CASE("nothing but the program and the tests sees the command line; nothing sees the tests") {
    for (const char* folder : {"acquisition", "analysis", "viewer"}) {
        for (const Include& include : includes_below(folder)) {
            CAPTURE(include.file);
            CAPTURE(include.target);
            CHECK(include.target.rfind("tests/", 0) != 0);
            if (module_of(include.target) == "viewer/command_line") {
                const bool may =
                    module_of(include.file) == "viewer/command_line" || include.file == "viewer/main.cpp";
                CHECK(may);
            }
        }
    }
}

TEST_CASE("modules do not include each other in a circle") {
    std::map<std::string, std::set<std::string>> edges;
    for (const char* folder : {"acquisition", "analysis", "viewer"}) {
        for (const Include& include : includes_below(folder)) {
            if (!starts_with_any(include.target, own_folders)) continue;
            const std::string from = module_of(include.file);
            const std::string to = module_of(include.target);
            if (from != to) edges[from].insert(to);
        }
    }
    // Take away modules that depend on nothing that is left; what cannot be taken away is a circle.
    bool shrunk = true;
    while (shrunk) {
        shrunk = false;
        for (auto it = edges.begin(); it != edges.end();) {
            std::erase_if(it->second, [&](const std::string& to) { return !edges.contains(to); });
            if (it->second.empty()) {
                it = edges.erase(it);
                shrunk = true;
            } else {
                ++it;
            }
        }
    }
    for (const auto& [from, targets] : edges) {
        CAPTURE(from);
        CHECK(targets.empty());
    }
}

TEST_CASE("headers of Asio, HDF5, SQLite and Cairo appear in .cpp files only") {
    for (const char* folder : {"acquisition", "analysis", "viewer"}) {
        for (const Include& include : includes_below(folder)) {
            if (include.file.ends_with(".cpp")) continue;
            CAPTURE(include.file);
            CAPTURE(include.target);
            CHECK_FALSE(
                starts_with_any(include.target, {"boost/asio", "hdf5", "H5", "sqlite3", "cairo", "pango"}));
        }
    }
}

TEST_CASE(
    "headers of the operating system appear in .cpp files only, and DEVELOPERS.md names each of these "
    "files") {
    static const std::regex of_the_system(
        R"re((sys|netinet|arpa|linux|net)/.*|(unistd|fcntl|termios|poll|signal|pty|spawn|pwd|dirent|ifaddrs|netdb|dlfcn|pthread)\.h|EGL/.*)re");
    std::ifstream page(fs::path(FOOTING_SOURCE_DIR) / "DEVELOPERS.md");
    const std::string text{std::istreambuf_iterator<char>(page), {}};
    std::size_t found = 0;
    for (const char* folder : {"acquisition", "analysis", "viewer"}) {
        for (const Include& include : includes_below(folder)) {
            if (!std::regex_match(include.target, of_the_system)) continue;
            ++found;
            CAPTURE(include.file);
            CAPTURE(include.target);
            CHECK(include.file.ends_with(".cpp"));
            CHECK_MESSAGE(text.find("`" + include.file + "`") != std::string::npos,
                          "name it under \"What is POSIX, and what Linux\"");
        }
    }
    CHECK(found > 20);
}
