#include "tests/support/child_process.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <netinet/in.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <stdexcept>

namespace footing::test {

namespace {

pid_t start(const std::vector<std::string>& words, const std::string& out_file, const std::string& err_file) {
    std::vector<char*> arguments;
    std::vector<char*> environment;
    for (const std::string& word : words) {
        const bool is_setting = arguments.empty() && word.find('=') != std::string::npos;
        (is_setting ? environment : arguments).push_back(const_cast<char*>(word.c_str()));
    }
    arguments.push_back(nullptr);
    const pid_t pid = fork();
    if (pid != 0) return pid;
    for (char* setting : environment) putenv(setting);
    const auto redirect = [](const std::string& file, int descriptor) {
        const int target = open(file.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
        if (target >= 0) dup2(target, descriptor);
    };
    if (!out_file.empty()) redirect(out_file, STDOUT_FILENO);
    if (!err_file.empty()) redirect(err_file, STDERR_FILENO);
    execv(arguments[0], arguments.data());
    _exit(127);
}

int end_of(pid_t pid) {
    int status = 0;
    waitpid(pid, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

}  // namespace

ProgramOutput run_program(const std::vector<std::string>& words) {
    const ScratchFolder scratch;
    const pid_t pid = start(words, scratch / "out", scratch / "err");
    ProgramOutput output;
    output.exit_code = end_of(pid);
    output.out = read_file(scratch / "out");
    output.err = read_file(scratch / "err");
    return output;
}

ChildProcess::ChildProcess(const std::vector<std::string>& words, const std::string& out_file,
                           const std::string& err_file)
    : pid_(start(words, out_file, err_file)) {}

ProgramOutput run_on_terminal(const std::vector<std::string>& words,
                              const std::function<bool(const std::string&)>& enough, double patience_s) {
    const ScratchFolder scratch;
    int near = -1;
    int far = -1;
    winsize size{50, 200, 0, 0};
    if (openpty(&near, &far, nullptr, nullptr, &size) != 0) throw std::runtime_error("cannot make a pty");
    ProgramOutput output;
    {
        ChildProcess program(words, scratch / "out", "/proc/self/fd/" + std::to_string(far));
        close(far);
        const auto give_up = std::chrono::steady_clock::now() + std::chrono::duration<double>(patience_s);
        bool asked = false;
        while (true) {
            pollfd waiting{near, POLLIN, 0};
            char shown[4096];
            if (poll(&waiting, 1, 50) > 0) {
                const ssize_t count = read(near, shown, sizeof shown);
                if (count <= 0) break;  // the program has let go of its terminal
                output.err.append(shown, static_cast<std::size_t>(count));
            }
            if (!asked && (enough(output.err) || std::chrono::steady_clock::now() > give_up)) {
                program.send_signal(SIGINT);
                asked = true;
            }
        }
        output.exit_code = program.wait();
    }
    close(near);
    output.out = read_file(scratch / "out");
    return output;
}

ChildProcess::~ChildProcess() {
    if (pid_ <= 0) return;
    kill(pid_, SIGKILL);
    end_of(pid_);
}

void ChildProcess::send_signal(int signal) const {
    kill(pid_, signal);
}

int ChildProcess::wait() {
    const int code = end_of(pid_);
    pid_ = -1;
    return code;
}

ScratchFolder::ScratchFolder() {
    std::string pattern = (std::filesystem::temp_directory_path() / "footing_test_XXXXXX").string();
    if (!mkdtemp(pattern.data())) throw std::runtime_error("cannot make a scratch folder");
    path_ = pattern;
}

ScratchFolder::~ScratchFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(path_, ignored);
}

void write_file(const std::string& path, const std::string& text) {
    std::ofstream(path, std::ios::binary).write(text.data(), static_cast<std::streamsize>(text.size()));
}

std::string read_file(const std::string& path) {
    std::ifstream in(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::uint16_t free_udp_port() {
    // Below the range from which the system lends ports to senders: one of those could take it before the
    // test does.
    constexpr int lowest = 20000;
    constexpr int highest = 32000;
    static std::mt19937 chance{std::random_device{}()};
    for (int attempt = 0; attempt < 100; ++attempt) {
        const auto port =
            static_cast<std::uint16_t>(std::uniform_int_distribution<int>(lowest, highest)(chance));
        const int probe = socket(AF_INET, SOCK_DGRAM, 0);
        sockaddr_in address{};
        address.sin_family = AF_INET;
        address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        address.sin_port = htons(port);
        const bool is_free = bind(probe, reinterpret_cast<sockaddr*>(&address), sizeof(address)) == 0;
        close(probe);
        if (is_free) return port;
    }
    throw std::runtime_error("100 UDP ports were tried, and none was free");
}

std::string here(int port) {
    return "127.0.0.1:" + std::to_string(port);
}

}  // namespace footing::test
