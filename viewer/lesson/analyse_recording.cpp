#include "viewer/lesson/analyse_recording.h"

#include <algorithm>
#include <utility>

#include "analysis/swing/analyse_swings.h"
#include "analysis/swing/heel_toe.h"
#include "viewer/lesson/marks_file.h"
#include "viewer/lesson/read_loads.h"

namespace footing {

namespace {

/// Instants at which the trigger input rose outside every swing, and outside what the coach marked as none.
std::vector<double> strikes_without_swing(const LoadTrace& trace, const std::vector<Swing>& swings,
                                          const CoachMarks& marks) {
    std::vector<double> strikes_s;
    for (std::size_t i = 1; i < trace.trigger.size(); ++i) {
        if (trace.trigger[i] == 0 || trace.trigger[i - 1] != 0) continue;
        const double at_s = trace.time_s[i];
        const bool within = std::any_of(swings.begin(), swings.end(), [at_s](const Swing& swing) {
            return swing.from_s <= at_s && at_s <= swing.to_s;
        });
        const CoachMark* mark = mark_near(marks, at_s);
        const bool left_out = mark != nullptr && mark->marked_as == MarkedAs::not_a_swing;
        if (!within && !left_out) strikes_s.push_back(at_s);
    }
    return strikes_s;
}

/// Whether the hand may be the wrong one: nothing found, strikes where no swing is, or most addresses with
/// less than half of the weight on what would be the lead foot, which nobody plays a short shot from.
bool hand_is_doubtful(const LessonResult& lesson) {
    const auto trailing = std::ranges::count_if(lesson.swings, [](const Swing& swing) {
        return swing.lead_share.address && swing.lead_share.address->value < 0.5;
    });
    return lesson.swings.empty() || !lesson.strikes_without_swing_s.empty() ||
           2 * static_cast<std::size_t>(trailing) > lesson.swings.size();
}

}  // namespace

Result<LessonResult> analyse_recording(const std::string& path, const AnalysisRequest& request) {
    Result<RecordedLoads> read = read_loads(path, request.watch);
    if (!read) return read.problem();
    RecordedLoads& loads = read.value();

    const Result<CoachMarks> marks =
        request.marks == MarksAre::applied ? read_marks(path) : Result<CoachMarks>(CoachMarks{});
    if (!marks) return marks.problem();

    LessonResult result;
    result.facts = std::move(loads.facts);
    result.facts.student = request.student;
    if (request.hand) result.facts.hand = *request.hand;
    result.band = request.band;
    result.centre_of_mass = request.centre_of_mass;
    result.sure = request.sure;
    result.rate_hz = loads.trace.rate_hz;
    result.duration_s = loads.trace.size() > 0 ? loads.trace.time_s.back() : 0.0;

    SwingOptions options;
    options.share_floor = request.share_floor;
    options.sure = request.sure;
    options.loads = LoadUncertainty(result.facts.layout, std::move(loads.uncertainty));
    result.swings = analyse_swings(loads.trace, result.facts.hand, request.band, options, marks.value());
    for (Swing& swing : result.swings)
        swing.numbers.heel_toe =
            measure_heel_toe(loads.trace, result.facts.layout, result.facts.hand, swing.events);
    result.strikes_without_swing_s = strikes_without_swing(loads.trace, result.swings, marks.value());
    if (hand_is_doubtful(result)) {
        const Hand other = result.facts.hand == Hand::right ? Hand::left : Hand::right;
        const std::size_t found =
            analyse_swings(loads.trace, other, request.band, options, marks.value()).size();
        const bool clearly_more = found > result.swings.size() && found >= 2 * result.swings.size();
        if (clearly_more) result.swings_as_other_hand = found;
    }
    if (!loads.calibration.only_ratios) result.body_weight_n = body_weight_n(loads.trace, options);
    result.trace = std::move(loads.trace);
    return result;
}

}  // namespace footing
