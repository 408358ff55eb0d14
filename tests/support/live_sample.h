#pragma once

#include <cstddef>
#include <memory>
#include <utility>

#include "tests/support/lesson_sample.h"
#include "viewer/panels/view_action.h"

/// An invented lesson under way, moment by moment.
namespace footing::sample {

inline LiveView running(double duration_s) {
    LiveView live;
    live.stage = LessonStage::running;
    live.device = "two plates (serial number 4711)";
    live.calibration = "calibrated 2026-04-30 with known masses";
    live.calibration_state = CalibrationState::valid;
    live.zero_age_s = 190.0;
    live.zero_advice = ZeroAdvice::fine;
    live.weight_n = 735.0;
    live.progress.state = SessionState::running;
    live.progress.duration_s = duration_s;
    live.progress.frames_on_disk = 724312;
    live.progress.bytes_on_disk = 12'300'000;
    live.progress.newest_age_s = 0.003;
    live.progress.minutes_left = 412.0;
    auto lesson = std::make_shared<LessonResult>();
    lesson->facts.student = "Robin Sample";
    live.lesson = lesson;
    return live;
}

inline LiveView standing(double duration_s, Stance stance, double share) {
    LiveView live = running(duration_s);
    live.set_up.stance = stance;
    live.set_up.total_n = 735.0;
    live.set_up.share = share;
    live.set_up.bob_share = share - 0.03;
    live.set_up.cop_m = PointM{0.05, -0.012};
    live.set_up.sway_m = 0.004;
    if (stance == Stance::still) {
        live.set_up.settled = ShareValue{share, 0.005, judge(share, 0.005, {})};
        live.set_up.still_for_s = 1.0;
    }
    return live;
}

inline LiveView caught(double duration_s, std::size_t swings) {
    LiveView live = standing(duration_s, Stance::still, 0.95);
    auto so_far = std::make_shared<LessonResult>(lesson());
    so_far->swings.resize(swings);
    live.lesson = so_far;
    return live;
}

inline ViewState hear(ViewState state, LiveView live) {
    if (!state.desk) {
        state.desk.emplace();
    } else if (live.lesson->swings.empty() && state.desk->live) {
        live.lesson = state.desk->live->lesson;  // swings do not go away
    }
    return carry_out(std::move(state),
                     LessonAction{HearLesson{std::make_shared<const LiveView>(std::move(live))}});
}

/// Plates that somebody stands on while nobody is taught.
inline PlatesView heard_plates() {
    PlatesView view;
    view.stage = PlatesView::Stage::heard;
    view.source = "UDP 0.0.0.0:9750";
    view.device.name = "two plates";
    view.device.serial = 100001;
    view.device.rate_hz = 1000.0;
    view.device.layout = two_plates();
    view.calibration = "calibrated 2026-04-30 with known masses";
    view.calibration_state = CalibrationState::valid;
    view.heard_rate_hz = 999.8;
    view.frames = 12345;
    view.total_n = 735.4;
    view.left_n = 551.2;
    view.right_n = 184.2;
    view.cell_n = {151.4, 128.9, 142.6, 128.3, 52.1, 44.7, 47.2, 40.2};
    view.noise_n = 0.4;
    view.zero_age_s = 200.0;
    view.zero_advice = ZeroAdvice::fine;
    return view;
}

inline ViewState hear_plates(ViewState state, PlatesView view) {
    return carry_out(std::move(state),
                     BookAction{HearPlates{std::make_shared<const PlatesView>(std::move(view))}});
}

}  // namespace footing::sample
