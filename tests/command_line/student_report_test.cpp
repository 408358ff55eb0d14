// "footing report --student": from students, labels and carries in a book to the paper.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <sys/stat.h>

#include <cmath>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/book_desk.h"
#include "tests/support/child_process.h"
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
    for (const json& cell : desk.ask({"distances", "--student", "Robin"}).at("cells")) {
        if (cell.at("half_width_m").is_null()) continue;
        const std::string words =
            fmt::format("{:.0f} ± {:.0f} yd", cell.at("mean_m").get<double>() / 0.9144,
                        std::max(1.0, std::ceil(cell.at("half_width_m").get<double>() / 0.9144)));
        CHECK_MESSAGE(has(text, words), words);
        CHECK(has(html, words));
    }
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

TEST_CASE("two recorded lessons are laid beside each other in the report of a time") {
    const BookDesk desk;
    take_a_season(desk);
    const std::string second = desk.scratch() / "second.h5";
    REQUIRE(run_program({FOOTING_PROGRAM, "import",
                         std::string(FOOTING_SOURCE_DIR) + "/recordings/half_swings.csv", "--out", second})
                .exit_code == 0);
    desk.must({"lessons", "add", second, "--student", "Robin", "--date", "2026-04-20"});
    const std::string out = desk.scratch() / "r.html";
    desk.must({"report", "--student", "Robin", "--from", "2026-04-01", "--out", out});
    const std::string html = read_file(out);
    CHECK(has(html, "Swing over swing"));
    CHECK(has(html, "<h3>Lesson 2 · "));
    CHECK(has(html, "<h3>Lesson 3 · 2026-04-20 · "));
    desk.must({"report", "--student", "Robin", "--lesson", "3", "--out", out});
    CHECK_FALSE(has(read_file(out), "Swing over swing"));
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
    refused({desk.scratch() / "l.h5", "--swing", "1", "--out", out}, ".png");
    refused({desk.scratch() / "l.h5", "--swing", "99", "--out", desk.scratch() / "s.png"}, "swing 99");
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
