#include "viewer/lesson/marks_file.h"

#include <doctest/doctest.h>

#include <string>

using namespace footing;

namespace {

const MarkedRecording recording{"an-id", 60.0};

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
    const auto back = parse_marks(marks_text(some_marks(), "an-id"), recording, "a.marks.json");
    REQUIRE(back.ok());
    REQUIRE(back.value().swings.size() == 2);
    CHECK(back.value().swings[0].near_s == 12.25);
    CHECK(back.value().swings[0].event_s[4] == 12.345);
    CHECK_FALSE(back.value().swings[0].event_s[0]);
    CHECK(back.value().swings[0].kind == SwingKind::practice);
    CHECK(back.value().swings[1].marked_as == MarkedAs::not_a_swing);
}

TEST_CASE("what the coach says of the trigger is kept, and nothing else is taken for it") {
    CoachMarks marks;
    CHECK(marks.empty());
    CHECK(marks_text(marks, "an-id").find("trigger") == std::string::npos);
    marks.trigger = TriggerTrust::never_misses;
    CHECK_FALSE(marks.empty());
    const std::string text = marks_text(marks, "an-id");
    const auto back = parse_marks(text, recording, "a.marks.json");
    REQUIRE(back.ok());
    CHECK(back.value().trigger == TriggerTrust::never_misses);
    const auto other = parse_marks(changed(text, "never misses", "sleeps"), recording, "a.marks.json");
    REQUIRE_FALSE(other.ok());
    CHECK(other.problem().what.find("trigger") != std::string::npos);
}

TEST_CASE("damaged or foreign marks are told in one sentence, never half taken") {
    const std::string good = marks_text(some_marks(), "an-id");
    const auto problem = [](const std::string& text) {
        const auto marks = parse_marks(text, recording, "a.marks.json");
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

TEST_CASE("marks that cannot be are told with their place, and never applied") {
    const auto problem = [](const CoachMarks& marks) {
        const auto read = parse_marks(marks_text(marks, "an-id"), recording, "a.marks.json");
        REQUIRE_FALSE(read.ok());
        CHECK(read.problem().kind == ProblemKind::bad_input);
        return read.problem().what;
    };
    CoachMarks far = some_marks();
    far.swings[0].event_s[4] = 9999999.0;
    CHECK(problem(far).find("impact is marked at 9999999.000 s") != std::string::npos);
    far.swings[0].event_s[4] = 30.0;  // within the recording, but nowhere near its swing
    CHECK(problem(far).find("not within its swing near 12.250 s") != std::string::npos);
    CoachMarks late = some_marks();
    late.swings[1].near_s = 61.5;
    CHECK(problem(late).find("beyond the recording's end") != std::string::npos);
    CoachMarks order = some_marks();
    order.swings[0].event_s[3] = 12.5;
    CHECK(problem(order).find("impact must come after top; marked are ") !=
          std::string::npos);
    order.swings[0].event_s[3] = *order.swings[0].event_s[4];  // two events at one instant
    CHECK(problem(order).find("impact must come after top") != std::string::npos);
    CoachMarks twice = some_marks();
    twice.swings.push_back(twice.swings[0]);
    twice.swings.back().near_s += 0.5;
    CHECK(problem(twice).find("is marked twice") != std::string::npos);
}

TEST_CASE("marks of a recording whose UUID is no UTF-8 are written and read back") {
    const MarkedRecording odd{"bad \xFF\xC3( id", 60.0};
    const std::string text = marks_text(some_marks(), odd.uuid);
    CHECK(parse_marks(text, odd, "a.marks.json").ok());
    CHECK_FALSE(parse_marks(text, recording, "a.marks.json").ok());
}
