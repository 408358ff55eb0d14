#include "analysis/report/number_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "analysis/statistics/rounding.h"

namespace footing {

namespace {
constexpr double coverage = 2.0;  // k of the expanded uncertainty, GUM 6.2
}

std::string number_words(double value, int decimals) {
    return rounded(value, decimals);
}

std::string unbroken(std::string sentence) {
    const std::string no_break = "\xC2\xA0";  // U+00A0
    for (const std::string part : {" ± ", " : ", " %"}) {
        std::string joined = part;
        for (std::size_t at = joined.find(' '); at != std::string::npos; at = joined.find(' ')) {
            joined.replace(at, 1, no_break);
        }
        for (std::size_t at = sentence.find(part); at != std::string::npos; at = sentence.find(part, at)) {
            sentence.replace(at, part.size(), joined);
        }
    }
    const auto digit_at = [&](std::size_t at) {
        return at < sentence.size() && sentence[at] >= '0' && sentence[at] <= '9';
    };
    const auto letter_at = [&](std::size_t at) {
        if (at >= sentence.size()) return false;
        const auto byte = static_cast<unsigned char>(sentence[at]);
        return std::isalnum(byte) != 0 || byte >= 0x80;
    };
    for (std::size_t at = sentence.find(' '); at != std::string::npos; at = sentence.find(' ', at + 1)) {
        if (at == 0 || !digit_at(at - 1)) continue;
        const auto follows = [&](const std::string& word) {
            return sentence.compare(at + 1, word.size(), word) == 0;
        };
        // "70 to 80 %" as one.
        if (follows("to ") && digit_at(at + 4)) {
            sentence.replace(at + 3, 1, no_break);
            sentence.replace(at, 1, no_break);
            continue;
        }
        for (const std::string unit : {"yd", "m", "mm", "cm", "s", "ms", "N", "kg", "Hz", "min"}) {
            if (!follows(unit) || letter_at(at + 1 + unit.size())) continue;
            sentence.replace(at, 1, no_break);
            break;
        }
    }
    return sentence;
}

std::string verdict_words(Verdict verdict) {
    return verdict == Verdict::too_close ? "too close to call" : verdict_name(verdict);
}

std::string finish_verdict_words(Verdict verdict) {
    return verdict == Verdict::above ? "fully on the lead foot" : verdict_words(verdict);
}

std::string certainty_words(double sure) {
    return fmt::format("judged with {:g} % certainty", std::round(sure * 1000.0) / 10.0);
}

std::string place_words(PointM place, std::optional<PointM> u) {
    const auto one = [&](double value_m, double u_m) {
        const double value_mm = value_m * mm_per_metre;
        const double expanded_mm = u_m * mm_per_metre * coverage;
        if (!u || !std::isfinite(expanded_mm) || expanded_mm <= 0.0) return number_words(value_mm, 0);
        const ValueWords words = rounded_to_uncertainty(value_mm, expanded_mm);
        return words.value + " ± " + words.expanded;
    };
    const PointM by = u.value_or(PointM{});
    return one(place.x_m, by.x_m) + ", " + one(place.y_m, by.y_m) + " mm";
}

std::string time_words(double time_s, double u_s) {
    if (!std::isfinite(u_s) || u_s <= 0.0) return number_words(time_s, 2) + " s";
    const double expanded = std::max(u_s * coverage, 0.001);
    const int decimals = expanded < 0.0095 ? 3 : expanded < 0.95 ? 2 : 1;
    return fmt::format("{} ± {} s", number_words(time_s, decimals), number_words(expanded, decimals));
}

std::string duration_words(double seconds) {
    if (seconds < 60.0) return number_words(seconds, seconds < 10.0 ? 1 : 0) + " s";
    const auto whole = static_cast<long long>(std::llround(seconds));
    const long long minutes = whole / 60;
    if (minutes >= 60) return fmt::format("{} h {} min", minutes / 60, minutes % 60);
    return whole % 60 == 0 ? fmt::format("{} min", minutes) : fmt::format("{} min {} s", minutes, whole % 60);
}

}  // namespace footing
