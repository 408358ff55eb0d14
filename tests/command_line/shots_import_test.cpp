// Recordings and the tables of devices on their way into the lesson book.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/book_desk.h"
#include "tests/support/child_process.h"
#include "viewer/book/book.h"
#include "viewer/lesson/wall_time.h"

using namespace footing::test;
using nlohmann::json;

TEST_CASE("a recording becomes a lesson, a device's table finds its swings, twice adds nothing") {
    const BookDesk desk;
    const ScratchFolder& scratch = desk.scratch();
    take_a_recorded_student(desk);
    desk.must({"wedges", "add", "54", "--student", "Robin", "--loft", "54"});
    const json lesson = desk.ask({"lessons", "add", scratch / "l.h5", "--student", "Robin"});
    CHECK(lesson.at("swings") == 4);
    CHECK(desk.say({"lessons", "add", scratch / "l.h5", "--student", "Robin"}).exit_code == 2);  // once only
    json swings = desk.ask({"swings", "--lesson", "1"}).at("swings");
    REQUIRE(swings.size() == 4);
    CHECK(swings[0].at("lead_share").at("address").at("value").get<double>() ==
          doctest::Approx(0.75).epsilon(0.01));
    CHECK(swings[0].at("verdict") == "inside");

    // Three balls of four swings; by order they could not be matched. The label of a swing is kept.
    desk.must({"swings", "label", "2", "--lesson", "1", "--length", "3/4"});
    write_file(scratch / "range.csv", "Shot,Club,Carry Distance\n1,SW,80\n2,SW,82\n3,SW,84\n4,LW,60\n");
    const std::vector<std::string> bare{"shots", "import", scratch / "range.csv", "--lesson", "1"};
    auto said = desk.say(bare);
    CHECK(said.exit_code == 2);
    CHECK(said.err.find("Shot,Club,Carry Distance") != std::string::npos);  // names the columns there are
    std::vector<std::string> words = bare;
    words.insert(words.end(), {"--carry-column", "Carry Distance", "--club-column", "Club", "--unit", "yd",
                               "--club", "SW=54", "--length", "full"});
    said = desk.say(words);
    CHECK(said.exit_code == 3);
    CHECK(said.err.find("3 new shots cannot be matched by order with 4 swings") != std::string::npos);
    words.insert(words.end(), {"--swings", "1-2,4"});
    const json done = desk.ask(words);
    CHECK(done.at("taken") == 3);
    REQUIRE(done.at("not_taken").size() == 1);
    CHECK(done.at("not_taken")[0].get<std::string>().find("line 5") == 0);  // LW is none of Robin's
    // The shape is remembered, and the rows are known.
    const json again = desk.ask(bare);
    CHECK(again.at("taken") == 0);
    CHECK(again.at("known_already") == 3);
    swings = desk.ask({"swings", "--lesson", "1"}).at("swings");
    CHECK(swings[1].at("carry_m").get<double>() == doctest::Approx(82 * 0.9144));
    CHECK(swings[1].at("length") == "three-quarter");
    CHECK(swings[0].at("length") == "full");
    CHECK(swings[2].at("carry_m").is_null());

    // Analysed again, nothing that the coach said is lost; the index is rebuilt from the folder.
    desk.must({"lessons", "analyse", "1"});
    CHECK(desk.ask({"swings", "--lesson", "1"}).at("swings") == swings);
    std::filesystem::create_directory(scratch / "moved");
    std::filesystem::rename(scratch / "l.h5", scratch / "moved/renamed.h5");
    write_file(scratch / "moved/broken.h5", "no recording");
    const json index = desk.ask({"book", "index", scratch / "moved"});
    CHECK(index.at("recordings") == 1);
    CHECK(index.at("not_read").size() == 1);
    CHECK(index.at("lessons_without_recording").empty());
    desk.must({"lessons", "analyse", "1"});
    const json removed = desk.ask({"students", "remove", "Robin", "--yes"});
    CHECK(removed.at("shots") == 3);
    CHECK(removed.at("recordings_left_on_disk").size() == 1);
    CHECK(std::filesystem::exists(scratch / "moved/renamed.h5"));
}

TEST_CASE("a device's table finds the swings by time, though its clock is off") {
    const BookDesk desk;
    const ScratchFolder& scratch = desk.scratch();
    take_a_recorded_student(desk);
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    desk.must({"lessons", "add", scratch / "l.h5", "--student", "Robin"});
    auto book = footing::Book::open(desk.file(), footing::OpenAs::to_read);
    REQUIRE(book.ok());
    const auto recordings = book.value().recordings();
    const auto swings = book.value().swings(1);
    REQUIRE(recordings.ok());
    REQUIRE(swings.ok());
    REQUIRE(swings.value().size() == 4);
    // The device's clock is 37 s ahead; a ball between the third swing and the fourth was not swung here.
    const auto row = [&](double second, double carry) {
        const auto start = recordings.value()[0];
        const auto at_ns = start.start_utc_ns + static_cast<std::int64_t>((second + 37.0) * 1e9);
        return fmt::format("{},{}\n", footing::wall_time(at_ns, start.zone).substr(0, 19), carry);
    };
    const auto strike_s = [&](std::size_t swing) { return *swings.value()[swing].strike_s; };
    const std::string table =
        "When,Carry\n" + row(strike_s(0), 81) + row(strike_s(1), 82) + row(62.0, 99) + row(strike_s(3), 84);
    if (row(0.0, 0).substr(0, 10) != row(100.0, 0).substr(0, 10)) {
        MESSAGE("skipped: it is midnight");
        return;
    }
    write_file(scratch / "range.csv", table);
    std::vector<std::string> words{"shots",
                                   "import",
                                   scratch / "range.csv",
                                   "--lesson",
                                   "1",
                                   "--carry-column",
                                   "Carry",
                                   "--date-column",
                                   "When",
                                   "--unit",
                                   "m",
                                   "--club",
                                   "54",
                                   "--length",
                                   "full"};
    const auto said = desk.say(words);
    CHECK(said.exit_code == 0);
    CHECK(said.out.find("3 shots taken into lesson 1") == 0);
    CHECK(said.out.find("line 4: no swing at this time") != std::string::npos);
    const json listed = desk.ask({"swings", "--lesson", "1"}).at("swings");
    CHECK(listed[0].at("carry_m") == 81.0);
    CHECK(listed[1].at("carry_m") == 82.0);
    CHECK(listed[2].at("carry_m").is_null());
    CHECK(listed[3].at("carry_m") == 84.0);
    const json again = desk.ask(words);
    CHECK(again.at("taken") == 0);
    CHECK(again.at("known_already") == 3);
    CHECK(std::abs(again.at("clock_offset_s").get<double>() - 37.0) < 1.0);
}

TEST_CASE("shots that were not recorded come in as they are") {
    const BookDesk desk;
    desk.must({"students", "add", "Kim", "--units", "m"});
    desk.must({"wedges", "add", "Sand", "--student", "Kim"});
    desk.must({"lessons", "add", "--student", "Kim", "--date", "2026-05-14"});
    write_file(desk.scratch() / "r.csv",
               "Date;Club;Carry\n14.05.2026 10:00;sand;61,5\n14.05.2026 10:01;sand;62,5\n13.05.2026 "
               "10:01;sand;62,5\n");
    const json done = desk.ask({"shots", "import", desk.scratch() / "r.csv", "--lesson", "1",
                                "--carry-column", "Carry", "--club-column", "Club", "--date-column", "Date",
                                "--dates", "dmy", "--unit", "m", "--length", "half", "--without-swings"});
    CHECK(done.at("taken") == 2);
    CHECK(done.at("of_other_days") == 1);
    const json shots = desk.ask({"shots", "--student", "Kim"}).at("shots");
    REQUIRE(shots.size() == 2);
    CHECK(shots[0].at("carry_m") == 61.5);
    CHECK(shots[0].at("wedge") == "Sand");
}

TEST_CASE("what is replaced, where an outlier is, and which wedge is missing are told") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-15"});
    CHECK(desk.say({"choose", "--student", "Robin", "--distance", "80"}).err.find("has no carry") !=
          std::string::npos);
    CHECK(desk.say({"shots", "add", "--lesson", "2", "--club", "54", "--length", "full", "--carry",
                    "82,61,85,84,83"})
              .out == "5 shots of Robin in lesson 2: 82.0 yd, 61.0 yd, 85.0 yd, 84.0 yd, 83.0 yd\n");
    const auto chart = desk.say({"distances", "--student", "Robin"});
    CHECK(chart.out.find("61.0 yd on 2026-05-15 (lesson 2, swing 2): set aside") != std::string::npos);
    CHECK(desk.say({"shots", "add", "--lesson", "2", "--swing", "1", "--carry", "50"}).out ==
          "1 shot of Robin in lesson 2: 50.0 yd, which replaces 82.0 yd\n");
    CHECK(desk.say({"shots", "add", "--lesson", "2", "--swing", "1", "--carry", "8,5"}).exit_code == 2);
    desk.must({"wedges", "change", "54", "--student", "Robin", "--bag", "out"});
    const auto choice = desk.say({"choose", "--student", "Robin", "--distance", "80"});
    CHECK(choice.exit_code == 3);
    CHECK(choice.err.find("no wedge in the bag has a carry") != std::string::npos);
    CHECK(desk.say({"book"}).out.find("1 student, 2 lessons, 0 recordings") != std::string::npos);
    CHECK(desk.say({"swings", "--lesson", "2", "--sure", "40"}).exit_code == 2);
}

TEST_CASE("a recording of the other hand is taken only when the coach says whose hand it is") {
    const BookDesk desk;
    const ScratchFolder& scratch = desk.scratch();
    write_file(scratch / "l.csv", lesson_csv({8}));
    REQUIRE(run_program(
                {FOOTING_PROGRAM, "import", scratch / "l.csv", "--out", scratch / "l.h5", "--hand", "right"})
                .exit_code == 0);
    desk.must({"students", "add", "Ann", "--hand", "left"});
    const auto refused = desk.say({"lessons", "add", scratch / "l.h5", "--student", "Ann"});
    CHECK(refused.exit_code == 3);
    CHECK(refused.err.find("the recording is of a right-handed golfer, and Ann plays left-handed") !=
          std::string::npos);
    CHECK(desk.ask({"lessons"}).at("lessons").empty());
    CHECK(desk.ask({"lessons", "add", scratch / "l.h5", "--student", "Ann", "--hand", "right"}).at("hand") ==
          "right");
    const json before = desk.ask({"swings", "--lesson", "1"});
    desk.must({"lessons", "analyse", "1"});  // the hand is kept
    CHECK(desk.ask({"swings", "--lesson", "1"}) == before);
    CHECK(desk.ask({"lessons", "analyse", "1", "--hand", "left"}).at("hand") == "left");
    CHECK(desk.ask({"swings", "--lesson", "1"}) != before);
}

TEST_CASE("a table that an older program wrote, not in UTF-8, is read and shown by its letters") {
    const BookDesk desk;
    desk.must({"students", "add", "Robin"});
    desk.must({"wedges", "add", "54", "--student", "Robin"});
    desk.must({"lessons", "add", "--student", "Robin", "--date", "2026-05-14"});
    const std::string file = desk.scratch() / "range.csv";
    write_file(file, "Weite,Schl\xE4ger\n50,S\xE4ge\n");  // ISO 8859-1
    const auto unknown = desk.say({"shots", "import", file, "--lesson", "1"});
    CHECK(unknown.exit_code == 2);
    CHECK(unknown.err.find("its columns are: Weite,Schl\xC3\xA4ger") != std::string::npos);
    const json taken = desk.ask({"shots", "import", file, "--lesson", "1", "--carry-column", "Weite",
                                 "--club-column", "Schl\xC3\xA4ger", "--unit", "m", "--club",
                                 "S\xC3\xA4ge=54", "--length", "half", "--without-swings"});
    CHECK(taken.at("taken") == 1);
}
