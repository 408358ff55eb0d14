#include "viewer/book/book_records.h"

#include <fmt/format.h>

#include <algorithm>
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

std::string strike_words(Strike strike) {
    std::string words = strike_name(strike);
    std::replace(words.begin(), words.end(), '_', ' ');
    return words;
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

std::optional<Hand> hand_called(const std::string& name) {
    for (const Hand hand : {Hand::right, Hand::left}) {
        if (hand_name(hand) == name) return hand;
    }
    return std::nullopt;
}

std::optional<SwingKind> kind_called(const std::string& name) {
    for (const SwingKind kind : {SwingKind::shot, SwingKind::practice, SwingKind::unknown}) {
        if (kind_name(kind) == name) return kind;
    }
    return std::nullopt;
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

std::optional<CoachSays> coach_says_called(const std::string& name) {
    for (const CoachSays says : {CoachSays::nothing, CoachSays::keep, CoachSays::set_aside}) {
        if (coach_says_name(says) == name) return says;
    }
    return std::nullopt;
}

TargetBand band_for(const Lesson& lesson, std::optional<SwingLength> length) {
    if (length) return lesson.bands[static_cast<std::size_t>(*length)].value_or(TargetBand{});
    const auto& first = lesson.bands[0];
    for (const auto& band : lesson.bands) {
        if (!band || !first || band->low != first->low || band->high != first->high) return TargetBand{};
    }
    return *first;
}

std::string wedge_name_of(const std::vector<Wedge>& wedges, const BookSwing& swing) {
    for (const Wedge& wedge : wedges) {
        if (wedge.id == swing.wedge) return wedge.name;
    }
    return "";
}

std::string date_of_day(std::int64_t day) {
    const std::chrono::year_month_day when{std::chrono::sys_days(std::chrono::days(day))};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(when.year()),
                       static_cast<unsigned>(when.month()), static_cast<unsigned>(when.day()));
}

}  // namespace footing
