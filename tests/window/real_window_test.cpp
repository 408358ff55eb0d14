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
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/wait_until.h"

extern char** environ;

// The real program in a real window, on an X server without a screen (Xvfb), with keys from xdotool.

namespace {

using namespace std::chrono_literals;

using footing::test::patience;

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

struct Scratch {
    std::filesystem::path folder;
    ~Scratch() { std::filesystem::remove_all(folder); }
};

bool installed(const std::string& program) {
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
        return footing::test::becomes(holds, 100ms);
    }

  private:
    std::filesystem::path file_;
};

bool type_key(const std::string& display, const std::string& key) {
    std::this_thread::sleep_for(
        150ms);  // xdotool and a server without a window manager need it between two events
    return Child({"xdotool", "key", key}, {"DISPLAY=" + display}).wait() == 0;
}

/// Whether a window there has a title that begins so.
bool has_window(const std::string& display, const std::string& title) {
    return Child({"xdotool", "search", "--name", "^" + title}, {"DISPLAY=" + display}).wait() == 0;
}

}  // namespace

TEST_CASE("the program opens a recording in a window, answers to keys and closes") {
    if (!installed("Xvfb") || !installed("xdotool")) {
        MESSAGE("skipped: needs Xvfb and xdotool (Debian: xvfb xdotool)");
        return;
    }
    char name[] = "/tmp/footing_window_XXXXXX";
    REQUIRE(mkdtemp(name) != nullptr);
    const Scratch scratch{name};  // outlives the server, which keeps its screen there
    const std::filesystem::path& folder = scratch.folder;
    const std::string recording = (folder / "swings.h5").string();
    const std::string csv = std::string(FOOTING_SOURCE_DIR) + "/recordings/half_swings.csv";
    REQUIRE(Child({FOOTING_PROGRAM, "import", csv, "--out", recording}).wait() == 0);

    const std::string display = ":" + std::to_string(200 + getpid() % 700);
    Child server(
        {"Xvfb", display, "-screen", "0", "1280x720x24", "-nolisten", "tcp", "-fbdir", folder.string()});
    const Screen screen(folder);
    REQUIRE(screen.becomes([&] { return screen.ground() == 0 || !server.running(); }));
    if (!server.running()) {
        MESSAGE("skipped: Xvfb does not start here");
        return;
    }
    {
        Child program({FOOTING_PROGRAM, "view", recording}, {"DISPLAY=" + display});
        REQUIRE(screen.becomes([&] { return screen.ground() > 200 || !program.running(); }));
        REQUIRE(program.running());

        CHECK(type_key(display, "t"));
        CHECK(screen.becomes([&] { return screen.ground() >= 0 && screen.ground() < 60; }));  // slate
        CHECK(type_key(display, "t"));
        CHECK(screen.becomes([&] { return screen.ground() == 255; }));  // outdoors
        CHECK(type_key(display, "t"));
        CHECK(screen.becomes([&] { return screen.ground() > 200 && screen.ground() < 255; }));  // paper

        // The head moves at one press, and while it plays.
        std::vector<std::uint8_t> before = screen.pixels();
        CHECK(type_key(display, "shift+Left"));
        CHECK(screen.becomes([&] { return screen.pixels() != before; }));
        CHECK(type_key(display, "l"));
        CHECK(type_key(display, "space"));
        std::this_thread::sleep_for(300ms);
        before = screen.pixels();
        CHECK(screen.becomes([&] { return screen.pixels() != before; }));

        CHECK(program.running());
        CHECK(type_key(display, "ctrl+q"));
        CHECK(program.wait() == 0);
    }
}

TEST_CASE(
    "a lesson over UDP: caught by itself, labelled, carry typed, undone, closed; the recording verifies") {
    if (!installed("Xvfb") || !installed("xdotool")) {
        MESSAGE("skipped: needs Xvfb and xdotool (Debian: xvfb xdotool)");
        return;
    }
    char name[] = "/tmp/footing_window_XXXXXX";
    REQUIRE(mkdtemp(name) != nullptr);
    const Scratch scratch{name};
    const std::string recording = (scratch.folder / "lesson.h5").string();
    const auto labels = [&] {
        std::ifstream in(recording + ".labels.json");
        return std::string{std::istreambuf_iterator<char>(in), {}};
    };
    const auto labels_say = [&](const std::string& part) { return labels().find(part) != std::string::npos; };
    const std::string display = ":" + std::to_string(1000 + getpid() % 700);
    Child server({"Xvfb", display, "-screen", "0", "1280x720x24", "-nolisten", "tcp", "-fbdir",
                  scratch.folder.string()});
    const Screen screen(scratch.folder);
    REQUIRE(screen.becomes([&] { return screen.ground() == 0 || !server.running(); }));
    if (!server.running()) {
        MESSAGE("skipped: Xvfb does not start here");
        return;
    }
    const std::string address = "127.0.0.1:" + std::to_string(footing::test::free_udp_port());
    const std::string book = (scratch.folder / "a.book").string();
    Child program({FOOTING_PROGRAM, "lesson", "--udp", address, "--out", recording, "--book", book},
                  {"DISPLAY=" + display});
    REQUIRE(screen.becomes([&] { return screen.ground() > 200 || !program.running(); }));
    REQUIRE(program.running());
    // What the program's own verbs say of the book, as JSON.
    const std::string answer = (scratch.folder / "answer.json").string();
    const auto says = [&](std::vector<std::string> words, const std::string& part) {
        words.insert(words.begin(), FOOTING_PROGRAM);
        words.insert(words.end(), {"--book", book, "--json", answer});
        if (Child(words).wait() != 0) return false;
        std::ifstream in(answer);
        return std::string{std::istreambuf_iterator<char>(in), {}}.find(part) != std::string::npos;
    };

    // An empty book: the name that is typed becomes the first student; Enter begins on the plates of the
    // command line.
    REQUIRE(screen.becomes([&] { return std::filesystem::exists(book); }));
    for (const char* key : {"r", "o", "b", "i", "n"}) REQUIRE(type_key(display, key));
    REQUIRE(type_key(display, "Return"));
    REQUIRE(screen.becomes([&] { return says({"students"}, "\"robin\""); }));
    const Child golfer({FOOTING_PROGRAM, "emulate", "--udp", address, "--swings", "40", "--rate", "250"});
    REQUIRE(screen.becomes([&] {
        if (std::filesystem::exists(recording + ".journal")) return true;
        CHECK(type_key(display, "Return"));
        return false;
    }));

    // Before a swing is caught the word has nobody to be about; so it is said until it is kept.
    bool practice = false;
    for (int again = 0; again < 60 && !practice; ++again) {
        REQUIRE(type_key(display, "p"));
        for (auto waited = 0ms; waited < 1500ms && !practice; waited += 100ms) {
            std::this_thread::sleep_for(100ms);
            practice = labels_say("practice");
        }
    }
    REQUIRE(practice);
    for (const char* key : {"5", "2", "period", "5", "Return"}) CHECK(type_key(display, key));
    CHECK(screen.becomes([&] { return labels_say("\"carry_m\": 48.006"); }));  // 52.5 yd of 0.9144 m
    CHECK(screen.becomes([&] { return says({"swings", "--lesson", "1"}, "48.006"); }));
    CHECK(type_key(display, "ctrl+z"));
    CHECK(screen.becomes([&] { return !labels_say("carry_m"); }));
    CHECK(labels_say("practice"));
    CHECK(screen.becomes([&] { return !says({"swings", "--lesson", "1"}, "48.006"); }));
    CHECK(type_key(display, "c"));  // kept, to compare the next one with

    // Laid over each other, and back to the lesson.
    CHECK(type_key(display, "v"));
    CHECK(screen.becomes([&] { return has_window(display, "Swings laid over each other"); }));
    CHECK(type_key(display, "Escape"));
    CHECK(screen.becomes([&] { return !has_window(display, "Swings laid over each other"); }));
    // Progress seen; consent given at the book, undone there, while the lesson goes on.
    CHECK(type_key(display, "ctrl+5"));
    CHECK(screen.becomes([&] { return has_window(display, "Lesson book, progress"); }));
    CHECK(type_key(display, "ctrl+2"));
    CHECK(screen.becomes([&] { return has_window(display, "Lesson book, next lesson"); }));
    CHECK(type_key(display, "y"));
    CHECK(screen.becomes([&] { return says({"students"}, "\"consent\": \"yes\""); }));
    CHECK(type_key(display, "ctrl+z"));
    CHECK(screen.becomes([&] { return says({"students"}, "\"consent\": \"unknown\""); }));
    CHECK(type_key(display, "b"));
    CHECK(screen.becomes([&] { return !has_window(display, "Lesson book"); }));
    CHECK(type_key(display, "ctrl+q"));
    std::this_thread::sleep_for(500ms);
    CHECK(program.running());  // it asks first
    CHECK(type_key(display, "Escape"));
    CHECK(type_key(display, "ctrl+e"));  // the lesson ends; the window stays and opens it
    REQUIRE(screen.becomes([&] { return std::filesystem::exists(recording + ".marks.json"); }));
    const std::string report = (scratch.folder / "lesson.pdf").string();
    CHECK(screen.becomes([&] { return type_key(display, "r") && std::filesystem::exists(report); }));
    CHECK(says({"swings", "--lesson", "1"}, "practice"));
    CHECK(type_key(display, "ctrl+q"));
    CHECK(program.wait() == 0);
    CHECK(std::filesystem::exists(recording));
    CHECK_FALSE(std::filesystem::exists(recording + ".journal"));
    CHECK(std::filesystem::exists(recording + ".marks.json"));  // practice, for analysis and reports
    CHECK(Child({FOOTING_PROGRAM, "verify", recording}).wait() == 0);
}

TEST_CASE("an empty book gives a demo lesson; closing while it is recorded asks, and stops cleanly") {
    if (!installed("Xvfb") || !installed("xdotool")) {
        MESSAGE("skipped: needs Xvfb and xdotool (Debian: xvfb xdotool)");
        return;
    }
    char name[] = "/tmp/footing_window_XXXXXX";
    REQUIRE(mkdtemp(name) != nullptr);
    const Scratch scratch{name};
    const std::string display = ":" + std::to_string(2000 + getpid() % 700);
    Child server({"Xvfb", display, "-screen", "0", "1280x720x24", "-nolisten", "tcp", "-fbdir",
                  scratch.folder.string()});
    const Screen screen(scratch.folder);
    REQUIRE(screen.becomes([&] { return screen.ground() == 0 || !server.running(); }));
    if (!server.running()) {
        MESSAGE("skipped: Xvfb does not start here");
        return;
    }
    const std::string recording = (scratch.folder / "demo.h5").string();
    const std::string book = (scratch.folder / "a.book").string();
    Child program({FOOTING_PROGRAM, "lesson", "--out", recording, "--book", book}, {"DISPLAY=" + display});
    REQUIRE(screen.becomes([&] { return has_window(display, "Lesson book, students"); }));
    REQUIRE(screen.becomes([&] {
        if (has_window(display, "Lesson book, next lesson") || has_window(display, "Lesson - Footing"))
            return true;
        CHECK(type_key(display, "Return"));  // once the book is read; on a slow computer once too often
        return false;
    }));
    REQUIRE(type_key(display, "Return"));
    REQUIRE(screen.becomes([&] { return std::filesystem::exists(recording + ".journal"); }));
    REQUIRE(type_key(display, "ctrl+q"));
    std::this_thread::sleep_for(500ms);
    CHECK(program.running());  // it asks first
    CHECK(type_key(display, "Return"));
    CHECK(program.wait() == 0);
    CHECK_FALSE(std::filesystem::exists(recording + ".journal"));
    CHECK(Child({FOOTING_PROGRAM, "verify", recording}).wait() == 0);
}

TEST_CASE("without a display the program says so, says what to do, and ends with code 4") {
    CHECK(Child({FOOTING_PROGRAM, "view"}).wait() == 4);
}

TEST_CASE("a file that is not there ends a screenshot with code 3, and no picture is made") {
    const auto picture = std::filesystem::temp_directory_path() / "footing_absent.png";
    CHECK(Child({FOOTING_PROGRAM, "view", "/no/such/file.h5", "--screenshot", picture.string()}).wait() == 3);
    CHECK_FALSE(std::filesystem::exists(picture));
    CHECK(Child({FOOTING_PROGRAM, "view", "--screenshot", picture.string(), "--size", "12"}).wait() == 2);
    const std::filesystem::path not_png = std::filesystem::path(picture).replace_extension(".jpg");
    CHECK(Child({FOOTING_PROGRAM, "view", "--screenshot", not_png.string()}).wait() == 2);
    CHECK_FALSE(std::filesystem::exists(not_png));
    CHECK_FALSE(std::filesystem::exists(picture));
}
