#include <doctest/doctest.h>

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "tests/support/footing_says.h"

using namespace footing::test;

namespace {

std::string recorded(const std::string& name) {
    return std::string(FOOTING_SOURCE_DIR) + "/recordings/" + name;
}

}  // namespace

TEST_CASE("swings that cannot be paired are bad input: how many each file holds, and what to do") {
    const std::string three = recorded("left_handed_plates.h5");
    const std::string two = recorded("mat.h5");
    const ScratchFolder scratch;
    const auto unequal =
        footing_says({"compare", "--same-swings", three, two, "--json", scratch / "numbers.json"});
    CHECK(unequal.exit_code == 3);
    CHECK(unequal.out.empty());
    CHECK(unequal.err.find(three + " and " + two) != std::string::npos);
    CHECK(unequal.err.find("the first holds 3 swings of any kind, the second 2 swings of any kind") !=
          std::string::npos);
    CHECK(unequal.err.find("footing mark") != std::string::npos);
    CHECK(read_file(scratch / "numbers.json").empty());
    const auto none = footing_says({"compare", "--same-swings", three, two, "--kind", "practice"});
    CHECK(none.exit_code == 3);
    CHECK(none.err.find("each holds 0 practice swings, and two pairs are needed") != std::string::npos);
    CHECK(footing_says({"compare", three, two}).exit_code == 0);
}

TEST_CASE("the same swings, imported twice, agree to nothing") {
    const ScratchFolder scratch;
    for (const char* name : {"one.h5", "other.h5"})
        REQUIRE(footing_says({"import", recorded("half_swings.csv"), "--out", scratch / name}).exit_code ==
                0);
    const auto said =
        footing_says({"compare", "--same-swings", scratch / "one.h5", scratch / "other.h5", "--json", "-"});
    REQUIRE_MESSAGE(said.exit_code == 0, said.err);
    const auto agreement = nlohmann::json::parse(said.out).at("agreement").at("address_share");
    CHECK(agreement.at("pairs") == 3);
    CHECK(agreement.at("bias") == 0.0);
    CHECK(agreement.at("sd") == 0.0);
}
