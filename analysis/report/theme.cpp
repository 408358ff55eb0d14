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
    }
    return ground;
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
        case Theme::print:
            return light(ink, {0xFF, 0xFF, 0xFF});
    }
    return light(ink, {0xFF, 0xFF, 0xFF});
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
