#include "viewer/book/book_records.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>

namespace footing {

std::string consent_name(Consent consent) {
    switch (consent) {
        case Consent::not_asked:
            return "unknown";
        case Consent::given:
            return "yes";
        case Consent::refused:
            return "no";
    }
    return "";
}

std::optional<Consent> consent_called(const std::string& name) {
    for (const Consent consent : {Consent::not_asked, Consent::given, Consent::refused}) {
        if (consent_name(consent) == name) return consent;
    }
    return std::nullopt;
}

std::string strike_name(Strike strike) {
    switch (strike) {
        case Strike::ball_first:
            return "ball_first";
        case Strike::ground_first:
            return "ground_first";
        case Strike::thin:
            return "thin";
    }
    return "";
}

std::optional<Strike> strike_called(const std::string& name) {
    for (const Strike strike : {Strike::ball_first, Strike::ground_first, Strike::thin}) {
        if (strike_name(strike) == name) return strike;
    }
    return std::nullopt;
}

std::string hand_name(Hand hand) {
    return hand == Hand::left ? "left" : "right";
}

std::string coach_says_name(CoachSays says) {
    switch (says) {
        case CoachSays::nothing:
            return "nothing";
        case CoachSays::keep:
            return "keep";
        case CoachSays::set_aside:
            return "set_aside";
    }
    return "";
}

std::optional<std::int64_t> day_of_date(const std::string& date) {
    if (date.size() != 10 || date[4] != '-' || date[7] != '-') return std::nullopt;
    int year = 0;
    unsigned month = 0;
    unsigned day = 0;
    const char* const text = date.data();
    const bool sound = std::from_chars(text, text + 4, year).ptr == text + 4 &&
                       std::from_chars(text + 5, text + 7, month).ptr == text + 7 &&
                       std::from_chars(text + 8, text + 10, day).ptr == text + 10;
    const std::chrono::year_month_day when{std::chrono::year(year), std::chrono::month(month),
                                           std::chrono::day(day)};
    if (!sound || !when.ok()) return std::nullopt;
    return std::chrono::sys_days(when).time_since_epoch().count();
}

std::string date_of_day(std::int64_t day) {
    const std::chrono::year_month_day when{std::chrono::sys_days(std::chrono::days(day))};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(when.year()),
                       static_cast<unsigned>(when.month()), static_cast<unsigned>(when.day()));
}

}  // namespace footing
