#pragma once

#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/wait_until.h"

extern char** environ;

/// An X server without a screen (Xvfb) for the real program in a real window, with keys from xdotool.
namespace footing::test {

using namespace std::chrono_literals;

/// A child process; what is still running when this goes is ended, by its own id.
class Child {
  public:
    explicit Child(std::vector<std::string> words, const std::vector<std::string>& environment = {}) {
        std::vector<char*> arguments;
        for (std::string& word : words) arguments.push_back(word.data());
        arguments.push_back(nullptr);
        std::vector<std::string> kept(environment);
        // How a window was left is no matter of the person who runs the tests.
        kept.push_back("XDG_STATE_HOME=" +
                       (std::filesystem::temp_directory_path() / "footing_window_state").string());
        std::vector<char*> variables;
        for (std::string& variable : kept) variables.push_back(variable.data());
        for (char** variable = environ; *variable != nullptr; ++variable) {
            if (std::string(*variable).rfind("DISPLAY=", 0) != 0) variables.push_back(*variable);
        }
        variables.push_back(nullptr);
        posix_spawn_file_actions_t actions;
        posix_spawn_file_actions_init(&actions);
        posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
        if (posix_spawnp(&id_, arguments[0], &actions, nullptr, arguments.data(), variables.data()) != 0)
            id_ = -1;
        posix_spawn_file_actions_destroy(&actions);
    }
    ~Child() {
        if (id_ > 0 && !exit_code_) {
            kill(id_, SIGTERM);
            waitpid(id_, nullptr, 0);
        }
    }
    Child(const Child&) = delete;
    Child& operator=(const Child&) = delete;

    [[nodiscard]] bool running() {
        if (id_ <= 0 || exit_code_) return false;
        int status = 0;
        if (waitpid(id_, &status, WNOHANG) == 0) return true;
        exit_code_ = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        return false;
    }

    /// The exit code, or nothing when it does not end.
    std::optional<int> wait() {
        for (auto waited = 0ms; running() && waited < patience; waited += 50ms)
            std::this_thread::sleep_for(50ms);
        return exit_code_;
    }

  private:
    pid_t id_ = -1;
    std::optional<int> exit_code_;
};

inline bool installed(const std::string& program) {
    return Child({"sh", "-c", "command -v " + program}).wait() == 0;
}

/// What the X server shows, as it keeps it in a file (XWD): pixels of 32 bits, blue green red.
class Screen {
  public:
    explicit Screen(std::filesystem::path folder) : file_(std::move(folder) / "Xvfb_screen0") {}

    [[nodiscard]] std::vector<std::uint8_t> pixels() const {
        std::ifstream file(file_, std::ios::binary);
        std::vector<std::uint8_t> bytes{std::istreambuf_iterator<char>(file), {}};
        if (bytes.size() < 100) return {};
        const auto word = [&](std::size_t at) {
            return std::uint32_t{bytes[4 * at]} << 24U | std::uint32_t{bytes[4 * at + 1]} << 16U |
                   std::uint32_t{bytes[4 * at + 2]} << 8U | bytes[4 * at + 3];
        };
        const std::size_t header = word(0) + 12U * word(19);  // and the colour map, 12 bytes a colour
        if (bytes.size() <= header) return {};
        bytes.erase(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(header));
        return bytes;
    }

    /// Brightness of the middle column's top pixel, inside the window: the ground of the theme.
    [[nodiscard]] int ground() const {
        const std::vector<std::uint8_t> now = pixels();
        constexpr std::size_t at = 4 * (8 * 1280 + 640);
        return now.size() > at ? now[at + 1] : -1;
    }

    /// As the tests' own, but not so often that it keeps the computer busy.
    [[nodiscard]] static bool becomes(const std::function<bool()>& holds) {
        return test::becomes(holds, 100ms);
    }

  private:
    std::filesystem::path file_;
};

/// A desk with such a screen of 1280 x 720, and a folder of its own. Begins every test of the real window.
class XDesk {
  public:
    /// Nothing where this computer cannot have one; that is told.
    static std::unique_ptr<XDesk> set_up() {
        if (!installed("Xvfb") || !installed("xdotool")) {
            MESSAGE("skipped: needs Xvfb and xdotool (Debian: xvfb xdotool)");
            return nullptr;
        }
        std::unique_ptr<XDesk> desk(new XDesk);
        REQUIRE(Screen::becomes([&] { return desk->screen_.ground() == 0 || !desk->server_.running(); }));
        if (desk->server_.running()) return desk;
        MESSAGE("skipped: Xvfb does not start here");
        return nullptr;
    }

    [[nodiscard]] const Screen& screen() const { return screen_; }
    [[nodiscard]] const std::string& display() const { return display_; }
    [[nodiscard]] std::string file(const std::string& name) const { return scratch_ / name; }

    /// The program with a window of it on this screen, once that is there.
    std::unique_ptr<Child> open(std::vector<std::string> words) const {
        words.insert(words.begin(), FOOTING_PROGRAM);
        auto program = std::make_unique<Child>(std::move(words), std::vector{"DISPLAY=" + display_});
        REQUIRE(Screen::becomes([&] { return screen_.ground() > 200 || !program->running(); }));
        REQUIRE(program->running());
        return program;
    }
    [[nodiscard]] bool type_key(const std::string& key) const {
        std::this_thread::sleep_for(
            150ms);  // xdotool and a server without a window manager need it between two events
        return Child({"xdotool", "key", key}, {"DISPLAY=" + display_}).wait() == 0;
    }
    /// Whether a window there has a title that begins so.
    [[nodiscard]] bool has_window(const std::string& title) const {
        return Child({"xdotool", "search", "--name", "^" + title}, {"DISPLAY=" + display_}).wait() == 0;
    }

  private:
    static int next_number() {
        static int number = 200 + getpid() % 700;
        return number += 1000;
    }
    XDesk()
        : display_(":" + std::to_string(next_number())),
          server_({"Xvfb", display_, "-screen", "0", "1280x720x24", "-nolisten", "tcp", "-fbdir",
                   scratch_.path()}),
          screen_(scratch_.path()) {}

    ScratchFolder scratch_;  // outlives the server, which keeps its screen there
    std::string display_;
    Child server_;
    Screen screen_;
};

}  // namespace footing::test
