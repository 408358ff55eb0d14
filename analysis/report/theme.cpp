#include "analysis/report/theme.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

// Lead and trail are blue and vermilion of Okabe and Ito (2008), the pair that passes 3:1 on white; on slate
// their sky blue and orange. The trail ink on light grounds is a shade darker than theirs, so that text in it
// passes 4.5:1 too.
Colour light(Ink ink, Colour ground) {
    switch (ink) {
        case Ink::ink:
            return {0x1F, 0x23, 0x28};
        case Ink::quiet:
            return {0x5B, 0x62, 0x6B};
        case Ink::grid:
            return {0xDD, 0xDA, 0xD3};
        case Ink::lead:
            return {0x00, 0x68, 0xA6};
        case Ink::trail:
            return {0xA8, 0x48, 0x00};
        case Ink::band:
            return {0xE6, 0xE9, 0xE4};
        case Ink::band_edge:
            return {0x7E, 0x88, 0x82};
        case Ink::loss:
            return {0x8A, 0x86, 0x7E};
        case Ink::paper:
            return ground;
        case Ink::alarm:
            return {0xB0, 0x00, 0x20};
    }
    return ground;
}

/// For a screen in the sun: every ink that says something reaches 7:1 on white (WCAG 2.1, success
/// criterion 1.4.6), and the band has edges to be seen by, since a tint is not.
Colour outdoors(Ink ink) {
    switch (ink) {
        case Ink::ink:
            return {0x00, 0x00, 0x00};
        case Ink::quiet:
            return {0x3A, 0x3F, 0x45};
        case Ink::grid:
            return {0xB4, 0xB4, 0xB4};
        case Ink::lead:
            return {0x00, 0x47, 0x7A};
        case Ink::trail:
            return {0x70, 0x2C, 0x00};
        case Ink::band:
            return {0xD6, 0xDE, 0xD8};
        case Ink::band_edge:
            return {0x3E, 0x4A, 0x42};
        case Ink::loss:
            return {0x55, 0x55, 0x55};
        case Ink::paper:
            return {0xFF, 0xFF, 0xFF};
        case Ink::alarm:
            return {0x8C, 0x00, 0x1A};
    }
    return {0xFF, 0xFF, 0xFF};
}

Colour dark(Ink ink) {
    switch (ink) {
        case Ink::ink:
            return {0xE8, 0xE6, 0xE1};
        case Ink::quiet:
            return {0xA3, 0xA8, 0xAE};
        case Ink::grid:
            return {0x2C, 0x33, 0x3B};
        case Ink::lead:
            return {0x56, 0xB4, 0xE9};
        case Ink::trail:
            return {0xE6, 0x9F, 0x00};
        case Ink::band:
            return {0x26, 0x2E, 0x33};
        case Ink::band_edge:
            return {0x78, 0x84, 0x8A};
        case Ink::loss:
            return {0x7D, 0x7B, 0x77};
        case Ink::paper:
            return {0x15, 0x19, 0x1E};
        case Ink::alarm:
            return {0xFF, 0x8A, 0x80};
    }
    return {0x15, 0x19, 0x1E};
}

double linear(std::uint8_t channel) {
    const double value = channel / 255.0;
    return value <= 0.03928 ? value / 12.92 : std::pow((value + 0.055) / 1.055, 2.4);
}

std::uint8_t mixed(std::uint8_t ink, double opacity, std::uint8_t ground) {
    const double value = opacity * ink + (1.0 - opacity) * ground;
    return static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L));
}

}  // namespace

Colour colour_of(Ink ink, Theme theme) {
    switch (theme) {
        case Theme::paper:
            return light(ink, {0xFA, 0xF8, 0xF4});
        case Theme::slate:
            return dark(ink);
        case Theme::sun:
            return outdoors(ink);
        case Theme::print:
            return light(ink, {0xFF, 0xFF, 0xFF});
    }
    return light(ink, {0xFF, 0xFF, 0xFF});
}

Theme next_window_theme(Theme theme) {
    switch (theme) {
        case Theme::paper:
            return Theme::slate;
        case Theme::slate:
            return Theme::sun;
        case Theme::sun:
        case Theme::print:
            break;
    }
    return Theme::paper;
}

const char* window_theme_name(Theme theme) {
    switch (theme) {
        case Theme::slate:
            return "dark";
        case Theme::sun:
            return "outdoors";
        case Theme::paper:
        case Theme::print:
            break;
    }
    return "light";
}

double relative_luminance(Colour colour) {
    return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast_ratio(Colour one, Colour other) {
    const double a = relative_luminance(one);
    const double b = relative_luminance(other);
    return (std::max(a, b) + 0.05) / (std::min(a, b) + 0.05);
}

Colour laid_over(Colour ink, double opacity, Colour ground) {
    return {mixed(ink.red, opacity, ground.red), mixed(ink.green, opacity, ground.green),
            mixed(ink.blue, opacity, ground.blue)};
}

}  // namespace footing
