#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "acquisition/import/csv_text.h"

using namespace footing;

namespace {

/// All lines, fields joined by '|'.
std::vector<std::string> lines_of(std::string_view text) {
    CsvText csv(text, "t.csv");
    std::vector<std::string> lines;
    while (true) {
        const auto next = csv.next();
        REQUIRE(next.ok());
        if (next.value() == CsvText::Next::end) return lines;
        std::string& line = lines.emplace_back(csv.fields().front());
        for (std::size_t i = 1; i < csv.fields().size(); ++i) line += "|" + std::string(csv.fields()[i]);
    }
}

Problem problem_of(std::string_view text) {
    CsvText csv(text, "t.csv");
    while (true) {
        const auto next = csv.next();
        if (!next) return next.problem();
        if (next.value() == CsvText::Next::end) FAIL("no problem found");
    }
}

}  // namespace

// The rules and examples of RFC 4180, section 2.
TEST_CASE("fields are split as RFC 4180 says") {
    using Lines = std::vector<std::string>;
    CHECK(lines_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") == Lines{"aaa|bbb|ccc", "zzz|yyy|xxx"});
    CHECK(lines_of("aaa,bbb,ccc\r\nzzz,yyy,xxx") == Lines{"aaa|bbb|ccc", "zzz|yyy|xxx"});
    CHECK(lines_of("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") == Lines{"aaa|bbb|ccc", "zzz|yyy|xxx"});
    CHECK(lines_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") == Lines{"aaa|b\r\nbb|ccc", "zzz|yyy|xxx"});
    CHECK(lines_of("\"aaa\",\"b\"\"bb\",\"ccc\"") == Lines{"aaa|b\"bb|ccc"});
    CHECK(lines_of("a,,c\n,,\n") == Lines{"a||c", "||"});
}

TEST_CASE("a byte-order mark, blank lines and blanks round fields are passed over") {
    CHECK(lines_of("\xEF\xBB\xBFx, y \n\n1,\t2\n\r\n\n") == std::vector<std::string>{"x|y", "1|2"});
    CHECK(lines_of("").empty());
    CHECK(lines_of("\n\n").empty());
}

TEST_CASE("lines are counted as an editor counts them") {
    CsvText csv("a\n\n\"b\nb\"\nc", "t.csv");
    REQUIRE(csv.next().ok());
    CHECK(csv.line() == 1);
    REQUIRE(csv.next().ok());
    CHECK(csv.line() == 3);
    REQUIRE(csv.next().ok());
    CHECK(csv.line() == 5);
}

TEST_CASE("what is no table is refused at its line") {
    CHECK(problem_of("a,b\n\"c,d\n").place == "t.csv, line 2");
    CHECK(problem_of("a,b\n\"c\"d,e\n").place == "t.csv, line 2");
    CHECK(problem_of(std::string("a,b\n\0\0\0", 7)).place == "t.csv, line 2");
    CHECK(problem_of("a,b\n1\r2\n").place == "t.csv, line 2");
    CHECK(problem_of("a\n" + std::string(most_csv_line_bytes + 1, 'x')).place == "t.csv, line 2");
    CHECK(problem_of("a\n\"" + std::string(most_csv_line_bytes + 1, 'x')).place == "t.csv, line 2");
    CHECK(problem_of(std::string(most_csv_fields + 1, ',')).place == "t.csv, line 1");
    for (const char* text : {"\"a", "a,\x01"}) CHECK(problem_of(text).kind == ProblemKind::bad_input);
}

TEST_CASE("numbers have a decimal point whatever the language, and nothing else") {
    CHECK(parse_csv_number("1.5").value() == 1.5);
    CHECK(parse_csv_number("-2e-3").value() == -0.002);
    CHECK(parse_csv_number("+7").value() == 7.0);
    for (const char* wrong :
         {"", "1,5", "1.5N", "0x10", "nan", "inf", "-inf", "1e999", "++1", "+-1", "1 2", "."}) {
        CAPTURE(wrong);
        REQUIRE_FALSE(parse_csv_number(wrong).ok());
        CHECK(parse_csv_number(wrong).problem().kind == ProblemKind::bad_input);
    }
    CHECK(parse_csv_number("1,5").problem().remedy == "use a decimal point, not a comma");
}
