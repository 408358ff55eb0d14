#include "analysis/swing/turn.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <vector>

#include "analysis/swing/likely_instant.h"

namespace footing {

namespace {

constexpr double not_possible = std::numeric_limits<double>::infinity();
constexpr std::size_t least_flank = 3;

/// Sums of one flank's powers of distance with itself and with the column.
struct Flank {
    double sum = 0.0;
    double squares = 0.0;
    double with_column = 0.0;
    void add(double power, double value) {
        sum += power;
        squares += power * power;
        with_column += power * value;
    }
};

/// Least misfit of level + a left + b right with a and b above zero; infinite where they are not.
double misfit_of(const Flank& left, const Flank& right, double count, double total, double squares) {
    // The flanks do not overlap, so the normal equations reduce to one for the level.
    if (!(left.squares > 0.0) || !(right.squares > 0.0)) return not_possible;
    const double weight = count - left.sum * left.sum / left.squares - right.sum * right.sum / right.squares;
    if (!(weight > 1e-9 * count)) return not_possible;
    const double level =
        (total - left.sum * left.with_column / left.squares - right.sum * right.with_column / right.squares) /
        weight;
    const double a = (left.with_column - level * left.sum) / left.squares;
    const double b = (right.with_column - level * right.sum) / right.squares;
    if (a <= 0.0 || b <= 0.0) return not_possible;
    return std::max(0.0, squares - level * total - a * left.with_column - b * right.with_column);
}

}  // namespace

std::optional<Turn> turn_between_flanks(std::span<const double> column, std::size_t search_from,
                                        std::size_t search_to, double alike, double least_noise,
                                        const ExpectedTurn& expected) {
    const std::size_t n = column.size();
    if (n < 2 * least_flank + 2) return std::nullopt;
    const std::size_t from = std::max(search_from, least_flank);
    const std::size_t to = std::min(search_to, n - 1 - least_flank);
    if (from > to) return std::nullopt;
    const double origin = column[n / 2];
    double total = 0.0;
    double squares = 0.0;
    for (const double value : column) {
        total += value - origin;
        squares += (value - origin) * (value - origin);
    }
    const double count = static_cast<double>(n);
    std::vector<std::array<double, 4>> misfits;
    double least = not_possible;
    for (std::size_t turn = from; turn <= to; ++turn) {
        std::array<Flank, 2> left;
        std::array<Flank, 2> right;
        for (std::size_t i = 0; i < n; ++i) {
            const double d = std::abs(static_cast<double>(i) - static_cast<double>(turn)) / count;
            std::array<Flank, 2>& flank = i < turn ? left : right;
            flank[0].add(d * d, column[i] - origin);
            flank[1].add(d * d * d, column[i] - origin);
        }
        std::array<double, 4>& misfit = misfits.emplace_back();
        for (std::size_t k = 0; k < 4; ++k) {
            misfit[k] = misfit_of(left[k / 2], right[k % 2], count, total, squares);
            least = std::min(least, misfit[k]);
        }
    }
    if (!std::isfinite(least)) return std::nullopt;
    const double variance = std::max(least / std::max(1.0, count - 5.0), least_noise * least_noise);
    LikelyInstant turn;
    for (std::size_t i = 0; i < misfits.size(); ++i) {
        for (const double misfit : misfits[i]) {
            if (!std::isfinite(misfit)) continue;
            const double off = (static_cast<double>(from + i) - expected.sample) / expected.u_samples;
            turn.add(static_cast<double>(from + i),
                     std::exp(-0.5 * ((misfit - least) / (variance * alike) + off * off)));
        }
    }
    return Turn{turn.sample(), turn.u_samples()};
}

}  // namespace footing
