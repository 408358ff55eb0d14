#include "viewer/panels/lesson_desk.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>
#include <utility>

#include "acquisition/calibrate/zero_words.h"
#include "viewer/panels/book_desk.h"

namespace footing {

namespace {

constexpr double weight_agrees_within = 0.02;  // R19
constexpr double short_of_disk_min = 30.0;

CheckLine plates_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::plates;
    if (live.stage == LessonStage::looking_for_plates) return {about, State::missing, "no plates heard yet"};
    if (live.progress.is_silent())
        return {about, State::missing, fmt::format("no frame for {:.1f} s", live.progress.newest_age_s)};
    for (const DeviceProgress& device : live.progress.devices) {
        if (device.is_silent()) {
            return {about, State::missing,
                    fmt::format("no frame from {} for {:.1f} s", device.name, device.newest_age_s)};
        }
    }
    return {about, State::good, "plates heard: " + live.device};
}

std::string age_words(double seconds) {
    return seconds < 60.0 ? "less than a minute old"
                          : fmt::format("{:.0f} min old", std::floor(seconds / 60.0));
}

CheckLine zero_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::zero;
    if (live.zero_advice == ZeroAdvice::none_yet && !live.zero_age_s)
        return {about, State::missing, "no zero yet: leave the plates empty for a second"};
    if (live.zero_advice == ZeroAdvice::fine) {
        return {about, State::good,
                live.zero_age_s ? "zero " + age_words(*live.zero_age_s) : "plates send newtons"};
    }
    return {about, State::look_at_it, advice_words(live.zero_advice)};
}

CheckLine calibration_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::calibration;
    switch (live.calibration_state) {
        case CalibrationState::valid:
        case CalibrationState::external:
            return {about, State::good, live.calibration};
        case CalibrationState::expired:
            return {about, State::look_at_it, "calibration expired: " + live.calibration};
        case CalibrationState::nominal:
        case CalibrationState::absent:
            break;
    }
    return {about, State::look_at_it, "not calibrated: newtons are nominal, shares hold"};
}

CheckLine weight_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::weight;
    if (!live.weight_n) return {about, State::missing, "weight not seen yet: stand still on both plates"};
    if (!live.weight_difference) return {about, State::good, fmt::format("weight {:.0f} N", *live.weight_n)};
    if (std::abs(*live.weight_difference) <= weight_agrees_within)
        return {about, State::good, "weight agrees"};
    return {about, State::look_at_it,
            fmt::format("weight {:.0f} % {} than before: a foot beside the plate, or the zero",
                        std::abs(*live.weight_difference) * 100.0,
                        *live.weight_difference < 0.0 ? "less" : "more")};
}

CheckLine disk_line(const LiveView& live) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::disk;
    if (live.progress.problem) return {about, State::missing, live.progress.problem->what};
    if (!live.progress.minutes_left) return {about, State::good, "measuring how long the disk lasts"};
    const double minutes = *live.progress.minutes_left;
    const std::string words =
        minutes > 1440.0 ? "disk for more than a day" : fmt::format("disk for {:.0f} min", minutes);
    return {about, minutes < short_of_disk_min ? State::look_at_it : State::good, words};
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

void take_bag(LessonDesk& desk, const BookDesk& book) {
    if (!desk.student || desk.clubs_from == ClubsFrom::coach) return;
    std::vector<std::string> clubs = bag_of(book, desk.student->id);
    if (clubs.empty()) return;
    desk.clubs = std::move(clubs);
    desk.clubs_from = ClubsFrom::book;
}

CheckLine consent_line(const Student& student) {
    using State = CheckLine::State;
    constexpr auto about = CheckLine::About::consent;
    switch (student.consent) {
        case Consent::given:
            return {about, State::good, "may be recorded, said on " + student.consent_date};
        case Consent::refused:
            return {about, State::missing, "does not want to be recorded"};
        case Consent::not_asked:
            break;
    }
    return {about, State::missing, "not asked yet whether the lesson may be recorded"};
}

std::vector<CheckLine> checklist(const LessonDesk& desk) {
    const LiveView& live = *desk.live;
    if (live.stage == LessonStage::looking_for_plates) return {plates_line(live)};
    std::vector<CheckLine> lines{plates_line(live), zero_line(live), calibration_line(live),
                                 weight_line(live), disk_line(live)};
    if (desk.student) lines.push_back(consent_line(*desk.student));
    return lines;
}

SetUpWords set_up_words(const LiveView& live) {
    const SetUpReading& now = live.set_up;
    if (now.stance == Stance::nobody) return {"step on", "", std::nullopt};
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
