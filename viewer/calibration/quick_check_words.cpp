#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "viewer/calibration/quick_check.h"

namespace footing {

namespace {

using nlohmann::json;

json or_null(const std::optional<double>& value) {
    return value ? json(*value) : json(nullptr);
}

}  // namespace

std::string agreement_name(Agreement agreement) {
    switch (agreement) {
        case Agreement::agrees:
            return "agrees";
        case Agreement::differs:
            return "differs";
        case Agreement::too_close:
            break;
    }
    return "too_close";
}

std::string check_json(const CheckResult& result) {
    json out = {{"overall", agreement_name(result.overall())}, {"both_n", or_null(result.both_n)},
                {"left_only_n", or_null(result.left_only_n)},  {"right_only_n", or_null(result.right_only_n)},
                {"elsewhere_n", or_null(result.elsewhere_n)},  {"zero_noise_n", result.zero_noise_n},
                {"share_error", or_null(result.share_error)},  {"advice", result.advice}};
    out["comparisons"] = json::array();
    for (const CheckComparison& comparison : result.comparisons) {
        out["comparisons"].push_back({{"what", comparison.what},
                                      {"measured_n", comparison.measured_n},
                                      {"expected_n", comparison.expected_n},
                                      {"difference", comparison.difference},
                                      {"u", comparison.u},
                                      {"agreement", agreement_name(comparison.agreement)}});
    }
    return out.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

std::string check_words(const CheckResult& result) {
    std::string text;
    for (const CheckComparison& comparison : result.comparisons) {
        const char* verdict = comparison.agreement == Agreement::agrees    ? "agrees"
                              : comparison.agreement == Agreement::differs ? "DIFFERS"
                                                                           : "too close to call";
        text += fmt::format("{:<42}{:>8.1f} N{:>8.1f} N  {:+.2f} ± {:.2f} %  {}\n", comparison.what,
                            comparison.measured_n, comparison.expected_n, 100.0 * comparison.difference,
                            200.0 * comparison.u, verdict);
    }
    if (result.share_error) {
        text += fmt::format("A lead share of 75 % would be read {:+.2f} % off by what the plates differ.\n",
                            100.0 * *result.share_error);
    }
    for (const std::string& advice : result.advice) text += advice + "\n";
    return text;
}

}  // namespace footing
