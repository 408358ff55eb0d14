#include "analysis/pressure/feet_follower.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace footing {

namespace {

constexpr std::size_t look_every_frames = 16;
constexpr std::size_t forget_after_empty_frames = 64;
constexpr std::size_t most_looks_in_part = 64;
constexpr double least_part_of_total = 0.03;  // a lighter area is no foot that stands
constexpr double thing_too_heavy = 0.25;      // of the total: the feet must have been mistaken
constexpr double part_to_be_the_foot = 0.3;   // of an area's load within a foot's zone
constexpr double part_to_be_both = 0.1;       // of an area's load within each foot's zone
constexpr double whole_part = 0.9;            // of the length that the foot is known to have
constexpr double least_apart_m = 0.05;        // two feet, across
constexpr double most_stray_n = 2.0;
constexpr double most_stray_part = 0.003;
constexpr int zone_reach = 2;  // elements around what is touched
/// A foot presses with some 30 kPa where it touches; what is below this is the edge of a shoe, or noise
/// (common practice, no source).
constexpr double touched_pa = 1e3;

bool is_whole(const MatArea& area, const Grid& grid) {
    return foot_shape(area, grid).turn_rad.has_value();
}

void add_elements(MatArea& to, const MatArea& from) {
    std::vector<std::uint32_t> have(to.size());
    std::ranges::transform(to, have.begin(), &MatElement::index);
    std::ranges::sort(have);
    for (const MatElement& one : from) {
        if (!std::ranges::binary_search(have, one.index)) to.push_back(one);
    }
}

}  // namespace

FeetFollower::FeetFollower(const Grid& grid, FeetOptions options)
    : grid_(grid),
      options_(std::move(options)),
      look_options_(options_),
      owner_(std::size_t{grid.rows} * grid.columns, Owner::nobody) {
    look_options_.element_threshold_n =
        std::max(options_.element_threshold_n, touched_pa * grid.pitch_x_m * grid.pitch_y_m);
}

FeetTold FeetFollower::follow(std::span<const double> force_n, double total_n) {
    if (force_n.size() != owner_.size()) return FeetTold::nobody;
    ++frames_since_look_;
    if (!(total_n >= 2.0 * options_.least_foot_n)) {
        if (++empty_frames_ > forget_after_empty_frames) told_ = FeetTold::nobody;
    } else {
        empty_frames_ = 0;
        if (told_ == FeetTold::nobody || frames_since_look_ >= look_every_frames) look(force_n, total_n);
    }
    if (told_ != FeetTold::areas) return told_;
    sum_zones(force_n, total_n);
    const double surprise_n = stray_n_ - stray_at_look_n_;
    if (frames_since_look_ > 0 && surprise_n > std::max(most_stray_n, most_stray_part * total_n)) {
        look(force_n, total_n);
        if (told_ != FeetTold::areas) return told_;
        sum_zones(force_n, total_n);
    }
    if (frames_since_look_ == 0) stray_at_look_n_ = stray_n_;
    return told_;
}

void FeetFollower::look(std::span<const double> force_n, double total_n) {
    frames_since_look_ = 0;
    MatAreas found = find_areas(grid_, force_n, look_options_);
    if (told_ != FeetTold::areas || !recognise(found.areas, total_n)) choose(std::move(found.areas), total_n);
    if (told_ == FeetTold::areas) make_zones();
}

bool FeetFollower::bears_enough(const MatArea& area, double total_n) const {
    return load_of(area) >= std::max(options_.least_foot_n, least_part_of_total * total_n);
}

/// Nothing is known of the feet: the two heaviest areas, those that show a whole foot first.
void FeetFollower::choose(std::vector<MatArea> areas, double total_n) {
    const auto enough = std::ranges::stable_partition(
        areas, [&](const MatArea& area) { return bears_enough(area, total_n); });
    const auto candidates = static_cast<std::size_t>(enough.begin() - areas.begin());
    if (candidates < 2) {
        told_ = FeetTold::one_area;
        return;
    }
    if (candidates > 2) {
        std::stable_partition(areas.begin(), enough.begin(),
                              [&](const MatArea& area) { return is_whole(area, grid_); });
    }
    const double apart_m = centre_of(areas[1]).x_m - centre_of(areas[0]).x_m;
    if (std::abs(apart_m) < least_apart_m) {
        told_ = FeetTold::in_a_line;
        return;
    }
    if (apart_m < 0.0) std::swap(areas[0], areas[1]);
    place(feet_[0], std::move(areas[0]));
    place(feet_[1], std::move(areas[1]));
    others_.assign(std::make_move_iterator(areas.begin() + 2), std::make_move_iterator(areas.end()));
    told_ = FeetTold::areas;
}

std::array<double, 3> FeetFollower::load_in_zones(const MatArea& area) const {
    std::array<double, 3> load{};
    for (const MatElement& one : area) {
        if (owner_[one.index] == Owner::left) load[0] += one.load_n;
        if (owner_[one.index] == Owner::right) load[1] += one.load_n;
        if (owner_[one.index] == Owner::other) load[2] += one.load_n;
    }
    return load;
}

/// Feet that have come to touch each other: parted where each was known to stand.
std::vector<MatArea> FeetFollower::parted_by_owner(std::vector<MatArea> areas) const {
    std::vector<MatArea> parted;
    for (MatArea& area : areas) {
        const auto [left_n, right_n, other_n] = load_in_zones(area);
        if (std::min(left_n, right_n) <= part_to_be_both * load_of(area)) {
            parted.push_back(std::move(area));
            continue;
        }
        const double between_m = 0.5 * (feet_[0].shape.centre.x_m + feet_[1].shape.centre.x_m);
        std::array<MatArea, 2> parts;
        for (const MatElement& one : area) {
            const Owner owner = owner_[one.index];
            const bool is_right = owner == Owner::right || (owner != Owner::left && one.at.x_m >= between_m);
            parts[is_right ? 1 : 0].push_back(one);
        }
        for (MatArea& part : parts) parted.push_back(std::move(part));
    }
    return parted;
}

/// The feet are known: which area is which? False when they cannot be the same feet any more.
bool FeetFollower::recognise(std::vector<MatArea> areas, double total_n) {
    areas = parted_by_owner(std::move(areas));
    std::array<MatArea, 2> seen;
    std::vector<MatArea> rest;
    for (MatArea& area : areas) {
        const auto in_zones = load_in_zones(area);
        const std::size_t side = in_zones[0] >= in_zones[1] ? 0 : 1;
        if (in_zones[side] >= part_to_be_the_foot * load_of(area)) {
            add_elements(seen[side], area);
        } else {
            rest.push_back(std::move(area));
        }
    }
    if (seen[0].empty() && seen[1].empty()) return false;
    const auto lay_there = [&](const MatArea& area) {
        return load_in_zones(area)[2] >= part_to_be_the_foot * load_of(area);
    };
    for (std::size_t side = 0; side < 2; ++side) {
        if (!seen[side].empty()) continue;
        // In the air; or it was put down elsewhere, on its own side of the other foot.
        const double other_x_m = centre_of(seen[1 - side]).x_m;
        const auto landed = std::ranges::find_if(rest, [&](const MatArea& area) {
            const double x_m = centre_of(area).x_m;
            return !lay_there(area) && bears_enough(area, total_n) &&
                   (side == 0 ? x_m < other_x_m - least_apart_m : x_m > other_x_m + least_apart_m);
        });
        if (landed == rest.end()) continue;
        seen[side] = std::move(*landed);
        rest.erase(landed);
    }
    const auto mistaken = [&](const MatArea& area) {
        return load_of(area) > thing_too_heavy * total_n && (!lay_there(area) || is_whole(area, grid_));
    };
    if (std::ranges::any_of(rest, mistaken)) return false;
    for (std::size_t side = 0; side < 2; ++side) {
        if (!seen[side].empty()) update(feet_[side], seen[side]);
    }
    others_ = std::move(rest);
    return true;
}

void FeetFollower::place(Foot& foot, MatArea area) {
    foot.shape = foot_shape(area, grid_);
    foot.touched = std::move(area);
    foot.looks_in_part = 0;
}

/// A foot seen whole stands as it is seen. One seen in part (its heel is up) keeps what is known of it, as
/// long as both together can be one foot.
void FeetFollower::update(Foot& foot, const MatArea& area) {
    const FootShape seen = foot_shape(area, grid_);
    const bool whole =
        seen.turn_rad && (!foot.shape.turn_rad || seen.length_m >= whole_part * foot.shape.length_m);
    const bool stays_short = seen.turn_rad && ++foot.looks_in_part > most_looks_in_part;
    if (whole || stays_short) return place(foot, area);
    MatArea both = foot.touched;
    add_elements(both, area);
    if (!fits_a_foot(both, grid_, options_)) return place(foot, area);
    foot.touched = std::move(both);
    if (!foot.shape.turn_rad) foot.shape = foot_shape(foot.touched, grid_);
}

void FeetFollower::make_zones() {
    std::ranges::fill(owner_, Owner::nobody);
    std::vector<std::pair<std::uint32_t, Owner>> edge;
    const auto own = [&](const MatArea& area, Owner owner) {
        for (const MatElement& one : area) {
            if (owner_[one.index] != Owner::nobody) continue;
            owner_[one.index] = owner;
            edge.emplace_back(one.index, owner);
        }
    };
    own(feet_[0].touched, Owner::left);
    own(feet_[1].touched, Owner::right);
    for (const MatArea& area : others_) own(area, Owner::other);
    std::vector<std::pair<std::uint32_t, Owner>> next;
    for (int ring = 0; ring < zone_reach; ++ring) {
        next.clear();
        for (const auto& [index, owner] : edge) {
            const std::size_t row = index / grid_.columns;
            const std::size_t column = index % grid_.columns;
            for (std::size_t r = row > 0 ? row - 1 : 0; r <= std::min<std::size_t>(row + 1, grid_.rows - 1);
                 ++r) {
                for (std::size_t c = column > 0 ? column - 1 : 0;
                     c <= std::min<std::size_t>(column + 1, grid_.columns - 1); ++c) {
                    const std::size_t at = r * grid_.columns + c;
                    if (owner_[at] != Owner::nobody) continue;
                    owner_[at] = owner;
                    next.emplace_back(static_cast<std::uint32_t>(at), owner);
                }
            }
        }
        edge.swap(next);
    }

    std::array<std::optional<FootLine>, 2> lines;
    for (std::size_t side = 0; side < 2; ++side) {
        feet_[side].zone.clear();
        if (feet_[side].shape.turn_rad)
            lines[side].emplace(feet_[side].shape, side == 0 ? FootSide::left : FootSide::right, grid_);
    }
    other_zone_.clear();
    free_.clear();
    for (std::size_t i = 0; i < owner_.size(); ++i) {
        ZoneElement element{static_cast<std::uint32_t>(i),
                            element_position(grid_, i / grid_.columns, i % grid_.columns), 0.0, 0.0};
        if (owner_[i] == Owner::left || owner_[i] == Owner::right) {
            const std::size_t side = owner_[i] == Owner::left ? 0 : 1;
            if (lines[side]) {
                element.toe = lines[side]->toe_part(element.at);
                element.outside = lines[side]->outside_part(element.at);
            }
            feet_[side].zone.push_back(element);
        } else {
            (owner_[i] == Owner::other ? other_zone_ : free_).push_back(element);
        }
    }
}

void FeetFollower::sum_zones(std::span<const double> force_n, double total_n) {
    const auto add = [](LoadSum& sum, double load_n, PointM at) {
        sum.force_n += load_n;
        sum.x_n_m += load_n * at.x_m;
        sum.y_n_m += load_n * at.y_m;
    };
    for (Foot& foot : feet_) {
        FootSum sum;
        for (const ZoneElement& one : foot.zone) {
            const double load_n = counted(force_n[one.index]);
            add(sum.load, load_n, one.at);
            sum.toe_n += load_n * one.toe;
            sum.outside_n += load_n * one.outside;
        }
        sum.zone_n = sum.load.force_n;
        foot.sum = sum;
    }
    other_sum_ = {};
    for (const ZoneElement& one : other_zone_) add(other_sum_, counted(force_n[one.index]), one.at);
    stray_n_ = total_n - feet_[0].sum.load.force_n - feet_[1].sum.load.force_n - other_sum_.force_n;
    if (!(std::abs(stray_n_) > 1e-9 * total_n)) return;
    // Specks, and what was put down since the last look: the nearer foot's, so that nothing is lost.
    const double between_m = 0.5 * (feet_[0].shape.centre.x_m + feet_[1].shape.centre.x_m);
    for (const ZoneElement& one : free_)
        add(feet_[one.at.x_m < between_m ? 0 : 1].sum.load, counted(force_n[one.index]), one.at);
}

}  // namespace footing
