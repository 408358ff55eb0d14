#include "analysis/swing/sure_swings.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "analysis/swing/swing_likeness.h"

namespace footing {

std::vector<std::size_t> strongest_apart(const std::vector<SwingCandidate>& candidates, double rate_hz,
                                         bool (*is_wanted)(const SwingCandidate&)) {
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        if (!is_wanted(candidates[i])) continue;
        const bool overlaps =
            !places.empty() && static_cast<double>(candidates[i].middle - candidates[places.back()].middle) <
                                   swings_apart_s * rate_hz;
        if (!overlaps) {
            places.push_back(i);
        } else if (candidates[i].weight > candidates[places.back()].weight) {
            places.back() = i;
        }
    }
    return places;
}

std::vector<const SwingPortrait*> portraits_near(const SwingCandidate& candidate, double rate_hz,
                                                 const std::vector<const SwingCandidate*>& sure,
                                                 std::span<const SwingPortrait> earlier) {
    const auto apart = [&](const SwingCandidate* other) {
        return std::abs(static_cast<double>(other->middle) - static_cast<double>(candidate.middle));
    };
    // As many as are wanted, and on either side one that may be too near.
    const auto here = std::ranges::lower_bound(sure, candidate.middle, {},
                                               [](const SwingCandidate* other) { return other->middle; });
    const std::ptrdiff_t reach = most_likened + 1;
    const auto first = here - std::min(here - sure.begin(), reach);
    const auto last = here + std::min(sure.end() - here, reach);
    std::vector<const SwingCandidate*> others;
    std::copy_if(first, last, std::back_inserter(others),
                 [&](const SwingCandidate* other) { return apart(other) > swings_apart_s * rate_hz; });
    std::ranges::stable_sort(others, {}, apart);
    std::vector<const SwingPortrait*> portraits;
    for (const SwingCandidate* other : others) portraits.push_back(&*other->portrait);
    for (auto one = earlier.rbegin(); one != earlier.rend(); ++one) portraits.push_back(&*one);
    portraits.resize(std::min(portraits.size(), most_likened));
    return portraits;
}

}  // namespace footing
