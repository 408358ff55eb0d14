// The verb mark, and what the coach's marks do to analyse, on a recording of the repository.
#include <doctest/doctest.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"

using namespace footing::test;
using nlohmann::json;

namespace {

bool says(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

/// A copy of a recording with three swings of a left-handed golfer, whose marks may come and go.
struct MarkedLesson {
    ScratchFolder folder;
    std::string file = folder / "lesson.h5";

    MarkedLesson() {
        std::filesystem::copy_file(std::string(FOOTING_SOURCE_DIR) + "/recordings/left_handed_plates.h5",
                                   file);
    }
    ProgramOutput mark(std::vector<std::string> words) const {
        words.insert(words.begin(), {"mark", file});
        return footing_says(words);
    }
    json analysed() const { return json::parse(footing_says({"analyse", file, "--json", "-"}).out); }
    std::string sidecar() const { return file + ".marks.json"; }
};

}  // namespace

TEST_CASE("an event is marked at the time that the table tells, listed, and taken back") {
    const MarkedLesson lesson;
    CHECK(lesson.mark({}).out == "nothing is marked\n");
    const std::string table = footing_says({"analyse", lesson.file}).out;
    CHECK(says(table, "at, s"));
    CHECK(says(table, "40.01"));
    const auto marked = lesson.mark({"--swing", "2", "--event", "impact", "--at", "40.05"});
    REQUIRE_MESSAGE(marked.exit_code == 0, marked.err);
    CHECK(says(marked.out, "impact at 40.050 s"));
    const json impact = lesson.analysed()["swings"][1]["events"]["impact"];
    CHECK(impact["time_s"] == 40.05);
    CHECK(impact["source"] == "coach");
    CHECK(lesson.mark({"--swing", "2", "--event", "impact", "--remove"}).out == "nothing is marked\n");
    CHECK_FALSE(std::filesystem::exists(lesson.sidecar()));
}

TEST_CASE("nothing is marked beyond the recording") {
    // A table that ends half a second after the strike of its last swing.
    const ScratchFolder folder;
    std::istringstream table(read_file(std::string(FOOTING_SOURCE_DIR) + "/recordings/half_swings.csv"));
    std::string rows;
    std::string row;
    for (int i = 0; i < 4010 && std::getline(table, row); ++i) rows += row + "\n";
    write_file(folder / "cut.csv", rows);
    const std::string file = folder / "cut.h5";
    REQUIRE(footing_says({"import", folder / "cut.csv", "--out", file, "--hand", "right"}).exit_code == 0);
    const auto beyond = footing_says({"mark", file, "--swing", "3", "--event", "impact", "--by", "+0.9"});
    CHECK(beyond.exit_code == 2);
    CHECK(says(beyond.err, "is not within the recording, which lasts from 0 to 40.0"));
    CHECK(footing_says({"mark", file}).out == "nothing is marked\n");
    CHECK(footing_says({"mark", file, "--swing", "3", "--event", "impact", "--by", "+0.02"}).exit_code == 0);
}

TEST_CASE("an event is moved by so much from where it was found, however often it is said") {
    const MarkedLesson lesson;
    const auto impact_s = [&] {
        return lesson.analysed()["swings"][1]["events"]["impact"]["time_s"].get<double>();
    };
    const double found_s = impact_s();
    for (int i = 0; i < 2; ++i) {
        const auto marked = lesson.mark({"--swing", "2", "--event", "impact", "--by", "-0.02"});
        REQUIRE_MESSAGE(marked.exit_code == 0, marked.err);
        CHECK(impact_s() == doctest::Approx(found_s - 0.02));
    }
    const auto both = lesson.mark({"--swing", "2", "--event", "impact", "--by", "0.1", "--at", "40.05"});
    CHECK(both.exit_code == 2);
    CHECK(says(both.err, "give one of the three"));
    CHECK(says(lesson.mark({"--swing", "2", "--by", "0.1"}).err, "--by needs the event"));
    CHECK(says(lesson.mark({"--swing", "2", "--event", "impact", "--by", "9"}).err, "is not within swing 2"));
}

TEST_CASE("what is marked as no swing is left out, and its strike with it") {
    const MarkedLesson lesson;
    REQUIRE(lesson.mark({"--swing", "2", "--not-a-swing"}).exit_code == 0);
    const std::string table = footing_says({"analyse", lesson.file}).out;
    CHECK(says(table, "\n  3  shot"));
    CHECK_FALSE(says(table, "\n  2  shot"));
    CHECK_FALSE(says(table, "told of a strike"));
}

TEST_CASE("a silent trigger means practice once the coach says that it never misses, and not before") {
    const MarkedLesson lesson;
    CHECK(lesson.analysed()["swings"][0]["kind"] == "unknown");
    const auto said = lesson.mark({"--trigger", "never-misses"});
    REQUIRE_MESSAGE(said.exit_code == 0, said.err);
    CHECK(says(said.out, "the trigger never misses"));
    const json swings = lesson.analysed()["swings"];
    CHECK(swings[0]["kind"] == "practice");
    CHECK(swings[0]["kind_source"] == "trigger");
    CHECK(swings[1]["kind"] == "shot");
    const std::string csv = lesson.folder / "lesson.csv";
    REQUIRE(footing_says({"report", lesson.file, "--out", csv}).exit_code == 0);
    CHECK(says(read_file(csv), "kind_source"));
    CHECK(says(footing_says({"analyse", lesson.file}).out, "3 told by the trigger"));
    CHECK(lesson.mark({"--trigger", "sleeps"}).exit_code == 2);
    CHECK(lesson.mark({"--trigger", "may-miss", "--swing", "1"}).exit_code == 2);
    CHECK(lesson.mark({"--trigger", "may-miss"}).out == "nothing is marked\n");
    CHECK_FALSE(std::filesystem::exists(lesson.sidecar()));
}

TEST_CASE("what cannot be marked is told, and nothing is written") {
    const MarkedLesson lesson;
    const std::vector<std::pair<std::vector<std::string>, std::string>> wrong_words{
        {{"--swing", "9", "--kind", "shot"}, "there is no swing 9; 3 were found"},
        {{"--swing", "-1", "--kind", "shot"}, "\"-1\" is not a number"},
        {{"--swing", "2", "--kind", "shot", "--remove"}, "--remove"},
        {{"--swing", "2"}, "it is not said what is known of the swing"},
        {{"--kind", "shot"}, "it is not said which swing"},
        {{"--swing", "2", "--event", "impact", "--at", "4"}, "not within swing 2"},
        {{"--swing", "2", "--event", "apex", "--at", "40"}, "\"apex\" is no event"}};
    for (const auto& [words, sentence] : wrong_words) {
        const auto said = lesson.mark(words);
        CAPTURE(said.err);
        CHECK(said.exit_code == 2);
        CHECK(says(said.err, sentence));
    }
    for (const std::vector<std::string>& words :
         {std::vector<std::string>{"--swing", "2", "--remove"},
          std::vector<std::string>{"--swing", "2", "--event", "top", "--remove"}}) {
        const auto said = lesson.mark(words);
        CHECK(said.exit_code == 3);
        CHECK(says(said.err, "is not marked"));
    }
    CHECK_FALSE(std::filesystem::exists(lesson.sidecar()));
    REQUIRE(lesson.mark({"--swing", "2", "--event", "top", "--at", "39.8"}).exit_code == 0);
    const auto same_instant = lesson.mark({"--swing", "2", "--event", "impact", "--at", "39.8"});
    CHECK(same_instant.exit_code == 2);
    CHECK(says(same_instant.err, "impact must come after top"));
}

TEST_CASE("marks of no recording are not listed, and damaged ones are not applied") {
    const MarkedLesson lesson;
    CHECK(footing_says({"mark", lesson.folder / "none.h5"}).exit_code == 3);
    REQUIRE(lesson.mark({"--swing", "2", "--event", "impact", "--at", "40.05"}).exit_code == 0);
    std::string text = read_file(lesson.sidecar());
    const std::size_t at = text.find("40.05");
    REQUIRE(at != std::string::npos);
    write_file(lesson.sidecar(), text.replace(at, 5, "9999999"));
    for (const char* verb : {"analyse", "mark"}) {
        const auto said = footing_says({verb, lesson.file});
        CHECK(said.exit_code == 3);
        CHECK(says(said.err, lesson.sidecar()));
        CHECK(says(said.err, "impact is marked at 9999999"));
    }
}

TEST_CASE("read as the wrong hand, the other is named; compared with itself, a recording is refused") {
    const MarkedLesson lesson;
    CHECK(says(footing_says({"analyse", lesson.file, "--hand", "right"}).out, "--hand left"));
    const auto itself = footing_says({"compare", lesson.file, lesson.file});
    CHECK(itself.exit_code == 3);
    CHECK(says(itself.err, "the same recording"));
    CHECK(footing_says({"compare", lesson.file, "--picture", ""}).exit_code == 2);
    const auto compared = footing_says({"compare", lesson.file});
    CHECK(says(compared.out, "3 swings of any kind taken together"));
}

TEST_CASE("swings are drawn aligned on an event, which needs a picture and at most two recordings") {
    const MarkedLesson lesson;
    const std::string picture = lesson.folder / "aligned.png";
    const auto drawn = footing_says({"compare", lesson.file, "--align", "takeaway", "--picture", picture});
    CHECK_MESSAGE(drawn.exit_code == 0, drawn.err);
    CHECK(std::filesystem::exists(picture));
    CHECK(says(drawn.out, "Too few to say whether one of them is odd"));
    CHECK(footing_says({"compare", lesson.file, "--align", "takeaway"}).exit_code == 2);
    CHECK(footing_says({"compare", lesson.file, "--align", "lunch", "--picture", picture}).exit_code == 2);
    CHECK(
        footing_says({"compare", "a.h5", "b.h5", "c.h5", "--align", "top", "--picture", picture}).exit_code ==
        2);
}

TEST_CASE("the keys are told without a display") {
    const auto said = run_program({"/usr/bin/env", "-u", "DISPLAY", FOOTING_PROGRAM, "view", "--help-keys"});
    CHECK(said.exit_code == 0);
    CHECK(says(said.out, "Space"));
    CHECK(says(said.out, "to the address"));
}

TEST_CASE("steadiness of a walk is measured, with a warning that nobody stood still") {
    const MarkedLesson lesson;
    const auto walk = footing_says({"steadiness", lesson.file, "--from", "6", "--to", "14"});
    REQUIRE_MESSAGE(walk.exit_code == 0, walk.err);
    CHECK(says(walk.out, "Nobody stood still here"));
    const auto stand = footing_says({"steadiness", lesson.file, "--from", "22.5", "--to", "24"});
    REQUIRE_MESSAGE(stand.exit_code == 0, stand.err);
    CHECK_FALSE(says(stand.out, "Nobody stood still here"));
}
