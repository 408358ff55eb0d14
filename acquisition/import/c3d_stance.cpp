#include "acquisition/import/c3d_stance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace footing {

namespace {

using Foot = C3dPlateUse::Foot;

constexpr double least_cosine_between_plates = 0.985;  // about 10 degrees

struct Chosen {
    std::size_t index = 0;
    Foot foot = Foot::whole;
};

std::string foot_name(Foot foot) {
    switch (foot) {
        case Foot::left:
            return "left";
        case Foot::right:
            return "right";
        case Foot::whole:
            break;
    }
    return "plate";
}

C3dVector axis_vector(C3dAxis axis) {
    switch (axis) {
        case C3dAxis::plus_x:
            return {1, 0, 0};
        case C3dAxis::minus_x:
            return {-1, 0, 0};
        case C3dAxis::plus_y:
            return {0, 1, 0};
        case C3dAxis::minus_y:
            return {0, -1, 0};
        case C3dAxis::plus_z:
            return {0, 0, 1};
        case C3dAxis::minus_z:
            break;
    }
    return {0, 0, -1};
}

Result<std::vector<Chosen>> named_plates(const std::vector<C3dPlateEntry>& entries,
                                         const C3dImportOptions& options, const std::string& place) {
    std::vector<Chosen> chosen;
    for (const C3dPlateUse& use : options.plates) {
        if (use.plate < 1 || use.plate > entries.size()) {
            return Problem{ProblemKind::command_line, place,
                           "has no force plate " + std::to_string(use.plate),
                           "it has " + std::to_string(entries.size())};
        }
        const C3dPlateEntry& entry = entries[use.plate - 1];
        if (entry.problem) return *entry.problem;
        chosen.push_back({use.plate - 1, use.foot});
    }
    return chosen;
}

Result<std::vector<Chosen>> usable_plates(const std::vector<C3dPlateEntry>& entries, const std::string& place,
                                          std::vector<std::string>& remarks) {
    std::vector<Chosen> chosen;
    for (std::size_t i = 0; i < entries.size(); ++i) {
        if (entries[i].plate) {
            chosen.push_back({i, Foot::whole});
        } else {
            remarks.push_back("left out: " + sentence(*entries[i].problem));
        }
    }
    if (chosen.empty()) return *entries.front().problem;
    if (chosen.size() > 2) {
        return Problem{ProblemKind::bad_input, place,
                       "has " + std::to_string(chosen.size()) +
                           " force plates and does not say which the golfer stood on",
                       "name them, for example --plates left=1,right=2"};
    }
    return chosen;
}

/// Of the edges of a plate, in both directions, the one nearest to `wanted`, laid into the ground.
C3dVector nearest_edge(const C3dPlate& plate, const C3dVector& wanted, const C3dVector& up) {
    C3dVector best{};
    double most = -1.0;
    for (const C3dVector& edge : {plate.x, -1.0 * plate.x, plate.y, -1.0 * plate.y}) {
        const C3dVector level = direction(across(edge, up));
        if (dot(level, wanted) > most) {
            most = dot(level, wanted);
            best = level;
        }
    }
    return best;
}

/// The axis of the file's frame along which `line` mainly runs, pointing to larger coordinates.
C3dVector main_axis(const C3dVector& line) {
    std::size_t main = 0;
    for (std::size_t i = 1; i < 3; ++i) {
        if (std::abs(line[i]) > std::abs(line[main])) main = i;
    }
    C3dVector axis{};
    axis[main] = 1.0;
    return axis;
}

class StanceBuilder {
  public:
    StanceBuilder(const std::vector<C3dPlateEntry>& entries, const C3dImportOptions& options,
                  const std::string& place)
        : entries_(entries), options_(options), place_(place) {}

    Result<C3dStance> build() {
        auto chosen = options_.plates.empty() ? usable_plates(entries_, place_, stance_.remarks)
                                              : named_plates(entries_, options_, place_);
        if (!chosen) return chosen.problem();
        chosen_ = std::move(chosen).value();
        if (Outcome level = find_up(); !level) return level.problem();
        if (Outcome found = find_right(); !found) return found.problem();
        std::ranges::sort(chosen_, {}, [](const Chosen& one) { return one.foot; });

        C3dVector middle{};
        for (const Chosen& one : chosen_) {
            middle = middle + (1.0 / static_cast<double>(chosen_.size())) * plate(one).centre;
        }
        const C3dVector ahead = cross(up_, right_);
        for (const Chosen& one : chosen_) {
            C3dFootPlate foot{one.index + 1, plate(one), {}, {}, {}, {}};
            const C3dVector from_middle = foot.plate.centre - middle;
            foot.place = {foot_name(one.foot), {dot(from_middle, right_), dot(from_middle, ahead)}, {}};
            // Within the plate's own plane, which may be a few degrees off the common one.
            const C3dVector normal = -1.0 * foot.plate.z;
            const C3dVector right = direction(across(right_, normal));
            foot.right = in_plate(foot.plate, right);
            foot.ahead = in_plate(foot.plate, cross(normal, right));
            foot.up = in_plate(foot.plate, normal);
            stance_.plates.push_back(std::move(foot));
        }
        return std::move(stance_);
    }

  private:
    [[nodiscard]] const C3dPlate& plate(const Chosen& one) const { return *entries_[one.index].plate; }

    static C3dVector in_plate(const C3dPlate& plate, const C3dVector& a) {
        return {dot(a, plate.x), dot(a, plate.y), dot(a, plate.z)};
    }

    Outcome find_up() {
        C3dVector sum{};
        for (const Chosen& one : chosen_) sum = sum - plate(one).z;
        const double together = length(sum) / static_cast<double>(chosen_.size());
        if (together > 0.1) up_ = direction(sum);
        for (const Chosen& one : chosen_) {
            if (together <= 0.1 || -dot(plate(one).z, up_) < least_cosine_between_plates) {
                return Problem{ProblemKind::bad_input, place_, "the force plates do not lie in one plane",
                               "set FORCE_PLATFORM:CORNERS, all plates in the same order of corners"};
            }
        }
        return Done{};
    }

    Outcome find_right() {
        if (options_.ahead) {
            const C3dVector level = across(axis_vector(*options_.ahead), up_);
            if (length(level) < 0.5) {
                return Problem{ProblemKind::command_line, place_,
                               "--ahead names an axis that points up or down",
                               "name the axis to which the toes point"};
            }
            right_ = cross(direction(level), up_);
        }
        if (chosen_.size() != 2) return find_right_of_one();
        if (options_.plates.empty()) name_by_position();

        const Chosen& left = chosen_[0].foot == Foot::left ? chosen_[0] : chosen_[1];
        const Chosen& other = chosen_[0].foot == Foot::left ? chosen_[1] : chosen_[0];
        const C3dVector line = across(plate(other).centre - plate(left).centre, up_);
        if (!(length(line) > 0.01)) {
            return Problem{ProblemKind::bad_input, place_, "both force plates lie at the same place",
                           "set FORCE_PLATFORM:CORNERS and export the file again"};
        }
        if (!options_.ahead) {
            right_ = nearest_edge(plate(left), direction(line), up_);
        } else if (dot(line, right_) <= 0.0) {
            return Problem{
                ProblemKind::command_line, place_,
                "with the toes to this axis the left plate would lie to the right of the right one",
                "turn --ahead or --plates round"};
        }
        return Done{};
    }

    Outcome find_right_of_one() {
        if (options_.ahead) return Done{};
        // Nothing tells: across the plate, towards the larger coordinates of the file's first level axis.
        const C3dVector first = std::abs(up_[0]) < 0.7 ? C3dVector{1, 0, 0} : C3dVector{0, 1, 0};
        right_ = nearest_edge(plate(chosen_.front()), first, up_);
        stance_.remarks.push_back(
            "the file does not say which way the golfer faced; the plate's edge along the file's first level "
            "axis was taken as the golfer's right. Import again with --ahead if that is wrong");
        return Done{};
    }

    void name_by_position() {
        const C3dVector line = across(plate(chosen_[1]).centre - plate(chosen_[0]).centre, up_);
        const C3dVector axis = options_.ahead ? right_ : main_axis(line);
        const bool first_is_left = dot(line, axis) >= 0.0;
        chosen_[0].foot = first_is_left ? Foot::left : Foot::right;
        chosen_[1].foot = first_is_left ? Foot::right : Foot::left;
        const Chosen& left = first_is_left ? chosen_[0] : chosen_[1];
        const Chosen& right = first_is_left ? chosen_[1] : chosen_[0];
        stance_.remarks.push_back("force plate " + std::to_string(left.index + 1) +
                                  " was taken as the left one and " + std::to_string(right.index + 1) +
                                  " as the right one, by their position; import again with --plates left=" +
                                  std::to_string(right.index + 1) + ",right=" +
                                  std::to_string(left.index + 1) + " if the golfer faced the other way");
    }

    const std::vector<C3dPlateEntry>& entries_;
    const C3dImportOptions& options_;
    const std::string& place_;
    std::vector<Chosen> chosen_;
    C3dVector up_{};
    C3dVector right_{};
    C3dStance stance_;
};

}  // namespace

Result<C3dStance> choose_c3d_stance(const std::vector<C3dPlateEntry>& entries,
                                    const C3dImportOptions& options, const std::string& place) {
    return StanceBuilder(entries, options, place).build();
}

}  // namespace footing
