#include <doctest/doctest.h>

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <thread>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/window/x_desk.h"

using namespace std::chrono_literals;
using namespace footing::test;

TEST_CASE("the program opens a recording in a window, answers to keys and closes") {
    const auto desk = XDesk::set_up();
    if (!desk) return;
    const Screen& screen = desk->screen();
    const std::string recording = desk->file("swings.h5");
    const std::string csv = std::string(FOOTING_SOURCE_DIR) + "/recordings/half_swings.csv";
    REQUIRE(Child({FOOTING_PROGRAM, "import", csv, "--out", recording}).wait() == 0);
    {
        const auto program = desk->open({"view", recording});

        CHECK(desk->type_key("t"));
        CHECK(screen.becomes([&] { return screen.ground() >= 0 && screen.ground() < 60; }));  // slate
        CHECK(desk->type_key("t"));
        CHECK(screen.becomes([&] { return screen.ground() == 255; }));  // outdoors
        CHECK(desk->type_key("t"));
        CHECK(screen.becomes([&] { return screen.ground() > 200 && screen.ground() < 255; }));  // paper

        // The head moves at one press, and while it plays.
        std::vector<std::uint8_t> before = screen.pixels();
        CHECK(desk->type_key("shift+Left"));
        CHECK(screen.becomes([&] { return screen.pixels() != before; }));
        CHECK(desk->type_key("l"));
        CHECK(desk->type_key("space"));
        std::this_thread::sleep_for(300ms);
        before = screen.pixels();
        CHECK(screen.becomes([&] { return screen.pixels() != before; }));

        CHECK(program->running());
        CHECK(desk->type_key("ctrl+q"));
        CHECK(program->wait() == 0);
    }
}

TEST_CASE(
    "a lesson over UDP: caught by itself, labelled, carry typed, undone, closed; the recording verifies") {
    const auto desk = XDesk::set_up();
    if (!desk) return;
    const Screen& screen = desk->screen();
    const std::string recording = desk->file("lesson.h5");
    const auto labels = [&] {
        std::ifstream in(recording + ".labels.json");
        return std::string{std::istreambuf_iterator<char>(in), {}};
    };
    const auto labels_say = [&](const std::string& part) { return labels().find(part) != std::string::npos; };
    const std::string address = "127.0.0.1:" + std::to_string(free_udp_port());
    const std::string book = desk->file("a.book");
    const auto program = desk->open({"lesson", "--udp", address, "--out", recording, "--book", book});
    // What the program's own verbs say of the book, as JSON.
    const std::string answer = desk->file("answer.json");
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
    for (const char* key : {"r", "o", "b", "i", "n"}) REQUIRE(desk->type_key(key));
    REQUIRE(desk->type_key("Return"));
    REQUIRE(screen.becomes([&] { return says({"students"}, "\"robin\""); }));
    // Nobody is recorded before they were asked.
    REQUIRE(desk->type_key("Return"));
    REQUIRE(
        screen.becomes([&] { return desk->type_key("y") && says({"students"}, "\"consent\": \"yes\""); }));
    CHECK_FALSE(std::filesystem::exists(recording + ".journal"));
    const Child golfer({FOOTING_PROGRAM, "emulate", "--udp", address, "--swings", "40", "--rate", "250"});
    REQUIRE(screen.becomes([&] {
        if (std::filesystem::exists(recording + ".journal")) return true;
        CHECK(desk->type_key("Return"));
        return false;
    }));

    // Before a swing is caught the word has nobody to be about; so it is said until it is kept.
    bool practice = false;
    for (int again = 0; again < 60 && !practice; ++again) {
        REQUIRE(desk->type_key("p"));
        for (auto waited = 0ms; waited < 1500ms && !practice; waited += 100ms) {
            std::this_thread::sleep_for(100ms);
            practice = labels_say("practice");
        }
    }
    REQUIRE(practice);
    for (const char* key : {"5", "2", "period", "5", "Return"}) CHECK(desk->type_key(key));
    CHECK(screen.becomes([&] { return labels_say("\"carry_m\": 48.006"); }));  // 52.5 yd of 0.9144 m
    CHECK(screen.becomes([&] { return says({"swings", "--lesson", "1"}, "48.006"); }));
    CHECK(desk->type_key("ctrl+z"));
    CHECK(screen.becomes([&] { return !labels_say("carry_m"); }));
    CHECK(labels_say("practice"));
    CHECK(screen.becomes([&] { return !says({"swings", "--lesson", "1"}, "48.006"); }));
    CHECK(desk->type_key("c"));  // kept, to compare the next one with

    // Laid over each other, and back to the lesson.
    CHECK(desk->type_key("v"));
    CHECK(screen.becomes([&] { return desk->has_window("Swings laid over each other"); }));
    CHECK(desk->type_key("Escape"));
    CHECK(screen.becomes([&] { return !desk->has_window("Swings laid over each other"); }));
    // Progress seen; the consent undone at the book and given again, while the lesson goes on.
    CHECK(desk->type_key("ctrl+5"));
    CHECK(screen.becomes([&] { return desk->has_window("Lesson book, progress"); }));
    CHECK(desk->type_key("ctrl+2"));
    CHECK(screen.becomes([&] { return desk->has_window("Lesson book, next lesson"); }));
    CHECK(desk->type_key("ctrl+z"));
    CHECK(screen.becomes([&] { return says({"students"}, "\"consent\": \"unknown\""); }));
    CHECK(desk->type_key("y"));
    CHECK(screen.becomes([&] { return says({"students"}, "\"consent\": \"yes\""); }));
    CHECK(desk->type_key("b"));
    CHECK(screen.becomes([&] { return !desk->has_window("Lesson book"); }));
    CHECK(desk->type_key("ctrl+q"));
    std::this_thread::sleep_for(500ms);
    CHECK(program->running());  // it asks first
    CHECK(desk->type_key("Escape"));
    CHECK(desk->type_key("ctrl+e"));  // the lesson ends; the window stays and opens it
    REQUIRE(screen.becomes([&] { return std::filesystem::exists(recording + ".marks.json"); }));
    const std::string report = desk->file("lesson.pdf");
    CHECK(screen.becomes([&] { return desk->type_key("r") && std::filesystem::exists(report); }));
    CHECK(says({"swings", "--lesson", "1"}, "practice"));
    CHECK(desk->type_key("ctrl+q"));
    CHECK(program->wait() == 0);
    CHECK(std::filesystem::exists(recording));
    CHECK_FALSE(std::filesystem::exists(recording + ".journal"));
    CHECK(std::filesystem::exists(recording + ".marks.json"));  // practice, for analysis and reports
    CHECK(Child({FOOTING_PROGRAM, "verify", recording}).wait() == 0);
}

TEST_CASE("an empty book gives a demo lesson; closing while it is recorded asks, and stops cleanly") {
    const auto desk = XDesk::set_up();
    if (!desk) return;
    const Screen& screen = desk->screen();
    const std::string recording = desk->file("demo.h5");
    const std::string book = desk->file("a.book");
    const auto program = desk->open({"lesson", "--out", recording, "--book", book});
    REQUIRE(screen.becomes([&] { return desk->has_window("Lesson book, students"); }));
    REQUIRE(screen.becomes([&] {
        if (desk->has_window("Lesson - Footing")) return true;
        CHECK(desk->type_key("Return"));  // once the book is read; on a slow computer once too often
        return false;
    }));
    REQUIRE(screen.becomes([&] { return std::filesystem::exists(recording + ".journal"); }));
    REQUIRE(desk->type_key("ctrl+q"));
    std::this_thread::sleep_for(500ms);
    CHECK(program->running());  // it asks first
    CHECK(desk->type_key("Return"));
    CHECK(program->wait() == 0);
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
