#include <doctest/doctest.h>

#include "analysis/report/text_table.h"

using namespace footing;

namespace {

const std::vector<TableColumn> columns{{"lesson", Side::right}, {"date"}, {"recording"}, {"set-up"}};
const std::vector<std::vector<std::string>> rows{{"1", "2026-05-14", "morning.h5", "ball back"},
                                                 {"12", "2026-05-21", "", "stance narrow, ball back"}};

}  // namespace

TEST_CASE("a table that there is room for is one, whatever the room") {
    const std::string whole = text_table(columns, rows);
    CHECK(whole ==
          "lesson  date        recording   set-up\n"
          "     1  2026-05-14  morning.h5  ball back\n"
          "    12  2026-05-21              stance narrow, ball back\n");
    CHECK(text_table(columns, rows, {0, widest_line(whole)}) == whole);
    CHECK(text_table(columns, rows, {2, TableRoom::no_limit}).find("  lesson  date") == 0);
}

TEST_CASE("a table that is too wide comes in several, each led by the first column, and nothing is cut") {
    const std::string parted = text_table(columns, rows, {0, 40});
    CHECK(parted ==
          "lesson  date        recording\n"
          "     1  2026-05-14  morning.h5\n"
          "    12  2026-05-21\n"
          "\n"
          "lesson  set-up\n"
          "     1  ball back\n"
          "    12  stance narrow, ball back\n");
    CHECK(widest_line(parted) <= 40);
    // Two columns that are wider than the terminal stay beside each other.
    CHECK(widest_line(text_table(columns, rows, {4, 10})) == 4 + 6 + 2 + 24);
    CHECK(text_table({{"only"}}, {{"one"}}, {0, 2}) == "only\none\n");
}
