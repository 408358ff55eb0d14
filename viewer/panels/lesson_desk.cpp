#include "viewer/panels/lesson_desk.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <utility>

#include "acquisition/calibrate/zero_words.h"
#include "acquisition/frame/simulated_golfer.h"
#include "acquisition/frame/units.h"
#include "viewer/book/club_name.h"
#include "viewer/panels/book_desk.h"

namespace footing {

namespace {

constexpr double weight_agrees_within = 0.02;  // R19
constexpr double short_of_disk_min = 30.0;

CheckLine plates_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::plates;
    if (live.stage == LessonStage::looking_for_plates)
        return {about, State::missing, "no plates heard yet: nothing is recorded", "no plates heard"};
    if (live.progress.is_silent())
        return {about, State::missing, fmt::format("no frame for {:.1f} s", live.progress.newest_age_s),
                "silent"};
    for (const DeviceProgress& device : live.progress.devices) {
        if (device.is_silent()) {
            return {about, State::missing,
                    fmt::format("no frame from {} for {:.1f} s", device.name, device.newest_age_s), "silent"};
        }
    }
    return {about, State::good, "plates heard: " + live.device, "plates heard"};
}

/// Nothing where too few are lost to matter.
std::optional<CheckLine> loss_line(const LiveView& live) {
    if (!is_lossy(live)) return std::nullopt;
    const double percent = 100.0 * live.recent_loss;
    return CheckLine{CheckLine::About::loss, CheckLine::State::missing,
                     fmt::format("{:.0f} % of the frames are lost: a cable rather than radio, or a quieter "
                                 "network",
                                 percent),
                     fmt::format("{:.0f} % of the frames lost", percent)};
}

std::string age_words(double seconds) {
    return seconds < 60.0 ? "less than a minute" : fmt::format("{:.0f} min", std::floor(seconds / 60.0));
}

CheckLine zero_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::zero;
    if (live.zero_advice == ZeroAdvice::none_yet && !live.zero_age_s)
        return {about, State::missing, "no zero yet: leave the plates empty for a second", "no zero yet"};
    const bool silent = live.progress.is_silent() || live.progress.is_partly_silent();
    if (silent && live.zero_age_s) {  // its age stands still with the plates' clock
        return {about, State::look_at_it,
                "zero from before the silence: step off for a second when they are back",
                "zero to be taken anew"};
    }
    if (live.zero_advice == ZeroAdvice::fine) {
        const std::string words =
            live.zero_age_s ? fmt::format("zero {} old", age_words(*live.zero_age_s)) : "plates send newtons";
        return {about, State::good, words, words};
    }
    return {about, State::look_at_it, advice_words(live.zero_advice),
            live.zero_advice == ZeroAdvice::too_old ? "zero more than 10 min old" : "step off for the zero"};
}

CheckLine calibration_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::calibration;
    switch (live.calibration_state) {
        case CalibrationState::valid:
        case CalibrationState::external:
            return {about, State::good, live.calibration, "calibrated"};
        case CalibrationState::expired:
            return {about, State::look_at_it, "calibration expired: " + live.calibration,
                    "calibration expired"};
        case CalibrationState::nominal:
        case CalibrationState::absent:
            break;
    }
    return {about, State::look_at_it, "not calibrated: newtons are nominal, shares hold", "not calibrated"};
}

CheckLine weight_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::weight;
    if (!live.weight_n) {
        return {about, State::missing, "weight not seen yet: stand still on both plates",
                "weight not seen yet"};
    }
    const std::string kilograms = fmt::format("{:.0f} kg", *live.weight_n / standard_gravity_m_s2);
    if (!live.weight_difference) {
        return {about, State::good, "weight " + kilograms + ": compared as soon as somebody stands still",
                "weight " + kilograms};
    }
    if (std::abs(*live.weight_difference) <= weight_agrees_within) {
        const std::string words = "weight agrees, " + kilograms;
        return {about, State::good, words, words};
    }
    const std::string words =
        fmt::format("weight {:.0f} % {} than before", std::abs(*live.weight_difference) * 100.0,
                    *live.weight_difference < 0.0 ? "less" : "more");
    return {about, State::look_at_it, words + ": a foot beside the plate, or the zero", words};
}

CheckLine disk_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::disk;
    if (live.progress.problem)
        return {about, State::missing, live.progress.problem->what, "nothing is recorded"};
    if (!live.progress.minutes_left) {
        return {about, State::good, "measuring how long the disk lasts", "disk being measured"};
    }
    const double minutes = *live.progress.minutes_left;
    const std::string words =
        minutes > 1440.0 ? "disk for more than a day" : fmt::format("disk for {:.0f} min", minutes);
    return {about, minutes < short_of_disk_min ? State::look_at_it : State::good, words, words};
}

}  // namespace

std::optional<double> carry_of_entry(const std::string& entry, DistanceUnit unit) {
    double value = 0.0;
    const auto [end, error] = std::from_chars(entry.data(), entry.data() + entry.size(), value);
    if (error != std::errc() || end != entry.data() + entry.size()) return std::nullopt;
    const double carry_m = value * metres_per(unit);
    if (!(carry_m > 0.0 && carry_m <= longest_carry_m)) return std::nullopt;
    return carry_m;
}

std::string carry_words(double carry_m, DistanceUnit unit) {
    const double shown = carry_m / metres_per(unit);
    const bool whole = std::abs(shown - std::round(shown)) < 0.05;
    return fmt::format("{:.{}f} {}", shown, whole ? 0 : 1, unit_name(unit));
}

std::vector<std::string> clubs_to_choose(const BookDesk& book, std::int64_t student) {
    std::vector<std::string> clubs = bag_of(book, student);
    std::vector<std::string> all(usual_clubs.begin(), usual_clubs.end());
    if (clubs.empty()) return all;
    const bool by_hand = std::ranges::any_of(book.facts->wedges, [&](const Wedge& wedge) {
        return wedge.student == student && wedge.loft_deg.has_value();
    });
    if (by_hand) return clubs;
    for (std::string& own : clubs) {  // as the book has it written, where it has it
        const auto same = std::ranges::find_if(
            all, [&](const std::string& usual) { return club_key(usual) == club_key(own); });
        if (same == all.end()) {
            all.push_back(std::move(own));
        } else {
            *same = std::move(own);
        }
    }
    return all;
}

void take_bag(LessonDesk& desk, const BookDesk& book) {
    if (!desk.student || desk.clubs_from == ClubsFrom::coach || bag_of(book, desk.student->id).empty())
        return;
    desk.clubs = clubs_to_choose(book, desk.student->id);
    desk.clubs_from = ClubsFrom::book;
}

CheckLine consent_line(const Student& student) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::consent;
    switch (student.consent) {
        case Consent::given:
            return {about, State::good, "may be recorded, said on " + student.consent_date,
                    "may be recorded"};
        case Consent::refused:
            return {about, State::missing, "does not want to be recorded", "does not want to be recorded"};
        case Consent::not_asked:
            break;
    }
    return {about, State::missing, "not asked yet whether the lesson may be recorded", "consent not asked"};
}

bool is_simulated(const LessonDesk& desk) {
    return desk.golfer == Golfer::simulated || (desk.live && is_simulated_golfer(desk.live->device));
}

std::vector<CheckLine> checklist(const LessonDesk& desk) {
    const LiveView& live = *desk.live;
    std::vector<CheckLine> lines{plates_line(live)};
    if (is_simulated(desk) && lines.front().state == CheckLine::State::good) {
        lines.front() = {CheckLine::About::plates, CheckLine::State::missing,
                         "simulated golfer, not plates: nobody's swings are recorded", "simulated golfer"};
    }
    if (live.stage != LessonStage::looking_for_plates) {
        if (auto loss = loss_line(live)) lines.push_back(*std::move(loss));
        for (CheckLine line : {zero_line(live), calibration_line(live), weight_line(live), disk_line(live)})
            lines.push_back(std::move(line));
    }
    if (!desk.student || desk.golfer == Golfer::simulated) return lines;  // nobody is asked for consent
    CheckLine consent = consent_line(*desk.student);
    if (desk.student->consent == Consent::not_asked) consent.words += ": Ctrl 2, then Y or N";
    lines.push_back(std::move(consent));
    return lines;
}

SetUpWords set_up_words(const LiveView& live) {
    const SetUpReading& now = live.set_up;
    if (now.stance == Stance::nobody) return {"step on", "", std::nullopt};
    // With gaps between them no frames look still, however still the student is.
    if (now.stance == Stance::moving && is_lossy(live)) return {"frames are lost", "", std::nullopt};
    if (now.stance == Stance::moving) return {"hold still", "", std::nullopt};
    if (!now.settled) return {"one plate:", "no share", std::nullopt};
    switch (now.settled->verdict) {
        case Verdict::inside:
            return {"inside", "", Verdict::inside};
        case Verdict::below:
            return {"more onto", "the lead foot", Verdict::below};
        case Verdict::above:
            return {"back towards", "the trail foot", Verdict::above};
        case Verdict::too_close:
            break;
    }
    return {"at the edge", "", Verdict::too_close};
}

}  // namespace footing
