#include "viewer/lesson/export_c3d.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include "acquisition/frame/count_words.h"
#include "acquisition/record/program_version.h"
#include "acquisition/record/recording_facts_writer.h"
#include "acquisition/record/safe_file.h"

namespace footing {

namespace {

/// Where a recording does not tell how large a plate is.
constexpr double usual_half_size_m = 0.15;

struct Outline {
    PointM centre;
    double half_width_m = usual_half_size_m;
    double half_length_m = usual_half_size_m;
};

Outline outline_of(const Plate& plate) {
    Outline outline{plate.centre};
    if (plate.cells.empty()) return outline;
    outline.half_width_m = outline.half_length_m = 0.0;
    for (const PointM& cell : plate.cells) {
        outline.half_width_m = std::max(outline.half_width_m, std::abs(cell.x_m));
        outline.half_length_m = std::max(outline.half_length_m, std::abs(cell.y_m));
    }
    return outline;
}

/// The half of a mat that a foot stands on, or all of it: other programs want plates that lie apart.
Outline outline_of(const Grid& grid, PlateSide side) {
    Outline mat{grid.centre, 0.5 * grid.columns * grid.pitch_x_m, 0.5 * grid.rows * grid.pitch_y_m};
    if (side == PlateSide::whole) return mat;
    mat.half_width_m *= 0.5;
    mat.centre.x_m += side == PlateSide::left ? -mat.half_width_m : mat.half_width_m;
    return mat;
}

/// The ground that a foot, or both, stood on.
Outline outline_for(const PlateLayout& layout, PlateSide side) {
    if (layout.grid) return outline_of(*layout.grid, side);
    const std::vector<PlateSide> sides = plate_sides(layout);
    for (std::size_t i = 0; i < layout.plates.size(); ++i) {
        if (sides[i] == side || side == PlateSide::whole) return outline_of(layout.plates[i]);
    }
    return {};
}

struct TwoOutlines {
    Outline left;
    Outline right;
};

/// Where a recording does not tell where its two plates lie (an imported table), they lie side by side: one
/// on top of the other is no layout that other programs take.
TwoOutlines outlines_of_feet(const PlateLayout& layout) {
    TwoOutlines feet{outline_for(layout, PlateSide::left), outline_for(layout, PlateSide::right)};
    const double apart_m = std::hypot(feet.left.centre.x_m - feet.right.centre.x_m,
                                      feet.left.centre.y_m - feet.right.centre.y_m);
    if (apart_m > 0.0) return feet;
    feet.left.centre.x_m -= feet.left.half_width_m;
    feet.right.centre.x_m += feet.right.half_width_m;
    return feet;
}

/// Loads of one foot, or of both, as columns of a trace.
struct FootColumns {
    const std::vector<double>& load_n;
    const std::vector<double>& x_m;
    const std::vector<double>& y_m;
};

C3dPlateSeries plate_of(std::string label, const Outline& outline, const FootColumns& foot) {
    C3dPlateSeries plate{std::move(label),     outline.centre.x_m,    outline.centre.y_m,
                         outline.half_width_m, outline.half_length_m, {}};
    const std::size_t samples = foot.load_n.size();
    for (auto& component : plate.components) component.assign(samples, 0.0);
    for (std::size_t i = 0; i < samples; ++i) {
        if (!known(foot.load_n[i])) continue;
        plate.components[2][i] = foot.load_n[i];
        if (!known(foot.x_m[i]) || !known(foot.y_m[i])) continue;
        plate.components[3][i] = (foot.y_m[i] - outline.centre.y_m) * foot.load_n[i];
        plate.components[4][i] = -(foot.x_m[i] - outline.centre.x_m) * foot.load_n[i];
    }
    return plate;
}

C3dChannel flags(std::string label, std::string description, const std::vector<std::uint8_t>& set) {
    return {std::move(label), std::move(description), std::vector<double>(set.begin(), set.end())};
}

std::vector<C3dEventMark> events_of(const std::vector<Swing>& swings) {
    std::vector<C3dEventMark> marks;
    for (const Swing& swing : swings) {
        for (const NamedEvent& named : named_events) {
            const std::optional<Event>& event = swing.events.*named.member;
            if (!event) continue;
            const bool guessed_impact =
                named.member == &SwingEvents::impact && event->source == EventSource::estimated;
            marks.push_back({event->time_s, std::string(named.name) + (guessed_impact ? " estimate" : "")});
        }
    }
    return marks;
}

C3dOrigin origin_of(const LessonFacts& facts) {
    const CalibrationFacts& known = facts.calibration_facts;
    C3dOrigin origin;
    if (facts.started_utc_ns != 0) origin.start_utc = utc_text(facts.started_utc_ns);
    origin.zone = facts.zone;
    origin.calibration_method = known.method;
    origin.calibration_made = known.made;
    origin.calibration_valid_until = known.valid_until;
    origin.relative_u = known.record_relative_u;
    origin.common_relative_u = known.common_relative_u;
    origin.only_ratios = known.state == CalibrationState::absent;
    return origin;
}

}  // namespace

C3dContent c3d_of(const LessonResult& lesson) {
    const LoadTrace& trace = lesson.trace;
    const PlateLayout& layout = lesson.facts.layout;
    C3dContent content;
    content.rate_hz = trace.rate_hz;
    content.program = "Footing";
    content.program_version = std::string(program_version);
    content.origin = origin_of(lesson.facts);
    if (std::any_of(trace.left_n.begin(), trace.left_n.end(), known)) {
        const TwoOutlines feet = outlines_of_feet(layout);
        content.plates.push_back(plate_of("L", feet.left, {trace.left_n, trace.left_x_m, trace.left_y_m}));
        content.plates.push_back(
            plate_of("R", feet.right, {trace.right_n, trace.right_x_m, trace.right_y_m}));
    } else {
        content.plates.push_back(plate_of("1", outline_for(layout, PlateSide::whole),
                                          {trace.total_n, trace.cop_x_m, trace.cop_y_m}));
    }
    content.channels.push_back(flags("TRIGGER", "1 while the trigger input is set", trace.trigger));
    content.channels.push_back(flags("BRIDGED", "1 where a lost frame was bridged", trace.bridged));
    content.events = events_of(lesson.swings);
    return content;
}

Result<std::string> export_c3d(const LessonResult& lesson, const std::string& path) {
    if (const Outcome free = check_name_is_free(path); !free) return free.problem();
    const C3dContent content = c3d_of(lesson);
    const Result<C3dBytesMade> made = make_c3d(content);
    if (!made) return made.problem();
    if (const Outcome written = write_new_file(path, made.value().bytes); !written) return written.problem();
    const C3dLeftOut& left_out = made.value().left_out;
    std::string said =
        fmt::format("{}: {} at {:g} Hz, {}, {}; vertical loads only", path,
                    count_words(lesson.trace.size() - left_out.samples, "sample", "samples"), content.rate_hz,
                    content.plates.size() == 1 ? "one plate" : "a plate for each foot",
                    count_words(content.events.size() - left_out.events, "event", "events"));
    if (left_out.samples > 0) {
        said += fmt::format("\n  left out at the end: {} that would fill no whole frame of this format",
                            count_words(left_out.samples, "sample", "samples"));
    }
    if (left_out.events > 0) {
        said += fmt::format("\n  left out at the end: {}, more than this format can hold",
                            count_words(left_out.events, "event", "events"));
    }
    return said;
}

}  // namespace footing
