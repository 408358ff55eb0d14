// "footing report --student": from students, labels and carries in a book to the paper.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <sys/stat.h>

#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/book_desk.h"
#include "tests/support/child_process.h"
#include "viewer/book/database.h"
#include "viewer/lesson/report_beside.h"

using namespace footing::test;
using nlohmann::json;

namespace {

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// Robin with a recorded lesson, labels, carries, and a lesson without plates before it.
void take_a_season(const BookDesk& desk) {
    take_a_recorded_student(desk);
    for (const char* wedge : {"60", "54"})
        desk.must({"wedges", "add", wedge, "--student", "Robin", "--loft", wedge});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-04-02"});
    desk.must(
        {"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "82,85,84,83,61"});
    desk.must(
        {"shots", "add", "--lesson", "1", "--club", "60", "--length", "half", "--carry", "40,41,42,41"});
    desk.must({"lessons", "add", desk.scratch() / "l.h5", "--student", "Robin", "--band", "half=72:82"});
    desk.must({"swings", "label", "1-3", "--lesson", "2", "--club", "54", "--length", "half"});
    desk.must({"shots", "add", "--lesson", "2", "--swing", "2", "--carry", "61"});
}

/// The text of a PDF, with plain spaces for those that do not break.
std::string text_of(const std::string& path) {
    std::string text = run_program({"/usr/bin/pdftotext", "-layout", path, "-"}).out;
    for (std::size_t at = text.find("\xC2\xA0"); at != std::string::npos; at = text.find("\xC2\xA0"))
        text.replace(at, 2, " ");
    return text;
}

/// The student's third lesson, with another recording.
void record_once_more(const BookDesk& desk) {
    const std::string second = desk.scratch() / "second.h5";
    REQUIRE(run_program({FOOTING_PROGRAM, "import",
                         std::string(FOOTING_SOURCE_DIR) + "/recordings/half_swings.csv", "--out", second})
                .exit_code == 0);
    desk.must({"lessons", "add", second, "--student", "Robin", "--date", "2026-04-20"});
}

}  // namespace

TEST_CASE("a student's report says what the book's own JSON says, on paper and as a page") {
    const BookDesk desk;
    take_a_season(desk);
    const ScratchFolder& scratch = desk.scratch();
    desk.must({"report", "--student", "robin", "--out", scratch / "r.pdf"});
    desk.must({"report", "--student", "robin", "--out", scratch / "again.pdf"});
    desk.must({"report", "--student", "robin", "--out", scratch / "r.html"});
    CHECK(read_file(scratch / "r.pdf") == read_file(scratch / "again.pdf"));
    struct stat state {};
    REQUIRE(::stat((scratch / "r.pdf").c_str(), &state) == 0);
    CHECK((state.st_mode & 0077) == 0);  // a person's: nobody else reads it
    const std::string text = text_of(scratch / "r.pdf");
    if (text.empty()) {
        MESSAGE("skipped: pdftotext is not here");
        return;
    }
    const std::string html = read_file(scratch / "r.html");
    double sum = 0.0;
    const json swings = desk.ask({"swings", "--lesson", "2"}).at("swings");
    REQUIRE(swings.size() == 4);
    for (const json& swing : swings) sum += swing.at("lead_share").at("address").at("value").get<double>();
    const std::string mean = fmt::format("{:.0f} %", 100.0 * sum / 4.0);
    CHECK(has(text, mean));
    CHECK(has(html, "<strong>" + mean + "</strong>"));
    CHECK(has(text, "54 half · 61 yd"));
    const json chart = desk.ask({"distances", "--student", "Robin"});
    std::size_t told = 0;
    for (const json& cell : chart.at("cells")) {
        const auto shots = cell.at("shots").get<std::size_t>();
        if (shots == 0) continue;
        const auto whole = [&](const char* name) {  // half goes up: 83.5 is 84
            return static_cast<int>(std::floor(cell.at(name).get<double>() / 0.9144 + 0.5 + 1e-9));
        };
        const bool is_number = cell.at("is_number");
        CHECK(is_number == (shots >= 5));
        ++told;
        const std::string words =
            is_number ? fmt::format("{} ± {} yd", whole("mean_m"), std::max(1, whole("half_width_m")))
                      : fmt::format("{} of 5 shots", shots);
        CHECK_MESSAGE(has(text, words), words);
        CHECK(has(html, words));
        if (!is_number) CHECK_FALSE(has(html, fmt::format("{} yd, one shot", whole("mean_m"))));
    }
    CHECK(told == 3);
    CHECK(has(text, "though the 4 shots that count lie closer together"));  // ± beside the spread
    CHECK(has(text, "61.0 yd"));  // the shot that the test sets aside, with its reason
    CHECK(has(text, "set aside: "));
    CHECK(has(text, "not a medical device"));
    CHECK(has(text, "How it was measured"));
}

TEST_CASE("lessons are chosen by number or by date, paper and unit as asked") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string out = desk.scratch() / "r.html";
    desk.must({"report", "--student", "Robin", "--lesson", "1", "--out", out});
    CHECK(has(read_file(out), "Lesson of 2026-04-02"));
    CHECK(has(read_file(out), "without plates"));
    desk.must({"report", "--student", "Robin", "--from", "2026-04-01", "--units", "m", "--out", out});
    CHECK(has(read_file(out), "2 lessons, "));
    CHECK(has(read_file(out), "carry in metres"));
    desk.must({"report", "--student", "Robin", "--card", "numbers", "--out", out});
    CHECK(has(read_file(out), "How far each wedge carries"));
    const std::string paper = desk.scratch() / "r.pdf";
    desk.must({"report", "--student", "Robin", "--paper", "letter", "--out", paper});
    CHECK(has(read_file(paper), "/MediaBox [ 0 0 612 792 ]"));
}

TEST_CASE(
    "how swings ended is told from the book, and read from the recording where the book did not keep it") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string out = desk.scratch() / "r.html";
    const std::string folder = desk.scratch() / "moved";
    std::filesystem::create_directory(folder);
    const json kept = desk.ask({"swings", "--lesson", "2"}).at("swings");
    REQUIRE(kept.size() == 4);
    for (const json& swing : kept) {
        CHECK(swing.at("finish").at("came_to_rest") == true);
        CHECK(swing.at("finish").at("held_s").get<double>() > 0.2);
        CHECK(swing.at("lead_share").at("finish").at("value").get<double>() > 0.8);
    }
    // As an older program left it; the recording is not where it was.
    const auto change_book = [&](const std::string& sql) {
        auto database = footing::Database::open(desk.file(), footing::OpenAs::existing);
        REQUIRE(database.ok());
        REQUIRE(database.value().run_script(sql).ok());
    };
    change_book(
        "UPDATE swing SET came_to_rest = NULL, finish_share = NULL, finish_u = NULL, finish_held_s = NULL, "
        "finish_held_end = NULL, finish_sway_m = NULL");
    std::filesystem::rename(desk.scratch() / "l.h5", folder + "/l.h5");
    CHECK(desk.ask({"progress", "--student", "Robin"}).at("lessons_without_finish") == json{2});
    CHECK(has(desk.say({"progress", "--student", "Robin"}).out, "lesson 2 ended is not known"));
    desk.must({"report", "--student", "Robin", "--out", out});
    CHECK(has(read_file(out), "how its swings ended is not in the book"));

    const json found = desk.ask({"book", "index", folder});
    CHECK(found.at("finishes_read") == json{2});
    CHECK(found.at("finishes_not_read").empty());
    CHECK(desk.ask({"swings", "--lesson", "2"}).at("swings") == kept);
    CHECK(desk.ask({"progress", "--student", "Robin"}).at("lessons_without_finish").empty());
    CHECK(desk.ask({"book", "index", folder}).at("finishes_read").empty());  // once

    // From the book alone.
    std::filesystem::remove(folder + "/l.h5");
    change_book("UPDATE swing SET came_to_rest = 'no', finish_share = NULL");
    desk.must({"report", "--student", "Robin", "--out", out});
    CHECK_FALSE(has(read_file(out), "how its swings ended"));
    CHECK(has(read_file(out), "Finish: it came to rest in 0 of 4 shots only"));
    CHECK(has(desk.say({"progress", "--student", "Robin"}).out, "The finish came to rest in 0 of 4 shots"));
}

TEST_CASE("two recorded lessons are laid beside each other in the report of a time") {
    const BookDesk desk;
    take_a_season(desk);
    record_once_more(desk);
    const std::string out = desk.scratch() / "r.html";
    desk.must({"report", "--student", "Robin", "--from", "2026-04-01", "--out", out});
    const std::string html = read_file(out);
    CHECK(has(html, "Swing over swing"));
    CHECK(has(html, "<h3>Lesson 2 · "));
    CHECK(has(html, "<h3>Lesson 3 · 2026-04-20 · "));
    desk.must({"report", "--student", "Robin", "--lesson", "3", "--out", out});
    CHECK_FALSE(has(read_file(out), "Swing over swing"));
}

TEST_CASE("the report of an older lesson tells what was known then, and says so") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string before = desk.scratch() / "before.html";
    desk.must({"report", "--student", "Robin", "--lesson", "2", "--out", before});
    CHECK_FALSE(has(read_file(before), "as of"));
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2031-05-01"});
    desk.must({"shots", "add", "--lesson", "3", "--club", "54", "--length", "full", "--carry",
               "101,102,103,102,101,103"});
    const std::string after = desk.scratch() / "after.html";
    desk.must({"report", "--student", "Robin", "--lesson", "2", "--out", after});
    const std::string date = desk.ask({"lessons", "--student", "Robin"}).at("lessons").at(1).at("date");
    std::string then = read_file(after);
    CHECK(has(then, "distances, card and progress as of " + date));
    CHECK(has(then, "54 full 84 yd"));
    CHECK(has(then, "The book holds lessons after " + date));
    CHECK_FALSE(has(then, "2031"));
    desk.must({"report", "--student", "Robin", "--lesson", "3", "--out", after});
    CHECK_FALSE(has(read_file(after), "54 full 84 yd"));
}

TEST_CASE("days are counted to the end of the time that is asked for, not to the day of printing") {
    const BookDesk desk;
    desk.must({"students", "add", "Kim"});
    desk.must({"wedges", "add", "54", "--student", "Kim", "--loft", "54"});
    desk.must({"lessons", "add", "--student", "Kim", "--date", "2020-04-02"});
    desk.must(
        {"shots", "add", "--lesson", "1", "--club", "54", "--length", "full", "--carry", "82,85,84,83,81"});
    const std::string out = desk.scratch() / "r.html";
    desk.must({"report", "--student", "Kim", "--to", "2020-04-30", "--out", out});
    CHECK_FALSE(has(read_file(out), "days old"));
    CHECK_FALSE(has(read_file(out), "No shot for"));
    desk.must({"report", "--student", "Kim", "--to", "2021-04-02", "--out", out});
    CHECK(has(read_file(out), "is 365 days old"));
    desk.must({"report", "--student", "Kim", "--out", out});  // of today
    CHECK(has(read_file(out), "No shot for 180 days or more: 54 full"));
}

TEST_CASE("the short form has page one, the swings together, how it was measured and cautions alone") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string full = desk.scratch() / "full.html";
    const std::string brief = desk.scratch() / "brief.html";
    for (const bool of_student : {true, false}) {
        std::vector<std::string> words{"report", "--student", "Robin"};
        if (!of_student) words = {"report", desk.scratch() / "l.h5"};
        words.insert(words.end(), {"--out", full});
        if (of_student) {
            desk.must(words);
        } else {
            words.insert(words.begin(), FOOTING_PROGRAM);
            REQUIRE(run_program(words).exit_code == 0);
        }
        words.back() = brief;
        words.push_back("--short");
        if (of_student) {
            desk.must(words);
        } else {
            REQUIRE(run_program(words).exit_code == 0);
        }
        for (const char* part : {"Laid over each other", "Take care"}) {
            CHECK(has(read_file(full), part));
            CHECK(has(read_file(brief), part));
        }
        const char* each = of_student ? "<h3>Swing 1</h3>" : "Swing by swing";
        CHECK(has(read_file(full), each));
        CHECK_FALSE(has(read_file(brief), each));
        CHECK(read_file(brief).size() < read_file(full).size());
    }
}

TEST_CASE("every recording of a season is drawn swing by swing where that is asked for") {
    const BookDesk desk;
    take_a_season(desk);
    record_once_more(desk);
    const std::string out = desk.scratch() / "r.html";
    const auto drawn = [&] {
        const std::string html = read_file(out);
        std::size_t count = 0;
        for (std::size_t at = html.find("<h3>Swing "); at != std::string::npos;
             at = html.find("<h3>Swing ", at + 1))
            ++count;
        return count;
    };
    desk.must({"report", "--student", "Robin", "--from", "2026-04-01", "--out", out});
    const std::size_t newest = drawn();
    CHECK(newest > 0);
    desk.must({"report", "--student", "Robin", "--from", "2026-04-01", "--all-swings", "--out", out});
    CHECK(drawn() > newest);
    CHECK(has(read_file(out), "Each swing before"));
    desk.must({"report", "--student", "Robin", "--from", "2026-04-01", "--all-swings", "--out",
               desk.scratch() / "r.pdf"});
}

TEST_CASE("a swing is a shot by its carry in the book, and one report counts shots in one way") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string out = desk.scratch() / "r.html";
    const auto shots = [&] {
        std::size_t count = 0;
        const json lesson = desk.ask({"swings", "--lesson", "2"});
        for (const json& swing : lesson.at("swings")) count += swing.at("kind") == "shot" ? 1 : 0;
        return count;
    };
    for (const char* swing : {"1", "3", "4"})
        desk.must({"shots", "add", "--lesson", "2", "--swing", swing, "--carry", "60"});
    REQUIRE(shots() == 4);
    desk.must({"report", "--student", "Robin", "--lesson", "2", "--out", out});
    const std::string html = read_file(out);
    CHECK(has(html, "mean of 4 shots"));
    CHECK(has(html, " of 4 shots inside"));
    CHECK(has(html, "4 swings laid over each other"));
    CHECK(has(html, "4 told by the trigger"));
    CHECK(has(html, "whose carry or strike stands in the lesson book"));
    // One that the coach sets aside is in none of these.
    desk.must({"swings", "label", "4", "--lesson", "2", "--aside", "slipped"});
    desk.must({"report", "--student", "Robin", "--lesson", "2", "--out", out});
    CHECK(has(read_file(out), "mean of 3 shots"));
    CHECK(has(read_file(out), "3 swings laid over each other"));
}

TEST_CASE(
    "a carry beyond any wedge's reach is asked about, taken on insistence, and told again with its swing") {
    const BookDesk desk;
    take_a_season(desk);
    const auto refused = desk.say({"shots", "add", "--lesson", "2", "--swing", "1", "--carry", "400"});
    CHECK(refused.exit_code == 2);
    CHECK(has(refused.err, "400 yd is farther than any wedge carries (200 yd)"));
    CHECK(has(refused.err, "--far"));
    desk.must({"shots", "add", "--lesson", "2", "--swing", "1", "--carry", "400", "--far"});
    const auto labelled = desk.say({"swings", "label", "1", "--lesson", "2", "--length", "full"});
    CHECK(has(labelled.out, "swing 1: 400 yd is farther"));
}

TEST_CASE("the report of a lesson without plates says how to come by one with swings") {
    const BookDesk desk;
    take_a_season(desk);
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2031-05-01"});
    const auto said = desk.say({"report", "--student", "Robin", "--out", desk.scratch() / "r.html"});
    CHECK(said.exit_code == 0);
    CHECK(has(said.err, "--lesson 2 reports the newest that has"));
}

TEST_CASE("what cannot be reported is said in a sentence") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string out = desk.scratch() / "r.pdf";
    const auto refused = [&](std::vector<std::string> words, const std::string& because) {
        words.insert(words.begin(), "report");
        const auto said = desk.say(words);
        CAPTURE(said.err);
        CHECK(said.exit_code == 2);
        CHECK(has(said.err, because));
    };
    refused({"--out", out}, "--student NAME");
    refused({"--student", "Robin", "--out", desk.scratch() / "r.csv"}, "book export");
    refused({"--student", "Robin", "--lesson", "9", "--out", out}, "no lesson 9");
    refused({"--student", "Robin", "--from", "2030-01-01", "--out", out}, "no lesson in this time");
    refused({"--student", "Robin", "--lesson", "1", "--from", "2026-01-01", "--out", out}, "leave out one");
    refused({"--student", "Nobody", "--out", out}, "Nobody");
    refused({desk.scratch() / "l.h5", "--lesson", "1", "--out", out}, "is a recording");
    refused({desk.scratch() / "l.h5", "--units", "m", "--out", out}, "--units");
    refused({desk.scratch() / "l.h5", "--card", "numbers", "--out", out}, "--card");
    refused({desk.scratch() / "l.h5", "--short", "--out", desk.scratch() / "r.csv"}, "--short");
    refused({"--student", "Robin", "--from", "2026-05-01", "--to", "2026-04-01", "--out", out},
            "2026-05-01 is later than --to 2026-04-01");
    refused({"--student", "Robin", "--short", "--all-swings", "--out", out}, "leave out one");
    refused({"--student", "Robin", "--out", ""}, "--out");
    refused({"--student", "Robin", "--out", out, "twice", "more"}, "no place here");
    refused({desk.scratch() / "l.h5", "--swing", "1", "--out", out}, ".png");
    refused({desk.scratch() / "l.h5", "--swing", "99", "--out", desk.scratch() / "s.png"},
            "swing 99: is not in");
    const auto hint = desk.say({"report", "--student", "Robin", "--lesson", "9", "--out", out});
    CHECK(has(hint.err, "--student 'Robin'"));
}

TEST_CASE("a recording that is gone is told, and the report is made of what the book knows") {
    const BookDesk desk;
    take_a_season(desk);
    REQUIRE(::rename((desk.scratch() / "l.h5").c_str(), (desk.scratch() / "elsewhere.bak").c_str()) == 0);
    const std::string out = desk.scratch() / "r.html";
    desk.must({"report", "--student", "Robin", "--out", out});
    CHECK(has(read_file(out), "recorded, but"));
    CHECK(has(read_file(out), "Your set-up weight"));
}

TEST_CASE("a table has its sidecar beside it, and one swing becomes a picture") {
    const BookDesk desk;
    take_a_recorded_student(desk);
    const ScratchFolder& scratch = desk.scratch();
    REQUIRE(
        run_program({FOOTING_PROGRAM, "report", scratch / "l.h5", "--out", scratch / "l.csv"}).exit_code ==
        0);
    CHECK(json::parse(read_file(scratch / "l.csv-metadata.json")).at("url") == "l.csv");
    REQUIRE(
        run_program({FOOTING_PROGRAM, "report", scratch / "l.h5", "--swing", "2", "--out", scratch / "s.png"})
            .exit_code == 0);
    CHECK(read_file(scratch / "s.png").substr(1, 3) == "PNG");
}

TEST_CASE(
    "the window's report of a recording brings the student's beside it, where the book has the lesson") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string report = desk.scratch() / "l.pdf";
    const auto written = footing::write_student_report_beside(desk.file(), desk.scratch() / "l.h5", report);
    REQUIRE(written.ok());
    CHECK(written.value() == desk.scratch() / "l.student.pdf");
    CHECK(read_file(written.value()).starts_with("%PDF"));
    const auto none = footing::write_student_report_beside(desk.file(), desk.scratch() / "other.h5", report);
    REQUIRE(none.ok());
    CHECK(none.value().empty());
}
