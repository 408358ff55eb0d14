#include "acquisition/device/port_holders.h"

#include <sys/stat.h>
#include <sys/sysmacros.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <fstream>
#include <sstream>
#include <system_error>
#include <vector>

namespace footing {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_line = 200;

bool is_number(const std::string& text) {
    return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

std::string name_of(const fs::path& process) {
    const std::string number = process.filename().string();
    const std::string name = first_line_of(process / "comm");
    return name.empty() ? "process " + number : name + " (" + number + ")";
}

/// The other program that has a file of this name open, as the links under fd spell it.
PortHolder holder_of_link(const fs::path& processes, const std::string& target) {
    PortHolder holder;
    std::error_code error;
    const std::string self = std::to_string(::getpid());
    for (const auto& process : fs::directory_iterator(processes, error)) {
        const std::string number = process.path().filename().string();
        if (!is_number(number) || number == self) continue;
        std::error_code closed;
        fs::directory_iterator files(process.path() / "fd", closed);
        if (closed) {
            if (closed == std::errc::permission_denied) holder.state = PortHolder::State::not_known;
            continue;
        }
        for (; !closed && files != fs::directory_iterator(); files.increment(closed)) {
            std::error_code gone;
            if (fs::read_symlink(files->path(), gone) == target && !gone) {
                return {PortHolder::State::held, name_of(process.path())};
            }
        }
    }
    return holder;
}

/// Whether the table of locks has one on this file: "1: FLOCK ADVISORY WRITE 10132 fe:00:10953285 0 EOF",
/// device numbers in hex.
bool is_locked(const fs::path& processes, const fs::path& file) {
    struct stat facts {};
    if (::stat(file.c_str(), &facts) != 0) return false;
    std::ostringstream wanted;
    wanted << std::hex;
    for (const unsigned part : {major(facts.st_dev), minor(facts.st_dev)}) {
        wanted << (part < 16 ? "0" : "") << part << ":";
    }
    wanted << std::dec << facts.st_ino;
    std::ifstream locks(processes / "locks");
    std::string line;
    while (std::getline(locks, line)) {
        std::istringstream words(line);
        std::string word;
        while (words >> word) {
            if (word == wanted.str()) return true;
        }
    }
    return false;
}

/// Inodes of the UDP sockets bound to a port, from a table such as /proc/net/udp.
std::vector<std::string> sockets_on(const fs::path& table, std::uint16_t port) {
    std::vector<std::string> inodes;
    std::ifstream lines(table);
    std::string line;
    std::getline(lines, line);  // the heading
    while (std::getline(lines, line)) {
        std::istringstream words(line);
        std::vector<std::string> columns;
        for (std::string word; columns.size() < 10 && words >> word;) columns.push_back(word);
        if (columns.size() < 10) continue;
        const std::size_t colon = columns[1].rfind(':');
        if (colon == std::string::npos) continue;
        unsigned number = 0;
        const char* const end = columns[1].data() + columns[1].size();
        const auto [stopped, failure] = std::from_chars(columns[1].data() + colon + 1, end, number, 16);
        if (failure == std::errc() && stopped == end && number == port) inodes.push_back(columns[9]);
    }
    return inodes;
}

}  // namespace

std::string first_line_of(const fs::path& file) {
    std::ifstream in(file);
    std::string line;
    std::getline(in, line);
    line.resize(std::min(line.size(), most_line));
    std::erase_if(line, [](char c) { return c < ' ' || c > '~'; });
    return line;
}

PortHolder holder_of_file(const fs::path& processes, const fs::path& file) {
    std::error_code error;
    const fs::path target = fs::canonical(file, error);
    PortHolder holder = holder_of_link(processes, (error ? file : target).string());
    if (holder.state != PortHolder::State::held && is_locked(processes, file)) {
        holder.state = PortHolder::State::held;
    }
    return holder;
}

PortHolder holder_of_udp_port(const fs::path& processes, std::uint16_t port) {
    std::vector<std::string> inodes = sockets_on(processes / "net" / "udp", port);
    const std::vector<std::string> v6 = sockets_on(processes / "net" / "udp6", port);
    inodes.insert(inodes.end(), v6.begin(), v6.end());
    if (inodes.empty()) return {};
    for (const std::string& inode : inodes) {
        PortHolder holder = holder_of_link(processes, "socket:[" + inode + "]");
        if (holder.state == PortHolder::State::held) return holder;
    }
    return {PortHolder::State::held, ""};
}

}  // namespace footing
