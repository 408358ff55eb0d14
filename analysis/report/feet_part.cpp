#include <algorithm>
#include <array>
#include <cmath>

#include "analysis/report/mat_words.h"
#include "analysis/report/number_words.h"
#include "analysis/report/stance_view.h"
#include "analysis/report/swing_figure.h"
#include "analysis/report/swing_parts.h"
#include "analysis/swing/mass_path.h"

namespace footing {

namespace {

constexpr double tail_s = 0.4;  // of the moving head

const Swing* looked_at(const SwingPicture& picture) {
    return picture.swings.empty() ? nullptr : picture.swings.front();
}

struct CopMark {
    std::optional<Event> SwingEvents::*event;
    std::optional<PointM> SwingCop::*cop;
    std::optional<ShareValue> SwingShares::*share;
    const char* name;
};
constexpr CopMark cop_marks[] = {
    {&SwingEvents::address, &SwingCop::address, &SwingShares::address, "address"},
    {&SwingEvents::turnaround, nullptr, &SwingShares::turnaround, "turnaround"},
    {&SwingEvents::impact, &SwingCop::impact, &SwingShares::impact, "impact"},
    {&SwingEvents::finish, &SwingCop::finish, &SwingShares::finish, "finish"},
};

std::optional<PointM> place_of(const LessonResult& lesson, const Swing& swing, const CopMark& mark) {
    if (mark.cop != nullptr) {
        if (const auto& cop = swing.cop_m.*mark.cop) return stance_to_plate(*cop, lesson.facts.hand);
    }
    const auto& event = swing.events.*mark.event;
    return event ? cop_at(lesson.trace, event->time_s) : std::nullopt;
}

MarkShape shape_of(const Swing& swing, const CopMark& mark, TargetSide side) {
    const auto& share = swing.lead_share.*mark.share;
    return share ? mark_towards(share->verdict, side) : MarkShape::dot;
}

std::vector<FigurePoint> on_picture(const GroundView& view, const std::vector<PointM>& ground) {
    std::vector<FigurePoint> points;
    points.reserve(ground.size());
    for (const PointM& point : ground) points.push_back(view(point));
    return points;
}

/// A sole about its foot's place; its own scale, so that it keeps its shape where the stance is stretched
/// over the rule.
void draw_sole(SwingPicture& picture, const GroundView& view, PlateSide side, const FeetOnGround& feet,
               double px_per_m) {
    const bool lead = (side == PlateSide::left) == (picture.lesson.facts.hand == Hand::right);
    GroundView own = view;
    own.middle = {};
    own.at = view(side == PlateSide::left ? feet.left : feet.right);
    own.px_per_m_x = px_per_m;
    own.px_per_m_y = px_per_m;
    std::vector<FigurePoint> outline = on_picture(
        own, sole_outline(side, side == PlateSide::left ? feet.left_toe_out_rad : feet.right_toe_out_rad));
    picture.kit.polygon(outline, lead ? Ink::lead : Ink::trail, 0.10);
    outline.push_back(outline.front());
    picture.kit.path(std::move(outline), lead ? Ink::lead : Ink::trail, 1.5);
}

/// Where the centre of mass is estimated to have been, dashed, with its name at the end.
void draw_mass(SwingPicture& picture, const GroundView& view) {
    const Swing& swing = *picture.swings.front();
    const auto& begin = swing.events.takeaway ? swing.events.takeaway : swing.events.address;
    const MassPath path =
        mass_path(picture.lesson.trace, *picture.lesson.centre_of_mass, begin ? begin->time_s : swing.from_s,
                  swing.events.finish ? swing.events.finish->time_s : swing.to_s);
    if (path.place.empty()) return;
    std::vector<FigurePoint> points;
    for (const PointM& place : path.place) points.push_back(view(place));
    const FigurePoint at = points.front();
    picture.kit.path(thinned_path(points, 0.7), Ink::lead, 2.0, LineStyle::dashed);
    picture.kit.text({at.x, at.y - picture.px(14.0)}, "mass, estimate", Ink::lead, Align::middle);
}

void draw_paths(SwingPicture& picture, const GroundView& view) {
    for (std::size_t i = picture.swings.size(); i-- > 0;) {
        const Swing& swing = *picture.swings[i];
        const auto& begin = swing.events.takeaway ? swing.events.takeaway : swing.events.address;
        const double from = begin ? begin->time_s : swing.from_s;
        const double to = swing.events.finish ? swing.events.finish->time_s : swing.to_s;
        for (const auto& run : cop_path(picture.lesson.trace, from, to)) {
            picture.kit.path(thinned_path(on_picture(view, run), 0.7), i == 0 ? Ink::ink : Ink::quiet, 1.5,
                             LineStyle::solid, i == 0 ? 0.8 : 0.5);
        }
    }
    if (picture.lesson.centre_of_mass && !picture.swings.empty()) draw_mass(picture, view);
}

/// Name and place on the picture of each event's centre of pressure, in the order of the swing.
std::vector<std::pair<const char*, FigurePoint>> cop_mark_places(const SwingPicture& picture,
                                                                 const GroundView& view) {
    std::vector<std::pair<const char*, FigurePoint>> places;
    const Swing* swing = looked_at(picture);
    if (swing == nullptr) return places;
    for (const CopMark& mark : cop_marks) {
        if (const auto place = place_of(picture.lesson, *swing, mark))
            places.emplace_back(mark.name, view(*place));
    }
    return places;
}

void draw_cop_marks(SwingPicture& picture, const GroundView& view, double radius) {
    const Swing* swing = looked_at(picture);
    if (swing == nullptr) return;
    for (const CopMark& mark : cop_marks) {
        if (const auto place = place_of(picture.lesson, *swing, mark)) {
            picture.kit.mark(view(*place), shape_of(*swing, mark, picture.options.target_side), radius,
                             Ink::ink);
        }
    }
}

/// The centre of pressure now, with its tail. Gives its place.
std::optional<FigurePoint> draw_cop_now(SwingPicture& picture, const GroundView& view, double radius) {
    if (!picture.options.head_time_s) return std::nullopt;
    const double now = *picture.options.head_time_s;
    for (const auto& run : cop_path(picture.lesson.trace, now - tail_s, now)) {
        picture.kit.path(thinned_path(on_picture(view, run), 0.7), Ink::lead, 3.0, LineStyle::solid, 0.7);
    }
    const auto cop = cop_at(picture.lesson.trace, now);
    if (!cop) return std::nullopt;
    const FigurePoint at = view(*cop);
    picture.kit.mark(at, MarkShape::dot, radius, Ink::lead);
    return at;
}

/// What a mat tells of the feet, between them where there is room: how the student stood, and how much of
/// each foot's load is on its toes at the head, or at address without one.
void draw_mat_words(SwingPicture& picture) {
    const Swing* swing = looked_at(picture);
    const FigureBox& box = picture.scale.feet;
    if (swing == nullptr || !swing->stance || box.width() < picture.px(520.0)) return;
    const double x = box.left + 0.35 * box.width();
    const double y = box.top + picture.px(14.0);
    picture.kit.text({x, y}, "stance " + stance_words(*swing->stance, picture.lesson.facts.hand), Ink::quiet,
                     Align::middle);
    std::array<double, 2> toes{unknown, unknown};  // left, right
    const LoadTrace& trace = picture.lesson.trace;
    if (picture.options.head_time_s) {
        const std::size_t at = sample_from(trace, *picture.options.head_time_s);
        if (at < trace.mat.size())
            toes = {static_cast<double>(trace.mat[at].left.toe_share),
                    static_cast<double>(trace.mat[at].right.toe_share)};
    } else if (swing->feet) {
        toes = {swing->feet->left.toes.address.value_or(unknown),
                swing->feet->right.toes.address.value_or(unknown)};
    }
    const bool left_leads = picture.lesson.facts.hand == Hand::right;
    const double lead = toes[left_leads ? 0 : 1];
    const double trail = toes[left_leads ? 1 : 0];
    if (!known(lead) && !known(trail)) return;
    const auto words = [](double share) {
        return known(share) ? share_short(share) : std::string("not known");
    };
    picture.kit.text({x, y + picture.px(18.0)},
                     "on the toes: trail " + words(trail) + ", lead " + words(lead), Ink::quiet,
                     Align::middle);
}

struct GroundBounds {
    double left = 1e9;
    double right = -1e9;
    double near = 1e9;
    double far = -1e9;
    void hold(const PointM& point, double margin = 0.0) {
        left = std::min(left, point.x_m - margin);
        right = std::max(right, point.x_m + margin);
        near = std::min(near, point.y_m - margin);
        far = std::max(far, point.y_m + margin);
    }
};

constexpr double plate_rim_m = 0.02;  // from the cells to the plate's edge

/// Outlines of what the golfer stands on: plates around their cells, or the mat.
std::vector<GroundBounds> surfaces(const PlateLayout& layout) {
    std::vector<GroundBounds> all;
    for (const Plate& plate : layout.plates) {
        if (plate.cells.empty()) continue;
        GroundBounds bounds;
        for (std::size_t i = 0; i < plate.cells.size(); ++i)
            bounds.hold(cell_position(plate, i), plate_rim_m);
        all.push_back(bounds);
    }
    if (layout.grid) {
        const Grid& grid = *layout.grid;
        GroundBounds bounds;
        const double half_x = 0.5 * static_cast<double>(grid.columns) * grid.pitch_x_m;
        const double half_y = 0.5 * static_cast<double>(grid.rows) * grid.pitch_y_m;
        bounds.hold({grid.centre.x_m - half_x, grid.centre.y_m - half_y});
        bounds.hold({grid.centre.x_m + half_x, grid.centre.y_m + half_y});
        all.push_back(bounds);
    }
    return all;
}

/// Names in a row under the feet, each with a leader up to its mark.
void label_marks(SwingPicture& picture, const std::vector<std::pair<const char*, FigurePoint>>& places,
                 double left, double right, double baseline) {
    std::vector<Label> labels;
    for (std::size_t i = 0; i < places.size(); ++i) labels.push_back({places[i].second.x, 0.0, 0, i});
    const double half = picture.px(42.0);
    labels = spread_labels(std::move(labels), 2.0 * half, left + half, right - half);
    for (const Label& label : labels) {
        const auto& [name, at] = places[label.key];
        const double top = baseline - picture.px(16.0);
        picture.kit.path({{label.y, top},
                          {label.y, top - picture.px(4.0)},
                          {at.x, std::max(at.y, top - picture.px(28.0))},
                          at},
                         Ink::quiet, 1.0, LineStyle::solid, 0.8);
        picture.kit.text({label.y, baseline}, name, Ink::ink, Align::middle);
    }
}

/// Where neither feet nor plates can be drawn: room about the way of the centre of pressure.
void hold_path(GroundBounds& bounds, const SwingPicture& picture) {
    constexpr double beside_m = 0.02;
    constexpr PointM least{0.08, 0.05};  // either way of the middle
    const Swing* swing = looked_at(picture);
    if (swing != nullptr) {
        for (const CopMark& mark : cop_marks) {
            if (const auto place = place_of(picture.lesson, *swing, mark)) bounds.hold(*place, beside_m);
        }
    }
    const PointM middle = bounds.left < bounds.right
                              ? PointM{0.5 * (bounds.left + bounds.right), 0.5 * (bounds.near + bounds.far)}
                              : cop_mean(picture.lesson, swing);
    bounds.hold({middle.x_m - least.x_m, middle.y_m - least.y_m});
    bounds.hold({middle.x_m + least.x_m, middle.y_m + least.y_m});
}

/// How long 5 cm are on the picture.
void draw_length(SwingPicture& picture, const GroundView& view, FigurePoint at) {
    constexpr double length_m = 0.05;
    const double tick = picture.px(4.0);
    const double end = at.x + length_m * view.px_per_m_x;
    picture.kit.line(at, {end, at.y}, Ink::quiet, 1.0);
    for (const double x : {at.x, end}) picture.kit.line({x, at.y - tick}, {x, at.y + tick}, Ink::quiet, 1.0);
    picture.kit.text({at.x, at.y - picture.px(8.0)}, "5 cm", Ink::quiet);
}

/// Where the feet cannot be told apart there is no share to stand over: the path alone, to scale.
void draw_path_alone(SwingPicture& picture) {
    const FigureBox& box = picture.scale.feet;
    const PointM middle = cop_mean(picture.lesson, looked_at(picture));
    GroundView view;
    view.toes_down = toes_point_down(picture.lesson.facts.hand, picture.options.target_side);
    view.middle = middle;
    view.at = {0.5 * (box.left + box.right), 0.5 * (box.top + box.bottom)};
    view.px_per_m_x = std::min(box.width() / 0.6, box.height() / 0.3);
    view.px_per_m_y = view.px_per_m_x;
    draw_paths(picture, view);
    draw_cop_marks(picture, view, picture.px(5.0));
    draw_cop_now(picture, view, picture.px(6.0));
}

}  // namespace

void draw_feet_over_rule(SwingPicture& picture) {
    const SwingScale& scale = picture.scale;
    const Hand hand = picture.lesson.facts.hand;
    const FeetOnGround feet = feet_on_ground(picture.lesson, looked_at(picture));
    const PointM& lead = hand == Hand::right ? feet.left : feet.right;
    const PointM& trail = hand == Hand::right ? feet.right : feet.left;
    const double stance = std::abs(lead.x_m - trail.x_m);
    const double apart = std::abs(lead.y_m - trail.y_m);
    if (!feet.told_apart) return draw_path_alone(picture);
    const double px_per_m = scale.feet.height() / (sole_length_m * 1.06 + apart);
    GroundView view;
    view.toes_down = toes_point_down(hand, picture.options.target_side);
    view.middle = {0.5 * (lead.x_m + trail.x_m), 0.5 * (lead.y_m + trail.y_m)};
    view.at = {0.5 * (scale.feet.left + scale.feet.right), 0.5 * (scale.feet.top + scale.feet.bottom)};
    view.px_per_m_y = px_per_m;
    view.px_per_m_x = stance > 0.02 ? scale.feet.width() / stance : px_per_m;
    draw_sole(picture, view, PlateSide::left, feet, px_per_m);
    draw_sole(picture, view, PlateSide::right, feet, px_per_m);
    draw_mat_words(picture);
    draw_paths(picture, view);
    draw_cop_marks(picture, view, picture.px(5.0));
    if (const auto now = draw_cop_now(picture, view, picture.px(6.0))) {
        const double from_zero = *picture.options.head_time_s - scale.zero_s;
        if (from_zero >= scale.from_s && from_zero <= scale.to_s) {
            picture.kit.line(*now, {now->x, scale.y_of(from_zero)}, Ink::lead, 1.0, LineStyle::dashed, 0.8);
        }
    }
}

Figure feet_figure(const LessonResult& lesson, const SwingFigureOptions& options) {
    Figure figure;
    figure.width = options.width;
    figure.height = options.height;
    figure.text_scale = options.text_scale;
    SwingPicture picture{lesson, options, {}, chosen_swings(lesson, options), FigureKit(figure)};
    const FeetOnGround feet = feet_on_ground(lesson, looked_at(picture));

    GroundBounds bounds;
    const std::vector<GroundBounds> outlines = surfaces(lesson.facts.layout);
    for (const GroundBounds& outline : outlines) {
        bounds.hold({outline.left, outline.near});
        bounds.hold({outline.right, outline.far});
    }
    const bool alone = !feet.told_apart && outlines.empty();
    if (alone) hold_path(bounds, picture);
    if (feet.told_apart) {
        bounds.hold(feet.left, 0.55 * sole_length_m);
        bounds.hold(feet.right, 0.55 * sole_length_m);
    }
    const double k = options.text_scale;
    const bool with_labels = options.width >= 420.0 * k && options.height >= 160.0 * k;
    const FigureBox box{16.0 * k, 28.0 * k, options.width - 16.0 * k,
                        options.height - (with_labels ? 48.0 : 12.0) * k};
    GroundView view;
    view.toes_down = toes_point_down(lesson.facts.hand, options.target_side);
    view.middle = {0.5 * (bounds.left + bounds.right), 0.5 * (bounds.near + bounds.far)};
    view.at = {0.5 * (box.left + box.right), 0.5 * (box.top + box.bottom)};
    view.px_per_m_x = std::max(
        1.0, std::min(box.width() / (bounds.right - bounds.left), box.height() / (bounds.far - bounds.near)));
    view.px_per_m_y = view.px_per_m_x;

    picture.scale.trace = box;
    for (const GroundBounds& outline : outlines) {
        const FigurePoint a = view({outline.left, outline.near});
        const FigurePoint b = view({outline.right, outline.far});
        picture.kit.outline({std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)},
                            Ink::band_edge, 1.0);
    }
    if (feet.told_apart) {
        draw_sole(picture, view, PlateSide::left, feet, view.px_per_m_x);
        draw_sole(picture, view, PlateSide::right, feet, view.px_per_m_x);
        draw_foot_names(picture, 18.0 * k);
    } else {
        const bool right = options.target_side == TargetSide::right;
        picture.kit.text({right ? box.right : box.left, 18.0 * k}, right ? "→ target" : "target ←",
                         Ink::quiet, right ? Align::right : Align::left);
    }
    if (alone) draw_length(picture, view, {box.left, box.top});
    draw_paths(picture, view);
    if (with_labels) {
        label_marks(picture, cop_mark_places(picture, view), box.left, box.right, options.height - 12.0 * k);
    }
    draw_cop_marks(picture, view, 6.0 * k);
    draw_cop_now(picture, view, 7.0 * k);

    figure.title = "The feet seen from above";
    figure.description = std::string("Path of the centre of pressure, the target on the ") +
                         (options.target_side == TargetSide::right ? "right" : "left") + "; to scale.";
    return figure;
}

}  // namespace footing
