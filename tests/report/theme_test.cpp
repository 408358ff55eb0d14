#include <doctest/doctest.h>

#include "analysis/report/theme.h"

using namespace footing;

TEST_CASE("contrast by WCAG 2.1 at its known values") {
    // W3C, WCAG 2.1, definitions of relative luminance and contrast ratio: black on white is 21, a colour on
    // itself 1.
    CHECK(contrast_ratio({0, 0, 0}, {255, 255, 255}) == doctest::Approx(21.0));
    CHECK(contrast_ratio({12, 99, 200}, {12, 99, 200}) == doctest::Approx(1.0));
    // From memory: #767676 is the lightest grey that reaches 4.5:1 on white (4.54); #777777 does not (4.48).
    CHECK(contrast_ratio({0x76, 0x76, 0x76}, {255, 255, 255}) == doctest::Approx(4.54).epsilon(0.002));
    CHECK(contrast_ratio({0x77, 0x77, 0x77}, {255, 255, 255}) < 4.5);
}

TEST_CASE("text has 4.5:1 and lines 3:1 on every ground of every theme") {
    // WCAG 2.1, success criteria 1.4.3 (text) and 1.4.11 (graphics).
    for (const Theme theme : {Theme::paper, Theme::slate, Theme::print}) {
        const Colour paper = colour_of(Ink::paper, theme);
        const Colour band = colour_of(Ink::band, theme);
        CAPTURE(static_cast<int>(theme));
        for (const Ink text : {Ink::ink, Ink::quiet, Ink::lead, Ink::trail}) {
            CAPTURE(static_cast<int>(text));
            CHECK(contrast_ratio(colour_of(text, theme), paper) >= 4.5);
            CHECK(contrast_ratio(colour_of(text, theme), band) >= 4.5);
        }
        CHECK(contrast_ratio(colour_of(Ink::band_edge, theme), paper) >= 3.0);
        CHECK(contrast_ratio(colour_of(Ink::loss, theme), paper) >= 3.0);
        // The words "frames lost" stand on the shading.
        const Colour shaded = laid_over(colour_of(Ink::loss, theme), 0.35, paper);
        CHECK(contrast_ratio(colour_of(Ink::ink, theme), shaded) >= 4.5);
        // Outdoors, the light themes: the figures at 7:1 (U9).
        if (theme != Theme::slate) CHECK(contrast_ratio(colour_of(Ink::ink, theme), paper) >= 7.0);
    }
}

TEST_CASE("on a grey printer the trace, the band and the paper stay apart") {
    const auto grey = [](Colour colour) { return relative_luminance(colour); };
    const double paper = grey(colour_of(Ink::paper, Theme::print));
    const double band = grey(colour_of(Ink::band, Theme::print));
    CHECK(paper - band > 0.08);
    CHECK(contrast_ratio(colour_of(Ink::lead, Theme::print), colour_of(Ink::band, Theme::print)) >= 3.0);
}
