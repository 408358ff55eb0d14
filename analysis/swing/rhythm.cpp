#include "analysis/swing/rhythm.h"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

#include "analysis/statistics/summary.h"
#include "analysis/swing/share_curve.h"

namespace footing {

namespace {

constexpr std::size_t curve_points = 101;

/// What the rhythm of one swing is: its durations, and its share from takeaway to impact on a time of its
/// own.
struct Rhythm {
    Tempo tempo;
    double backswing_u_s = 0.0;
    double downswing_u_s = 0.0;
    std::vector<double> curve;  ///< empty where the share is not known throughout
};

std::optional<Rhythm> rhythm_of(const LoadTrace& trace, Hand hand, const Swing& swing) {
    const SwingEvents& events = swing.events;
    if (!swing.tempo || !events.takeaway || !events.top || !events.impact) return std::nullopt;
    Rhythm rhythm;
    rhythm.tempo = *swing.tempo;
    rhythm.backswing_u_s = std::hypot(events.takeaway->u_s, events.top->u_s);
    rhythm.downswing_u_s = std::hypot(events.top->u_s, events.impact->u_s);
    if (!swing.lead_share.address) return rhythm;
    const double from_s = events.takeaway->time_s;
    const double length_s = events.impact->time_s - from_s;
    const ShareCourse course(trace, hand, from_s, events.impact->time_s);
    for (std::size_t i = 0; i < curve_points; ++i)
        rhythm.curve.push_back(course.at(from_s + length_s * static_cast<double>(i) / (curve_points - 1)));
    if (!std::ranges::all_of(rhythm.curve, known)) rhythm.curve.clear();
    return rhythm;
}

std::optional<double> correlation(std::span<const double> one, std::span<const double> other) {
    if (one.empty() || one.size() != other.size()) return std::nullopt;
    const double mean_one = mean(one);
    const double mean_other = mean(other);
    double both = 0.0;
    double squares_one = 0.0;
    double squares_other = 0.0;
    for (std::size_t i = 0; i < one.size(); ++i) {
        both += (one[i] - mean_one) * (other[i] - mean_other);
        squares_one += (one[i] - mean_one) * (one[i] - mean_one);
        squares_other += (other[i] - mean_other) * (other[i] - mean_other);
    }
    if (!(squares_one > 0.0) || !(squares_other > 0.0)) return std::nullopt;
    return both / std::sqrt(squares_one * squares_other);
}

/// The mean of some, leaving one out (or none, with their count).
Rhythm mean_rhythm(std::span<const Rhythm> some, std::size_t without) {
    Rhythm mean;
    double count = 0.0;
    bool curves = true;
    for (std::size_t i = 0; i < some.size(); ++i) {
        if (i == without) continue;
        count += 1.0;
        mean.tempo.backswing_s += some[i].tempo.backswing_s;
        mean.tempo.downswing_s += some[i].tempo.downswing_s;
        mean.backswing_u_s = std::hypot(mean.backswing_u_s, some[i].backswing_u_s);
        mean.downswing_u_s = std::hypot(mean.downswing_u_s, some[i].downswing_u_s);
        curves = curves && !some[i].curve.empty();
        if (!curves) continue;
        mean.curve.resize(curve_points, 0.0);
        for (std::size_t k = 0; k < curve_points; ++k) mean.curve[k] += some[i].curve[k];
    }
    mean.tempo.backswing_s /= count;
    mean.tempo.downswing_s /= count;
    mean.backswing_u_s /= count;
    mean.downswing_u_s /= count;
    if (!curves) mean.curve.clear();
    return mean;  // of a correlation the sum does as well as the mean
}

double match_of(const Rhythm& one, const Rhythm& other) {
    return rhythm_match_percent(one.tempo, other.tempo, correlation(one.curve, other.curve));
}

RhythmMatch compare(const Rhythm& shot, std::span<const Rhythm> practice) {
    const Rhythm usual = mean_rhythm(practice, practice.size());
    RhythmMatch match;
    match.practice_swings = practice.size();
    match.backswing_difference_s = shot.tempo.backswing_s - usual.tempo.backswing_s;
    match.backswing_u_s = std::hypot(shot.backswing_u_s, usual.backswing_u_s);
    match.downswing_difference_s = shot.tempo.downswing_s - usual.tempo.downswing_s;
    match.downswing_u_s = std::hypot(shot.downswing_u_s, usual.downswing_u_s);
    match.shape_correlation = correlation(shot.curve, usual.curve);
    match.match_percent = match_of(shot, usual);
    if (practice.size() >= 2) {
        double sum = 0.0;
        for (std::size_t i = 0; i < practice.size(); ++i)
            sum += match_of(practice[i], mean_rhythm(practice, i));
        match.practice_match_percent = sum / static_cast<double>(practice.size());
    }
    return match;
}

/// A shot's last 100 ms over those of the practice swings; absent where these do not rise above the noise.
std::optional<double> abruptness_ratio(const Abruptness& shot, std::span<const Abruptness> practice) {
    if (practice.empty()) return std::nullopt;
    double squares = 0.0;
    double noise = 0.0;
    for (const Abruptness& swing : practice) {
        squares += swing.rms_per_s3 * swing.rms_per_s3;
        noise += swing.noise_per_s3 * swing.noise_per_s3;
    }
    if (!(squares > noise)) return std::nullopt;
    return shot.rms_per_s3 / std::sqrt(squares / static_cast<double>(practice.size()));
}

}  // namespace

double rhythm_match_percent(const Tempo& one, const Tempo& other, std::optional<double> shape_correlation) {
    const auto alike = [](double a, double b) { return std::min(a, b) / std::max(a, b); };
    const double durations =
        alike(one.backswing_s, other.backswing_s) * alike(one.downswing_s, other.downswing_s);
    if (!shape_correlation) return 100.0 * std::sqrt(durations);
    return 100.0 * std::cbrt(durations * std::max(0.0, *shape_correlation));
}

void match_rhythm(const LoadTrace& trace, Hand hand, std::vector<Swing>& swings) {
    std::vector<Rhythm> practice;
    std::vector<Abruptness> practice_abruptness;
    std::size_t practice_swings = 0;
    for (Swing& swing : swings) {
        const std::optional<Rhythm> rhythm = rhythm_of(trace, hand, swing);
        std::optional<Abruptness>& abruptness = swing.numbers.abruptness;
        if (swing.kind == SwingKind::practice) {
            ++practice_swings;
            if (rhythm) practice.push_back(*rhythm);
            if (abruptness) practice_abruptness.push_back(*abruptness);
            continue;
        }
        if (swing.kind != SwingKind::shot) continue;
        swing.numbers.practice_swings_before = std::exchange(practice_swings, 0);
        if (rhythm && !practice.empty()) swing.numbers.rhythm = compare(*rhythm, practice);
        if (abruptness) abruptness->practice_ratio = abruptness_ratio(*abruptness, practice_abruptness);
        practice.clear();
        practice_abruptness.clear();
    }
}

}  // namespace footing
