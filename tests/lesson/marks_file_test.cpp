#include "viewer/lesson/marks_file.h"

#include <doctest/doctest.h>

#include <string>

using namespace footing;

namespace {

CoachMarks some_marks() {
    CoachMarks marks;
    CoachMark& first = marks.swings.emplace_back();
    first.near_s = 12.25;
    first.event_s[4] = 12.345;
    first.kind = SwingKind::practice;
    CoachMark& second = marks.swings.emplace_back();
    second.near_s = 30.5;
    second.marked_as = MarkedAs::not_a_swing;
    return marks;
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("marks come back from their text as they were") {
    const auto back = parse_marks(marks_text(some_marks(), "an-id"), "an-id", "a.marks.json");
    REQUIRE(back.ok());
    REQUIRE(back.value().swings.size() == 2);
    CHECK(back.value().swings[0].near_s == 12.25);
    CHECK(back.value().swings[0].event_s[4] == 12.345);
    CHECK_FALSE(back.value().swings[0].event_s[0]);
    CHECK(back.value().swings[0].kind == SwingKind::practice);
    CHECK(back.value().swings[1].marked_as == MarkedAs::not_a_swing);
}

TEST_CASE("damaged or foreign marks are told in one sentence, never half taken") {
    const std::string good = marks_text(some_marks(), "an-id");
    const auto problem = [](const std::string& text) {
        const auto marks = parse_marks(text, "an-id", "a.marks.json");
        REQUIRE_FALSE(marks.ok());
        CHECK(marks.problem().kind == ProblemKind::bad_input);
        CHECK(marks.problem().place == "a.marks.json");
        return marks.problem().what;
    };
    CHECK(problem("") == "this is no file of the coach's marks, or it is damaged");
    CHECK(problem(good.substr(0, good.size() / 2)) ==
          "this is no file of the coach's marks, or it is damaged");
    CHECK(problem("[]") == "this is no file of the coach's marks, or it is damaged");
    CHECK(problem(changed(good, "an-id", "another-id")) == "these marks belong to another recording");
    CHECK(problem(changed(good, "\"version\": 1", "\"version\": 2")) ==
          "these marks are of a version that this program does not know");
    CHECK_FALSE(problem(changed(good, "12.345", "-3")).empty());
    CHECK_FALSE(problem(changed(good, "12.345", "\"soon\"")).empty());
    CHECK_FALSE(problem(changed(good, "impact", "apex")).empty());
    CHECK_FALSE(problem(changed(good, "practice", "dream")).empty());
    CHECK_FALSE(problem(changed(good, "12.25", "null")).empty());
}
