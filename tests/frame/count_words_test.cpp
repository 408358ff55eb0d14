#include "acquisition/frame/count_words.h"

#include <doctest/doctest.h>

using namespace footing;

TEST_CASE("a word goes with its number, and with how many there are in all") {
    CHECK(count_words(0, "swing", "swings") == "0 swings");
    CHECK(count_words(1, "swing", "swings") == "1 swing");
    CHECK(count_words(8, "swing", "swings") == "8 swings");
    CHECK(part_words(0, 1, "shot", "shots") == "0 of 1 shot");
    CHECK(part_words(1, 1, "shot", "shots") == "1 of 1 shot");
    CHECK(part_words(1, 6, "shot was", "shots were") == "1 of 6 shots were");
}
