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

/// Nobody plays a short shot with less of the weight than this on the lead foot.
constexpr double least_lead_share = 0.4;

/// Whether most addresses have too little of the weight on what would be the lead foot.
bool stands_on_the_trail_foot(const std::vector<Swing>& swings) {
    const auto trailing = std::ranges::count_if(swings, [](const Swing& swing) {
        return swing.lead_share.address && swing.lead_share.address->value < least_lead_share;
    });
    return 2 * static_cast<std::size_t>(trailing) > swings.size();
}

/// How many swings the other hand would have, where the hand may be the wrong one: nothing found, strikes
/// where no swing is, or the weight on the trail foot, and clearly more as the other hand, or as many with
/// the weight on the lead foot. Else 0.
std::size_t swings_as_other_hand(const LessonResult& lesson, const LoadTrace& trace,
                                 const SwingOptions& options, const CoachMarks& marks) {
    const bool on_the_trail_foot = stands_on_the_trail_foot(lesson.swings);
    if (!lesson.swings.empty() && lesson.strikes_without_swing_s.empty() && !on_the_trail_foot) return 0;
    const Hand other = lesson.facts.hand == Hand::right ? Hand::left : Hand::right;
    const std::vector<Swing> swings = analyse_swings(trace, other, lesson.band, options, marks);
    const std::size_t here = lesson.swings.size();
    const bool clearly_more = swings.size() > here && swings.size() >= 2 * here;
    const bool stands_better =
        on_the_trail_foot && swings.size() >= here && !stands_on_the_trail_foot(swings);
    return clearly_more || stands_better ? swings.size() : 0;
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
    result.swings_as_other_hand = swings_as_other_hand(result, loads.trace, options, marks.value());
    if (!loads.calibration.only_ratios) result.body_weight_n = body_weight_n(loads.trace, options);
    result.trace = std::move(loads.trace);
    return result;
}

}  // namespace footing
