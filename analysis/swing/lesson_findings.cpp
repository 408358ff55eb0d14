#include "analysis/swing/lesson_findings.h"

#include <algorithm>
#include <cmath>

namespace footing {

namespace {

constexpr double even_share = 0.50;
constexpr double steady_tempo = 0.10;
constexpr double uneven_tempo = 0.20;

using Share = std::optional<ShareValue> RuledSwing::*;

VerdictCounts counts_of(std::span<const RuledSwing> swings, Share member) {
    VerdictCounts counts;
    for (const RuledSwing& swing : swings) {
        if (const auto& share = swing.*member) {
            ++counts.known;
            ++counts.by_verdict[static_cast<std::size_t>(share->verdict)];
        }
    }
    return counts;
}

SetUpFinding set_up_of(std::span<const RuledSwing> swings) {
    SetUpFinding found;
    found.counts = counts_of(swings, &RuledSwing::address);
    const std::size_t known = found.counts.known;
    if (known < fewest_swings) return found;
    if (3 * found.counts.of(Verdict::inside) >= 2 * known) {
        found.ruling = Ruling::keep;
        return found;
    }
    found.ruling = Ruling::open;
    for (const Verdict side : {Verdict::below, Verdict::above, Verdict::too_close}) {
        if (2 * found.counts.of(side) <= known) continue;
        found.side = side;
        if (side != Verdict::too_close) found.ruling = Ruling::change;
    }
    return found;
}

/// `keep`: of how many it must be true, as a fraction.
ArrivalFinding arrival_of(std::span<const RuledSwing> swings, Share member, double sure, double keep) {
    ArrivalFinding found;
    found.counts = counts_of(swings, member);
    for (const RuledSwing& swing : swings) {
        const auto& share = swing.*member;
        if (share && surely_not_under(share->value, share->u, swing.band.low, sure)) ++found.arrived;
    }
    if (found.counts.known < fewest_swings) return found;
    const auto known = static_cast<double>(found.counts.known);
    constexpr double rounding = 1e-9;
    found.ruling = static_cast<double>(found.arrived) >= keep * known - rounding ? Ruling::keep
                   : 2 * found.counts.of(Verdict::below) > found.counts.known    ? Ruling::change
                                                                                 : Ruling::open;
    return found;
}

LowestFinding lowest_of(std::span<const RuledSwing> swings) {
    LowestFinding found;
    std::size_t possibly_under = 0;
    for (const RuledSwing& swing : swings) {
        const auto& share = swing.lowest;
        if (!share) continue;
        // Of what is known with no uncertainty nothing is sure: a share lies between 0 and 1.
        const double u = std::isfinite(share->u) ? share->u : 1.0;
        ++found.known;
        found.surely_under += share->value + 2.0 * u < even_share ? 1 : 0;
        possibly_under += share->value - 2.0 * u < even_share ? 1 : 0;
        if (!found.least || share->value < found.least->value) found.least = share;
    }
    if (found.known < fewest_swings) return found;
    found.ruling = found.surely_under > 0 ? Ruling::change
                   : possibly_under == 0  ? Ruling::keep
                                          : Ruling::open;
    return found;
}

TempoFinding tempo_of(std::span<const RuledSwing> swings) {
    TempoFinding found;
    std::vector<double> ratios;
    for (const RuledSwing& swing : swings) {
        if (swing.tempo_ratio && std::isfinite(*swing.tempo_ratio)) ratios.push_back(*swing.tempo_ratio);
    }
    found.known = ratios.size();
    if (ratios.empty()) return found;
    const auto n = static_cast<double>(ratios.size());
    for (const double ratio : ratios) found.mean += ratio / n;
    found.least = *std::ranges::min_element(ratios);
    found.most = *std::ranges::max_element(ratios);
    if (found.known < fewest_swings || !(found.mean > 0.0)) return found;
    double squares = 0.0;
    for (const double ratio : ratios) squares += (ratio - found.mean) * (ratio - found.mean);
    found.spread = std::sqrt(squares / (n - 1.0)) / found.mean;
    found.ruling = found.spread <= steady_tempo  ? Ruling::keep
                   : found.spread > uneven_tempo ? Ruling::change
                                                 : Ruling::open;
    return found;
}

RestFinding rest_of(std::span<const RuledSwing> swings) {
    RestFinding found;
    for (const RuledSwing& swing : swings) {
        if (!swing.came_to_rest) continue;
        ++found.known;
        found.held += *swing.came_to_rest ? 1 : 0;
    }
    if (found.known < fewest_swings) return found;
    found.ruling = found.held == found.known          ? Ruling::keep
                   : 3 * found.held < 2 * found.known ? Ruling::change
                                                      : Ruling::open;
    return found;
}

}  // namespace

bool LessonFindings::tell_enough() const {
    const auto speaks = [](Ruling ruling) { return ruling != Ruling::too_few; };
    return speaks(set_up.ruling) || speaks(impact.ruling) || speaks(lowest.ruling) || speaks(tempo.ruling);
}

LessonFindings lesson_findings(std::span<const RuledSwing> counted, double sure) {
    LessonFindings found;
    found.swings = counted.size();
    found.all_shots =
        std::ranges::all_of(counted, [](const RuledSwing& swing) { return swing.kind == SwingKind::shot; });
    if (!counted.empty()) found.band = counted.front().band;
    found.one_band = std::ranges::all_of(counted, [&](const RuledSwing& swing) {
        return swing.band.low == found.band.low && swing.band.high == found.band.high;
    });
    found.set_up = set_up_of(counted);
    found.impact = arrival_of(counted, &RuledSwing::impact, sure, 2.0 / 3.0);
    found.lowest = lowest_of(counted);
    found.tempo = tempo_of(counted);
    found.rest = rest_of(counted);
    found.finish = arrival_of(counted, &RuledSwing::finish, sure, 1.0);
    return found;
}

std::vector<AskedChange> changes_of(const LessonFindings& findings) {
    std::vector<AskedChange> changes;
    const auto ask = [&](Ruling ruling, AskedChange change) {
        if (ruling == Ruling::change) changes.push_back(change);
    };
    ask(findings.set_up.ruling, AskedChange::set_up);
    ask(findings.impact.ruling, AskedChange::impact);
    ask(findings.lowest.ruling, AskedChange::lowest);
    ask(findings.tempo.ruling, AskedChange::tempo);
    ask(findings.rest.ruling, AskedChange::rest);
    ask(findings.finish.ruling, AskedChange::finish);
    return changes;
}

}  // namespace footing
