// Tables of distance devices: shapes invented, as devices might write them.
#include "viewer/book/shot_table.h"

#include <cmath>
#include <string>
#include <vector>

#include "tests/book/book_sample.h"
#include "viewer/book/shot_match.h"

using namespace footing;
using namespace footing::test;

namespace {

ShotTableShape shape() {
    ShotTableShape columns;
    columns.carry_column = "Carry";
    columns.club_column = "Club";
    columns.date_column = "Date";
    columns.side_column = "Side";
    return columns;
}

}  // namespace

TEST_CASE("rows become shots, in metres; what is no shot is told with its line") {
    const std::string text =
        "\xEF\xBB\xBF"
        "Date,Club,Carry,Side\r\n"
        ",,[yd],[yd]\r\n"
        "2026-05-14 10:20:44,SW,82.5,3.2 L\r\n"
        "2026-05-14 10:21:30,\"Gap, wedge\",95,1R\r\n"
        "yesterday,SW,80,0\r\n"
        "2026-05-14 10:22:01,SW,80,wide\r\n"
        "2026-05-14 10:22:01,SW,700,0\r\n"
        "2026-05-14 10:23:00,SW,80,\r\n";
    CHECK(need(shot_table_header(text, "t.csv")) == "Date,Club,Carry,Side");
    const ShotTable table = need(read_shot_table(text, "t.csv", shape()));
    REQUIRE(table.rows.size() == 3);
    CHECK(table.rows[0].carry_m == doctest::Approx(82.5 * 0.9144));
    CHECK(*table.rows[0].side_m == doctest::Approx(-3.2 * 0.9144));
    CHECK(table.rows[0].club == "SW");
    CHECK(table.rows[0].day == 20587);
    CHECK(*table.rows[0].second_of_day == 10 * 3600 + 20 * 60 + 44);
    CHECK(table.rows[1].club == "Gap, wedge");
    CHECK(*table.rows[1].side_m > 0.0);
    CHECK_FALSE(table.rows[2].side_m.has_value());
    REQUIRE(table.not_read.size() == 4);
    CHECK(table.not_read[0] ==
          "line 2: \"[yd]\" is no carry: a number above 0, up to 547, without a unit is");
    CHECK(table.not_read[1].find("line 5") == 0);
    CHECK(table.not_read[3].find("line 7") == 0);
}

TEST_CASE("semicolons with decimal commas, other orders of the date, other units") {
    ShotTableShape columns = shape();
    columns.date_order = "dmy";
    columns.carry_unit = "m";
    columns.side_unit = "ft";
    const ShotTable german =
        need(read_shot_table("Club;Date;Carry;Side\nSW;14.05.2026 09:05;75,5;-3\n", "t.csv", columns));
    REQUIRE(german.rows.size() == 1);
    CHECK(german.rows[0].carry_m == 75.5);
    CHECK(*german.rows[0].side_m == doctest::Approx(-0.9144));
    CHECK(german.rows[0].day == 20587);
    CHECK(*german.rows[0].second_of_day == 9 * 3600 + 5 * 60);
    columns.date_order = "mdy";
    const ShotTable american = need(read_shot_table(
        "Club\tDate\tCarry\tSide\nSW\t5/14/2026 12:20 AM\t75\t\nSW\t5/14/2026 1:02:03 PM\t75\t\n", "t.csv",
        columns));
    REQUIRE(american.rows.size() == 2);
    CHECK(*american.rows[0].second_of_day == 20 * 60);
    CHECK(*american.rows[1].second_of_day == 13 * 3600 + 2 * 60 + 3);
    // The 14th month is no date: nothing is guessed.
    CHECK(need(read_shot_table("Club,Date,Carry,Side\nSW,14/05/2026,75,\n", "t.csv", columns)).rows.empty());
}

TEST_CASE("a carry beyond any wedge's reach is left out and told, or taken where it is meant") {
    ShotTableShape columns = shape();
    columns.club_column = columns.date_column = columns.side_column = "";
    const std::string text = "Carry\n80\n400\n";
    const ShotTable asked = need(read_shot_table(text, "t.csv", columns));
    CHECK(asked.rows.size() == 1);
    REQUIRE(asked.not_read.size() == 1);
    CHECK(asked.not_read.front().find("line 3: 400 yd is farther than any wedge carries (200 yd)") == 0);
    CHECK(need(read_shot_table(text, "t.csv", columns, FarCarry::taken)).rows.size() == 2);
}

TEST_CASE("the same line twice is two shots; a column that is not there is told") {
    ShotTableShape columns = shape();
    columns.date_column = columns.side_column = columns.club_column = "";
    const ShotTable table = need(read_shot_table("Carry\n80\n80\n81\n", "t.csv", columns));
    REQUIRE(table.rows.size() == 3);
    CHECK(table.rows[0].copy == 0);
    CHECK(table.rows[1].copy == 1);
    CHECK(table.rows[2].copy == 0);
    columns.carry_column = "Distance";
    const auto refused = read_shot_table("Carry\n80\n", "t.csv", columns);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().remedy == "the columns are: Carry");
    CHECK_FALSE(shot_table_header("", "t.csv").ok());
}

TEST_CASE("shots find their swings by time whatever the device's clock is off by") {
    const std::vector<double> swings{100, 131, 155, 198, 240, 259, 301};
    // Five of the seven gave a ball; the device's clock is 94 s ahead and writes whole seconds.
    const std::vector<double> shots{131 + 94, 156 + 94, 198 + 93, 259 + 94, 301 + 95};
    const MatchByTime found = match_by_time(shots, swings);
    REQUIRE(found.failure == MatchFailure::none);
    const std::vector<std::optional<std::size_t>> expected{1, 2, 3, 5, 6};
    CHECK(found.match.swing_of_row == expected);
    CHECK(std::abs(*found.match.clock_offset_s - 94.0) < 1.0);
    // A ball that no swing fits is left out.
    std::vector<double> stray = shots;
    stray.insert(stray.begin() + 3, 225 + 94);
    const MatchByTime with_stray = match_by_time(stray, swings);
    REQUIRE(with_stray.failure == MatchFailure::none);
    CHECK_FALSE(with_stray.match.swing_of_row[3].has_value());
}

TEST_CASE("times that fit in several ways, or in none, are refused") {
    // A swing every 30 s, and fewer shots: any shift fits.
    CHECK(match_by_time({1000, 1030, 1060}, {990, 1020, 1050, 1080}).failure == MatchFailure::ambiguous);
    CHECK(match_by_time({1000, 1100, 1500}, {10, 20, 35}).failure == MatchFailure::too_few);
    CHECK(match_by_time({}, {10, 20}).failure == MatchFailure::too_few);
    CHECK(match_by_time({10}, {}).failure == MatchFailure::too_few);
}

TEST_CASE("years of two digits, columns that are there twice, lines that are too wide") {
    ShotTableShape columns = shape();
    columns.date_order = "mdy";
    const ShotTable short_year =
        need(read_shot_table("Club,Date,Carry,Side\nSW,5/14/26,75,\n", "t.csv", columns));
    CHECK(short_year.rows.empty());
    REQUIRE(short_year.not_read.size() == 1);
    CHECK(short_year.not_read[0].find("four digits for the year") != std::string::npos);
    columns.date_order = "ymd";

    const auto twice =
        read_shot_table("Club,Carry,Date,Carry,Side\nSW,75,2026-05-14,80,\n", "t.csv", columns);
    REQUIRE_FALSE(twice.ok());
    CHECK(twice.problem().what == "there are several columns \"Carry\"");
    // Of a column that nobody asks for there may be two.
    CHECK(need(read_shot_table("Club,Carry,Date,Side,x,x\nSW,75,2026-05-14,,,\n", "t.csv", columns))
              .rows.size() == 1);

    // "8,5" in a table of commas; an empty field at the end does no harm.
    const ShotTable wide = need(read_shot_table(
        "Club,Date,Carry,Side\nSW,2026-05-14,8,5,1\nSW,2026-05-14,85,1,\n", "t.csv", columns));
    CHECK(wide.rows.size() == 1);
    REQUIRE(wide.not_read.size() == 1);
    CHECK(wide.not_read[0] == "line 2: has 5 fields, and the first line has 4");
}

TEST_CASE("a table of more lines than a lesson has is refused") {
    ShotTableShape columns = shape();
    columns.date_column = columns.side_column = columns.club_column = "";
    std::string text = "Carry\n";
    for (std::size_t i = 0; i < most_shot_rows; ++i) text += "80\n";
    CHECK(need(read_shot_table(text, "t.csv", columns)).rows.size() == most_shot_rows);
    CHECK_FALSE(read_shot_table(text + "80\n", "t.csv", columns).ok());
}
