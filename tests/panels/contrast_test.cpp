#include <doctest/doctest.h>

#include "analysis/report/theme.h"

using namespace footing;

// WCAG 2.1, success criteria 1.4.3 (text 4.5:1) and 1.4.11 (graphics 3:1); U8 and U9 of the field
// requirements.

TEST_CASE("text reads on the ground and on the row that is chosen, lines and marks stand off it") {
    for (const Theme theme : {Theme::paper, Theme::slate}) {
        for (const Ink ground : {Ink::paper, Ink::band}) {
            const Colour on = colour_of(ground, theme);
            CHECK(contrast_ratio(colour_of(Ink::ink, theme), on) >= 7.0);
            CHECK(contrast_ratio(colour_of(Ink::quiet, theme), on) >= 4.5);
            CHECK(contrast_ratio(colour_of(Ink::lead, theme), on) >= 4.5);
            CHECK(contrast_ratio(colour_of(Ink::trail, theme), on) >= 3.0);
        }
    }
}

TEST_CASE("an alarm reads on the ground, and the ground reads on an alarm") {
    for (const Theme theme : {Theme::paper, Theme::slate})
        CHECK(contrast_ratio(colour_of(Ink::alarm, theme), colour_of(Ink::paper, theme)) >= 4.5);
}

TEST_CASE("outdoors every ink that says something reads at 7:1, on the ground and on the chosen row") {
    for (const Ink ground : {Ink::paper, Ink::band}) {
        const Colour on = colour_of(ground, Theme::sun);
        for (const Ink ink : {Ink::ink, Ink::quiet, Ink::lead, Ink::trail})
            CHECK(contrast_ratio(colour_of(ink, Theme::sun), on) >= 7.0);
        CHECK(contrast_ratio(colour_of(Ink::band_edge, Theme::sun), on) >= 3.0);
    }
    CHECK(contrast_ratio(colour_of(Ink::alarm, Theme::sun), colour_of(Ink::paper, Theme::sun)) >= 7.0);
}

TEST_CASE("the band is told by its edges where its tint cannot be seen") {
    for (const Theme theme : {Theme::paper, Theme::slate, Theme::sun}) {
        for (const Ink ground : {Ink::paper, Ink::band})
            CHECK(contrast_ratio(colour_of(Ink::band_edge, theme), colour_of(ground, theme)) >= 2.9);
    }
}
