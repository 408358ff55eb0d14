#include "viewer/panels/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "acquisition/frame/count_words.h"
#include "analysis/report/figure_scale.h"
#include "analysis/report/number_words.h"

namespace footing {

namespace {

constexpr double at_once_s = 0.0005;

}  // namespace

std::string band_words_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::inside:
            return "inside the band";
        case Verdict::below:
            return "below the band";
        case Verdict::above:
            return "above the band";
        case Verdict::too_close:
            return "too close to call";
    }
    return {};
}

std::string distance_words(double share, const TargetBand& band) {
    const auto points = [](double fraction) {
        const auto whole = static_cast<std::size_t>(std::max(1L, std::lround(fraction * 100.0)));
        return count_words(whole, "point", "points");
    };
    if (share < band.low) return points(band.low - share) + " below the band";
    if (share > band.high) return points(share - band.high) + " above the band";
    return "in the band";
}

std::string moment_words(const Swing* swing, double time_s) {
    if (!swing) return fmt::format("{} from the start", clock_words(time_s, 2));
    const double from_zero_s = time_s - zero_of(*swing);
    if (std::abs(from_zero_s) < at_once_s) return fmt::format("at {}", zero_name(*swing));
    return fmt::format("{:.3f} s {} {}", std::abs(from_zero_s), from_zero_s < 0.0 ? "before" : "after",
                       zero_name(*swing));
}

std::string clock_words(double time_s, int decimals) {
    const double unit = decimals == 0 ? 1.0 : std::pow(10.0, -decimals);
    const double rounded = std::round(std::max(time_s, 0.0) / unit) * unit;
    const auto minutes = static_cast<long>(rounded / 60.0 + 1e-9);
    const double seconds = std::abs(rounded - 60.0 * static_cast<double>(minutes));
    const int width = decimals == 0 ? 2 : 3 + decimals;
    if (minutes < 60) return fmt::format("{}:{:0{}.{}f}", minutes, seconds, width, decimals);
    return fmt::format("{}:{:02}:{:0{}.{}f}", minutes / 60, minutes % 60, seconds, width, decimals);
}

std::string speed_words(double speed) {
    if (speed < 1.0) return fmt::format("1/{} ×", std::lround(1.0 / speed));
    return fmt::format("{} ×", std::lround(speed));
}

std::string loss_words(const LossCounters& losses) {
    std::string words = "nothing lost";
    if (losses.lost > 0) {
        const double all = static_cast<double>(losses.frames + losses.lost);
        words = fmt::format("{} lost ({:.2g} %)",
                            part_words(losses.lost, losses.frames + losses.lost, "frame", "frames"),
                            100.0 * static_cast<double>(losses.lost) / all);
    }
    if (losses.damaged > 0) words += fmt::format(", {} damaged", losses.damaged);
    return words;
}

std::string outcome_words(RecordingOutcome outcome) {
    switch (outcome) {
        case RecordingOutcome::clean:
            return "recorded whole";
        case RecordingOutcome::lossy:
            return "recorded with loss";
        case RecordingOutcome::truncated:
            return "the end is missing";
        case RecordingOutcome::incomplete:
            return "stopped early";
    }
    return {};
}

std::string swing_words(const Swing& swing) {
    switch (swing.kind) {
        case SwingKind::shot:
            return fmt::format("swing {}, shot", swing.index);
        case SwingKind::practice:
            return fmt::format("swing {}, practice", swing.index);
        case SwingKind::unknown:
            return fmt::format("swing {}", swing.index);
    }
    return {};
}

std::string kind_words(const ViewState& state, std::size_t place) {
    const CoachWord said = state.desk && place < state.desk->labels.size() ? state.desk->labels[place].word
                                                                           : CoachWord::not_said;
    if (said == CoachWord::not_a_swing) return "no swing";
    SwingKind kind = state.lesson->swings[place].kind;
    if (said == CoachWord::shot) kind = SwingKind::shot;
    if (said == CoachWord::practice) kind = SwingKind::practice;
    return kind == SwingKind::shot ? "shot" : kind == SwingKind::practice ? "practice" : "";
}

std::string swing_words(const ViewState& state, std::size_t place) {
    const std::string kind = kind_words(state, place);
    const std::string number = fmt::format("swing {}", state.lesson->swings[place].index);
    return kind.empty() ? number : number + ", " + kind;
}

}  // namespace footing
