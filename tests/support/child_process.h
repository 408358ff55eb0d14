#pragma once

#include <sys/types.h>

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace footing::test {

struct ProgramOutput {
    int exit_code = -1;  ///< 128 + signal when a signal ended it
    std::string out;
    std::string err;
};

/// Runs a program to its end, without a shell, and keeps what it wrote.
ProgramOutput run_program(const std::vector<std::string>& words);

/// A program that runs beside the test; killed when this goes out of scope.
class ChildProcess {
  public:
    /// What it says goes to these files; a word NAME=VALUE before the program's path is set in its
    /// environment.
    explicit ChildProcess(const std::vector<std::string>& words, const std::string& out_file = "/dev/null",
                          const std::string& err_file = "/dev/null");
    ~ChildProcess();
    ChildProcess(const ChildProcess&) = delete;
    ChildProcess& operator=(const ChildProcess&) = delete;

    void send_signal(int signal) const;
    [[nodiscard]] pid_t id() const { return pid_; }
    /// Waits for its end; as ProgramOutput::exit_code.
    int wait();

  private:
    pid_t pid_ = -1;
};

/// Runs a program with its standard error on a terminal (a pty of 200 columns) until `enough` of what it
/// showed there, or until `patience_s` are over; then interrupts it, and gives what it showed and its exit
/// code.
ProgramOutput run_on_terminal(const std::vector<std::string>& words,
                              const std::function<bool(const std::string&)>& enough, double patience_s);

/// A folder of its own that goes away with its contents.
class ScratchFolder {
  public:
    ScratchFolder();
    ~ScratchFolder();
    ScratchFolder(const ScratchFolder&) = delete;
    ScratchFolder& operator=(const ScratchFolder&) = delete;
    /// A path in it.
    [[nodiscard]] std::string operator/(const std::string& name) const { return path_ + "/" + name; }
    [[nodiscard]] const std::string& path() const { return path_; }

  private:
    std::string path_;
};

void write_file(const std::string& path, const std::string& text);
[[nodiscard]] std::string read_file(const std::string& path);

/// A UDP port on loopback that nobody used a moment ago, and that the system lends to nobody.
/// @throws std::runtime_error where a hundred tries find none
[[nodiscard]] std::uint16_t free_udp_port();
/// Such a port as the program wants it: "127.0.0.1:PORT".
[[nodiscard]] std::string here(int port);

}  // namespace footing::test
