#include "viewer/window/file_opener.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>

#include "tests/support/child_process.h"
#include "tests/support/wait_until.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/bring_in.h"
#include "viewer/lesson/export_c3d.h"
#include "viewer/panels/view_action.h"
#include "viewer/window/heard.h"
#include "viewer/window/mark_keeper.h"

using namespace footing;
using namespace footing::test;
using namespace std::chrono_literals;

namespace {

Result<LessonResult> load(const std::string& path, WorkWatch& watch) {
    AnalysisRequest request;
    request.watch = &watch;
    return analyse_recording(path, request);
}

std::string sample_table() {
    return std::string(FOOTING_SOURCE_DIR) + "/recordings/half_swings.csv";
}

/// Drops the file onto the window and waits until it was read.
ViewState drop(FileOpener& opener, ViewState state, const std::string& file) {
    state = carry_out(std::move(state), OpenFile{file});
    static_cast<void>(opener.step(state));
    REQUIRE(becomes([&] {
        static_cast<void>(opener.step(state));
        return !opener.is_reading();
    }));
    return state;
}

std::string table_of_lines(const std::string& path, std::size_t lines) {
    std::ofstream out(path);
    out << "time_s,left_n,right_n\n";
    for (std::size_t i = 0; i < lines; ++i) out << 0.001 * static_cast<double>(i) << ",400.5,300.25\n";
    return path;
}

}  // namespace

TEST_CASE("what a file is, is told by the end of its name") {
    CHECK(file_kind("a.csv") == FileKind::table);
    CHECK(file_kind("a b.CSV") == FileKind::table);
    CHECK(file_kind("walk.C3D") == FileKind::force_plates);
    CHECK(file_kind("lesson.h5") == FileKind::recording);
    CHECK(file_kind("lesson") == FileKind::recording);
}

TEST_CASE(
    "a table that is dropped becomes a recording beside it and opens; dropped again it overwrites nothing") {
    const ScratchFolder scratch;
    std::filesystem::copy_file(sample_table(), scratch / "half.csv");
    FileOpener opener(load, nullptr, nullptr);
    ViewState state = drop(opener, {}, scratch / "half.csv");
    REQUIRE_FALSE(state.problem.has_value());
    REQUIRE(state.lesson);
    CHECK(state.lesson->swings.size() == 3);
    CHECK(std::filesystem::exists(scratch / "half.h5"));
    CHECK(state.notice.find("half.h5") != std::string::npos);
    REQUIRE(state.recent.size() == 1);
    CHECK(std::filesystem::equivalent(state.recent[0], scratch / "half.h5"));
    state = drop(opener, std::move(state), scratch / "half.csv");
    CHECK(std::filesystem::exists(scratch / "half-2.h5"));
    CHECK(state.recent.size() == 2);
    state = carry_out(std::move(state), OpenRecent{1});
    CHECK(std::filesystem::path(state.opening).filename() == "half.h5");
}

TEST_CASE("a C3D file dropped onto the window opens, as its callback hands it over") {
    const ScratchFolder scratch;
    const std::string dropped = scratch / "half swings.c3d";
    {
        std::filesystem::copy_file(sample_table(), scratch / "half.csv");
        FileOpener opener(load, nullptr, nullptr);
        const ViewState table = drop(opener, {}, scratch / "half.csv");
        REQUIRE(export_c3d(*table.lesson, dropped).ok());
    }
    const std::string other = scratch / "half.csv";
    const char* paths[] = {dropped.c_str(), other.c_str()};
    Heard heard;
    heard.frames_to_draw = 0;
    heard.take_drop(2, paths);
    CHECK(heard.frames_to_draw > 0);
    ViewState state = carry_out_heard({}, heard);
    CHECK(heard.actions.empty());
    CHECK(state.opening == dropped);
    FileOpener opener(load, nullptr, nullptr);
    static_cast<void>(opener.step(state));
    REQUIRE(becomes([&] {
        static_cast<void>(opener.step(state));
        return !opener.is_reading();
    }));
    REQUIRE_MESSAGE(!state.problem.has_value(), sentence(*state.problem));
    REQUIRE(state.lesson);
    CHECK(state.lesson->swings.size() == 3);
    CHECK(std::filesystem::exists(scratch / "half swings.h5"));
    heard.take_drop(0, nullptr);
    CHECK(heard.actions.empty());
}

TEST_CASE(
    "a slow recording tells how far it is read, and given up on it does not hold up the window's closing") {
    std::atomic<bool> ended{false};
    const LessonLoader slow = [&](const std::string& path, WorkWatch& watch) -> Result<LessonResult> {
        for (double part = 0.0; watch.go_on(std::min(part, 0.9)); part += 0.01)
            std::this_thread::sleep_for(1ms);
        ended = true;
        return given_up(path);
    };
    {
        FileOpener opener(slow, nullptr, nullptr);
        ViewState state = carry_out(ViewState{}, OpenFile{"slow.h5"});
        static_cast<void>(opener.step(state));
        REQUIRE(becomes([&] {
            static_cast<void>(opener.step(state));
            return state.opening_part > 0.0;
        }));
    }  // would wait for ever for a reading that goes on
    CHECK(ended);
}

TEST_CASE("a recording that is no longer wanted is not read to its end") {
    const ScratchFolder scratch;
    std::filesystem::copy_file(sample_table(), scratch / "half.csv");
    FileOpener opener(load, nullptr, nullptr);
    REQUIRE(drop(opener, {}, scratch / "half.csv").lesson);
    WorkWatch watch;
    CHECK(load(scratch / "half.h5", watch).ok());
    watch.give_up();
    const auto read = load(scratch / "half.h5", watch);
    REQUIRE_FALSE(read.ok());
    CHECK(read.problem().what == given_up("").what);
}

TEST_CASE("a file that is none is told in one sentence, and what is open stays") {
    const ScratchFolder scratch;
    std::filesystem::copy_file(sample_table(), scratch / "half.csv");
    FileOpener opener(load, nullptr, nullptr);
    const ViewState open = drop(opener, {}, scratch / "half.csv");
    for (const char* name : {"broken.c3d", "broken.csv", "broken.h5", "absent.h5"}) {
        if (std::string(name) != "absent.h5") std::ofstream(scratch / name) << "no such thing\n1,2,3\n";
        const ViewState state = drop(opener, open, scratch / name);
        REQUIRE(state.problem.has_value());
        CHECK(state.problem->kind == ProblemKind::bad_input);
        CHECK(state.lesson == open.lesson);
        CHECK(state.recent.size() == 1);
    }
    CHECK_FALSE(std::filesystem::exists(scratch / "broken-2.h5"));
}

TEST_CASE("given up on, the window goes on at once and nothing half made is left") {
    const ScratchFolder scratch;
    const std::string table = table_of_lines(scratch / "long.csv", 400'000);
    FileOpener opener(load, nullptr, nullptr);
    ViewState state = carry_out(ViewState{}, OpenFile{table});
    static_cast<void>(opener.step(state));
    REQUIRE(becomes([&] {
        static_cast<void>(opener.step(state));
        return state.opening_part > 0.0;
    }));
    state = carry_out(std::move(state), CloseOverlay{});  // Esc
    CHECK(state.opening.empty());
    static_cast<void>(opener.step(state));
    CHECK_FALSE(opener.is_reading());
    CHECK_FALSE(state.problem.has_value());
    CHECK_FALSE(state.lesson);
    std::filesystem::copy_file(sample_table(), scratch / "half.csv");
    state = drop(opener, std::move(state), scratch / "half.csv");  // the next is read meanwhile
    CHECK(state.lesson);
    CHECK(becomes([&] {
        for (const auto& entry : std::filesystem::directory_iterator(scratch / "."))
            if (entry.path().filename().string().starts_with("long.h5")) return false;
        return true;
    }));
}

TEST_CASE("given up on, an import stops before its next thousand lines, whatever it is at") {
    const ScratchFolder scratch;
    const std::string table = table_of_lines(scratch / "long.csv", 5'000);
    WorkWatch watch;
    watch.give_up();
    const auto made = bring_in(table, Hand::right, watch);
    REQUIRE_FALSE(made.ok());
    CHECK(watch.part() < 0.5);
    CHECK_FALSE(std::filesystem::exists(scratch / "long.h5"));
}

TEST_CASE("the newest recording comes first, each once, a dozen in all") {
    std::vector<std::string> recent;
    for (int i = 0; i < 20; ++i) recent = with_recent(std::move(recent), std::to_string(i));
    CHECK(recent.size() == 12);
    recent = with_recent(std::move(recent), "15");
    CHECK(recent.size() == 12);
    CHECK(recent[0] == "15");
    CHECK(recent[1] == "19");
}

TEST_CASE("a dragged event is marked beside the recording as footing mark does, and the swing is read anew") {
    const ScratchFolder scratch;
    std::filesystem::copy_file(sample_table(), scratch / "half.csv");
    FileOpener opener(load, nullptr, nullptr);
    MarkKeeper marks(load, nullptr);
    ViewState state = drop(opener, {}, scratch / "half.csv");
    const auto settle = [&] {
        REQUIRE(becomes([&] {
            static_cast<void>(marks.step(state));
            return marks.is_settled(state);
        }));
    };
    settle();
    const Swing found = *chosen_swing(state);
    const double marked_s = found.events.top->time_s + 0.02;
    state = carry_out(std::move(state), MarkAction{DragEvent{3, marked_s}});
    state = carry_out(std::move(state), MarkAction{DropEvent{}});
    CHECK_FALSE(marks.is_settled(state));
    settle();
    CHECK_FALSE(state.marking.dragged.has_value());
    REQUIRE(chosen_swing(state));
    CHECK(chosen_swing(state)->events.top->source == EventSource::coach);
    CHECK(chosen_swing(state)->events.top->time_s == doctest::Approx(marked_s));
    // The command line says the same of the recording, and would have made the same file.
    const std::string by_window = scratch / "half.h5.marks.json";
    const auto text = [](const std::string& file) {
        std::ifstream in(file);
        return std::string{std::istreambuf_iterator<char>(in), {}};
    };
    const std::string said_by_window = text(by_window);
    std::filesystem::remove(by_window);
    const auto marked =
        run_program({FOOTING_PROGRAM, "mark", scratch / "half.h5", "--swing", std::to_string(found.index),
                     "--event", "top", "--at", std::to_string(marked_s)});
    REQUIRE_MESSAGE(marked.exit_code == 0, marked.err);
    CHECK(said_by_window.find("\"top\"") != std::string::npos);
    CHECK(text(by_window).size() == doctest::Approx(static_cast<double>(said_by_window.size())).epsilon(0.1));
    // Undone, the file goes and the swing is as it was found.
    state = carry_out(std::move(state), MarkAction{UndoMark{}});
    settle();
    CHECK_FALSE(std::filesystem::exists(by_window));
    CHECK(chosen_swing(state)->events.top->source == found.events.top->source);
    CHECK(chosen_swing(state)->events.top->time_s == doctest::Approx(found.events.top->time_s));
}

TEST_CASE("marks that cannot be kept are taken back, and that is told") {
    const ScratchFolder scratch;
    std::filesystem::copy_file(sample_table(), scratch / "half.csv");
    FileOpener opener(load, nullptr, nullptr);
    MarkKeeper marks(load, nullptr);
    ViewState state = drop(opener, {}, scratch / "half.csv");
    static_cast<void>(marks.step(state));
    std::filesystem::remove(scratch / "half.h5");  // the stick was pulled
    const double top_s = chosen_swing(state)->events.top->time_s;
    state = carry_out(std::move(state), MarkAction{DragEvent{3, top_s + 0.02}});
    state = carry_out(std::move(state), MarkAction{DropEvent{}});
    REQUIRE(becomes([&] {
        static_cast<void>(marks.step(state));
        return state.problem.has_value();
    }));
    CHECK(state.marking.marks.swings.empty());
    CHECK(state.lesson);
}
