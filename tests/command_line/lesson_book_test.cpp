// The lesson book as a coach uses it: the guide's commands, wrong words, hostile names, tables on a terminal.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <memory>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <thread>
#include <vector>

#include "tests/support/book_desk.h"
#include "tests/support/child_process.h"
#include "viewer/book/book.h"

using namespace footing::test;
using nlohmann::json;

TEST_CASE("the chart and the choice of club from typed carries") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin", "--hand", "right", "--units", "yd", "--consent", "yes"});
    desk.must({"wedges", "add", "54", "--student", "Robin", "--loft", "54"});
    desk.must({"wedges", "add", "60", "--student", "robin", "--loft", "60"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14", "--band", "half=72:82",
               "--setup", "ball back"});
    desk.must(
        {"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "82,85,84,83,61"});
    desk.must(
        {"shots", "add", "--lesson", "1", "--club", "60", "--length", "half", "--carry", "40yd,41,42,41,41"});
    const json chart = desk.ask({"distances", "--student", "Robin"});
    REQUIRE(chart.at("cells").size() == 6);
    json full;
    for (const json& cell : chart.at("cells")) {
        if (cell.at("wedge") == "54" && cell.at("length") == "full") full = cell;
    }
    // The five-shot example of tests/distance, worked with numpy and scipy.
    CHECK(full.at("shots") == 5);
    CHECK(full.at("kept") == 4);
    CHECK(full.at("mean_m").get<double>() == doctest::Approx(83.5 * 0.9144));
    CHECK(full.at("sd_m").get<double>() == doctest::Approx(1.2909944487 * 0.9144));
    CHECK(full.at("remarks")[0].at("reason").get<std::string>().find("G 1.78") != std::string::npos);
    const auto shown = desk.say({"distances", "--student", "Robin"});
    CHECK(shown.out.find("between 60 half and 54 full there is a gap of 43 yd") != std::string::npos);

    json choice = desk.ask({"choose", "--student", "Robin", "--distance", "83yd"});
    CHECK(choice.at("covered") == true);
    CHECK(choice.at("options")[0].at("wedge") == "54");
    choice = desk.ask({"choose", "--student", "Robin", "--distance", "60"});
    CHECK(choice.at("covered") == false);
    CHECK(choice.at("shorter") == "60 half");
    CHECK(choice.at("longer") == "54 full");
    CHECK(desk.say({"choose", "--student", "Robin", "--distance", "60"})
              .out.find("Nothing of yours covers 60 yd") == 0);
    CHECK(desk.ask({"choose", "--student", "Robin", "--card"}).at("card").size() == 10);  // 40 … 85

    // The coach overrules: the fifth counts.
    desk.must({"swings", "label", "5", "--lesson", "1", "--keep"});
    const json kept = desk.ask({"distances", "--student", "Robin"});
    CHECK(std::ranges::any_of(kept.at("cells"), [](const json& cell) {
        return cell.at("wedge") == "54" && cell.at("length") == "full" && cell.at("kept") == 5;
    }));
    desk.must({"swings", "label", "1,2", "--lesson", "1", "--aside", "into the wind"});
    const json swings = desk.ask({"swings", "--lesson", "1"}).at("swings");
    CHECK(swings[0].at("coach") == "set_aside");
    CHECK(swings[0].at("reason") == "into the wind");
    CHECK(swings[4].at("coach") == "keep");
    CHECK(desk.say({"book", "check"}).exit_code == 0);
}

TEST_CASE("the list of lessons says when each was begun, so that two of one day differ") {
    const BookDesk desk;
    take_a_recorded_student(desk);
    desk.must({"lessons", "add", desk.scratch() / "l.h5", "--student", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin"});  // without plates: not known
    const std::string listed = desk.say({"lessons"}).out;
    CHECK(listed.find("date        begun  student") != std::string::npos);
    CHECK(
        std::regex_search(listed, std::regex("1  [0-9]{4}-[0-9]{2}-[0-9]{2}  [0-2][0-9]:[0-5][0-9]  Robin")));
    CHECK(std::regex_search(listed, std::regex("2  [0-9]{4}-[0-9]{2}-[0-9]{2}         Robin")));
}

TEST_CASE("a label and a shot typed at the same time are both kept") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14", "--setup", "ball back"});
    desk.must({"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "82"});
    auto book = footing::Book::open(desk.file(), footing::OpenAs::existing);
    REQUIRE(book.ok());
    // Two programs begin while this one is writing; whatever they read before it is done would be old.
    std::unique_ptr<ChildProcess> label;
    std::unique_ptr<ChildProcess> change;
    const auto done = book.value().in_transaction([&]() -> footing::Outcome {
        label = std::make_unique<ChildProcess>(std::vector<std::string>{
            FOOTING_PROGRAM, "swings", "label", "1", "--lesson", "1", "--note", "x", "--book", desk.file()});
        change = std::make_unique<ChildProcess>(std::vector<std::string>{
            FOOTING_PROGRAM, "lessons", "change", "1", "--note", "y", "--book", desk.file()});
        std::this_thread::sleep_for(std::chrono::milliseconds(700));
        auto swing = book.value().swing(1, 1);
        auto lesson = book.value().lesson(1);
        if (!swing || !lesson) return swing.problem();
        swing.value().shot->carry_m = 70.0;
        lesson.value().lesson.setup = "ball forward";
        if (auto changed = book.value().change_swing(swing.value()); !changed) return changed;
        return book.value().change_lesson(lesson.value().lesson);
    });
    REQUIRE(done.ok());
    CHECK(label->wait() == 0);
    CHECK(change->wait() == 0);
    const auto swing = book.value().swing(1, 1);
    REQUIRE(swing.ok());
    CHECK(swing.value().note == "x");
    CHECK(*swing.value().shot->carry_m == 70.0);
    CHECK(book.value().lesson(1).value().lesson.setup == "ball forward");
    CHECK(book.value().lesson(1).value().lesson.note == "y");
}

TEST_CASE("answers about people are for the user only; a folder that cannot be read is no empty folder") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    const std::string answer = desk.scratch() / "all.json";
    desk.must({"book", "export", desk.scratch() / "out", "--json", answer});
    const auto others = std::filesystem::perms::group_all | std::filesystem::perms::others_all;
    for (const std::string& file : {answer, desk.scratch() / "out/students.csv"})
        CHECK((std::filesystem::status(file).permissions() & others) == std::filesystem::perms::none);

    std::filesystem::create_directories(desk.scratch() / "lessons/closed");
    std::filesystem::permissions(desk.scratch() / "lessons/closed", std::filesystem::perms::none);
    std::vector<std::string> words{FOOTING_PROGRAM, "book",     "index", desk.scratch() / "lessons",
                                   "--book",        desk.file()};
    if (::geteuid() == 0) {
        // The rights of folders say nothing to the superuser.
        run_program({"/bin/chown", "-R", "65534", desk.scratch().path()});
        words.insert(words.begin(), {"/usr/bin/setpriv", "--reuid", "65534", "--clear-groups"});
    }
    const auto said = run_program(words);
    CHECK(said.exit_code == 3);
    CHECK(said.err.find("lessons/closed: cannot be looked into") != std::string::npos);
    std::filesystem::permissions(desk.scratch() / "lessons/closed", std::filesystem::perms::owner_all);
}

TEST_CASE("progress over typed lessons: a spread that became better, silence about weights, a picture") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    CHECK(desk.say({"progress", "--student", "Robin"}).out == "no lesson\n");
    for (int i = 0; i < 8; ++i) {
        desk.must({"lessons", "add", "--student", "Robin", "--date", fmt::format("2026-05-1{}", i)});
        const int wide = (i < 4 ? 8 : 1);
        desk.must({"shots", "add", "--lesson", std::to_string(i + 1), "--club", "54", "--length", "full",
                   "--carry", fmt::format("{},{},80,{}", 80 - wide, 80 + wide, 80 + i % 2)});
    }
    const std::string picture = desk.scratch() / "p.svg";
    const json told = desk.ask({"progress", "--student", "Robin", "--picture", picture});
    REQUIRE(told.at("lessons").size() == 8);
    // 72 88 80 80: deviations -1/10, 1/10, 0, 0 of 80; three degrees of freedom.
    CHECK(told.at("lessons")[0].at("carry_spread").get<double>() ==
          doctest::Approx(std::sqrt(0.02 / 3.0)).epsilon(1e-9));
    CHECK(told.at("lessons")[0].at("address_share").is_null());
    const json spread = told.at("measures")[4];
    CHECK(spread.at("measure") == "carry_spread");
    CHECK(spread.at("change").at("verdict") == "real");
    CHECK(spread.at("change").at("difference") < 0.0);
    CHECK(told.at("measures")[0].at("change").is_null());
    CHECK(told.at("weight").at("carry")[0].at("silence") == "too_few_shots");
    CHECK(told.at("weight").at("strike").at("p").is_null());
    const std::string drawn = read_file(picture);
    CHECK(drawn.find("<svg") == 0);
    CHECK(drawn.find("spread of carry") != std::string::npos);
    CHECK(drawn.find("weight at address") == std::string::npos);
    const auto shown = desk.say({"progress", "--student", "Robin"});
    CHECK(shown.out.find("spread of carry: 8.2 % in the first 3 lessons") != std::string::npos);
    CHECK(shown.out.find(
              "nothing can be said yet; no shot has both so far, and 12 with one club at one length") !=
          std::string::npos);
    CHECK(desk.say({"progress", "--student", "Robin", "--picture", "p.gif"}).exit_code == 2);
    CHECK(desk.say({"progress", "--student", "Nobody"}).exit_code == 2);
}

TEST_CASE("a date that has not come is told or refused, and a ball that did not fly has no carry") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    const auto far = desk.say({"lessons", "add", "--student", "Robin", "--date", "2206-05-14"});
    CHECK(far.exit_code == 2);
    CHECK(far.err.find("2206-05-14 is more than ten years ahead") != std::string::npos);
    const auto today = std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now());
    const std::string date = footing::date_of_day(today.time_since_epoch().count() + 1000);
    const auto soon = desk.say({"lessons", "add", "--student", "Robin", "--date", date});
    CHECK(soon.exit_code == 0);
    CHECK(soon.err.find(date + " has not come yet") != std::string::npos);
    CHECK(desk.say({"lessons", "add", "--student", "Robin", "--date", "2024-02-29"}).err.empty());
    CHECK(desk.say({"lessons", "change", "1", "--date", "9999-12-31"}).exit_code == 2);
    for (const char* carry : {"0", "0.0yd", "82,0"}) {
        const auto none =
            desk.say({"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", carry});
        CHECK(none.exit_code == 2);
        CHECK(none.err.find("did not fly") != std::string::npos);
    }
    CHECK(desk.ask({"shots", "--student", "Robin"}).at("shots").empty());
}

TEST_CASE("tables are as wide as the terminal, and whole where they go elsewhere") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14", "--setup",
               "ball back, stance narrow, hands ahead"});
    const std::vector<std::string> words{FOOTING_PROGRAM, "lessons", "--book", desk.file()};
    std::vector<std::string> on_terminal{
        "/usr/bin/python3", "-c",
        "import fcntl,os,pty,struct,sys,termios\n"
        "pid,fd=pty.fork()\n"
        "if pid==0:\n"
        "    fcntl.ioctl(1,termios.TIOCSWINSZ,struct.pack('HHHH',24,50,0,0))\n"
        "    os.execv(sys.argv[1],sys.argv[1:])\n"
        "text=b''\n"
        "try:\n"
        "    while True:\n"
        "        part=os.read(fd,4096)\n"
        "        if not part: break\n"
        "        text+=part\n"
        "except OSError: pass\n"
        "os.write(1,text.replace(b'\\r',b''))\n"};
    on_terminal.insert(on_terminal.end(), words.begin(), words.end());
    const auto narrow = run_program(on_terminal);
    if (narrow.exit_code == 127) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    std::size_t begin = 0;
    for (std::size_t end = narrow.out.find('\n'); end != std::string::npos;
         begin = end + 1, end = narrow.out.find('\n', begin))
        CHECK(end - begin <= 50);
    CHECK(narrow.out.find("stance narrow, hands ahead") != std::string::npos);
    const auto whole = run_program(words);
    CHECK(std::count(whole.out.begin(), whole.out.end(), '\n') == 2);
}

TEST_CASE("a lesson removed by mistake comes back") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14"});
    desk.must({"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "82,85"});
    const json shots = desk.ask({"shots", "--student", "Robin"});
    desk.must({"lessons", "remove", "1", "--yes"});
    CHECK(desk.ask({"shots", "--student", "Robin"}).at("shots").empty());
    const auto said = desk.say({"book", "undo"});
    CHECK(said.exit_code == 0);
    CHECK(said.out.find("2 swings there again") != std::string::npos);
    CHECK(desk.ask({"shots", "--student", "Robin"}) == shots);
    desk.must({"book", "undo"});  // both shots were one change
    CHECK(desk.ask({"shots", "--student", "Robin"}).at("shots").empty());
    desk.must({"students", "remove", "Robin", "--yes"});
    CHECK(desk.say({"book", "undo"}).exit_code == 2);
}

TEST_CASE("wrong words are one sentence and the right exit code, and change nothing") {
    const BookDesk desk;
    CHECK(desk.say({"students"}).exit_code == 3);  // no book yet
    desk.must({"students", "add", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    const std::string before = desk.ask({"book"}).dump();
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"students", "add", "Robin"},
             {"students", "add", "   "},
             {"students", "add", std::string(3000, 'x')},
             {"students", "remove", "Robin"},
             {"students", "remove", "Nobody", "--yes"},
             {"students", "change", "#9", "--hand", "left"},
             {"wedges", "add", "54", "--student", "Robin"},
             {"wedges", "--student", "Nobody"},
             {"lessons", "add", "--student", "Robin", "--date", "14.05.2026"},
             {"lessons", "add", "--student", "Robin", "--band", "quarter=70:80"},
             {"swings", "--lesson", "7"},
             {"swings", "label", "1", "--lesson", "1", "--club", "54"},
             {"swings", "label", "x", "--lesson", "1"},
             {"swings", "label", "1", "--lesson", "1"},
             {"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "82,nan"},
             {"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "9999"},
             {"shots", "add", "--lesson", "1", "--carry", "82"},
             {"choose", "--student", "Robin", "--distance", "far"},
             {"choose", "--student", "Robin"},
             {"distances", "--student", "Robin", "--known-within", "0"},
             {"book", "backup", desk.file()}}) {
        const auto said = desk.say(words);
        CAPTURE(words[0]);
        CAPTURE(words[1]);
        CAPTURE(said.err);
        CHECK(said.exit_code == 2);
        CHECK(said.err.rfind("footing: ", 0) == 0);
        CHECK(std::count(said.err.begin(), said.err.end(), '\n') == 1);
    }
    CHECK(desk.say({"choose", "--student", "Robin", "--distance", "80"}).exit_code == 3);  // no carry yet
    CHECK(desk.ask({"book"}).dump() == before);
    CHECK(desk.ask({"shots", "--student", "Robin"}).at("shots").empty());
}

TEST_CASE("hostile names stay data: on the terminal, in JSON and in exported tables") {
    const BookDesk desk;
    std::string long_name;
    for (int i = 0; i < 300; ++i) long_name += "n";
    const std::vector<std::string> names{
        "=HYPERLINK(\"http://x\")", "<script>", "../../x", "a\"b'c", "😀😀", "\x1b[31mred", long_name};
    for (const std::string& name : names) desk.must({"students", "add", name});
    const json listed = desk.ask({"students"}).at("students");
    CHECK(listed.size() == names.size());
    const auto shown = desk.say({"students"});
    CHECK(shown.out.find('\x1b') == std::string::npos);
    desk.must({"book", "export", desk.scratch() / "out"});
    const std::string table = read_file(desk.scratch() / "out/students.csv");
    CHECK(table.find("\"'=HYPERLINK(\"\"http://x\"\")\"") != std::string::npos);
    CHECK(desk.say({"book", "export", desk.scratch() / "out"}).exit_code ==
          2);  // never into an existing folder
    desk.must({"book", "backup", desk.scratch() / "copy.book"});
    CHECK(run_program({FOOTING_PROGRAM, "students", "--book", desk.scratch() / "copy.book"}).out ==
          shown.out);
    CHECK(
        desk.ask({"book", "export", desk.scratch() / "one", "--student", "<script>"}).at("students").size() ==
        1);
}

TEST_CASE("without --book the book is in the user's data folder") {
    const ScratchFolder scratch;
    const auto said = run_program(
        {"/usr/bin/env", "XDG_DATA_HOME=" + scratch.path(), FOOTING_PROGRAM, "students", "add", "Robin"});
    CHECK_MESSAGE(said.exit_code == 0, said.err);
    CHECK(std::filesystem::exists(scratch / "footing/lessons.book"));
}
