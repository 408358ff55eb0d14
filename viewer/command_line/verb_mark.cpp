#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/marks_file.h"

namespace footing {

namespace {

struct MarkOptions {
    std::string file;
    std::size_t swing = 0;
    std::string event;
    std::optional<double> at_s;
    std::string kind;
    bool not_a_swing = false;
    bool remove = false;
};

Problem wrong(const std::string& what, const std::string& remedy) {
    return {ProblemKind::command_line, "", what, remedy};
}

void print_marks(const CoachMarks& marks) {
    if (marks.swings.empty()) fmt::print("nothing is marked\n");
    for (const CoachMark& mark : marks.swings) {
        fmt::print("swing near {:.2f} s:", mark.near_s);
        for (std::size_t i = 0; i < named_events.size(); ++i) {
            if (mark.event_s[i]) fmt::print(" {} at {:.3f} s", named_events[i].name, *mark.event_s[i]);
        }
        if (mark.kind) fmt::print(" {}", kind_name(*mark.kind));
        if (mark.marked_as == MarkedAs::not_a_swing) fmt::print(" not a swing");
        fmt::print("\n");
    }
}

/// Marked events follow each other in the order of a swing.
Outcome check_order(const CoachMark& mark) {
    double last_s = 0.0;
    const char* last = nullptr;
    for (std::size_t i = 0; i < named_events.size(); ++i) {
        if (!mark.event_s[i]) continue;
        if (last != nullptr && *mark.event_s[i] < last_s) {
            return wrong(fmt::format("{} cannot come before {}, which is marked at {:.3f} s",
                                     named_events[i].name, last, last_s),
                         "mark another instant, or remove the other mark first");
        }
        last = named_events[i].name;
        last_s = *mark.event_s[i];
    }
    return Done{};
}

Outcome change_event(const MarkOptions& options, const Swing& swing, CoachMark& mark) {
    const auto named = std::ranges::find_if(
        named_events, [&](const NamedEvent& event) { return options.event == event.name; });
    if (named == named_events.end()) {
        return wrong("\"" + options.event + "\" is no event of a swing",
                     "the events are address, takeaway, turnaround, top, impact, finish");
    }
    if (options.remove == options.at_s.has_value())
        return wrong("an event is marked with --at SECONDS or unmarked with --remove", "give one of the two");
    if (options.at_s && (*options.at_s < swing.from_s - 1.0 || *options.at_s > swing.to_s + 1.0)) {
        return wrong(fmt::format("{:.3f} s is not within swing {}, which lasts from {:.2f} to {:.2f} s",
                                 *options.at_s, swing.index, swing.from_s, swing.to_s),
                     "times are seconds from the first frame");
    }
    mark.event_s[static_cast<std::size_t>(named - named_events.begin())] = options.at_s;
    return check_order(mark);
}

Outcome change(const MarkOptions& options, const Swing& swing, CoachMark& mark) {
    if (!options.kind.empty()) {
        if (options.kind != "shot" && options.kind != "practice")
            return wrong("\"" + options.kind + "\" is no kind of swing", "say shot or practice");
        mark.kind = options.kind == "shot" ? SwingKind::shot : SwingKind::practice;
    }
    if (options.not_a_swing) mark.marked_as = MarkedAs::not_a_swing;
    if (!options.event.empty()) return change_event(options, swing, mark);
    if (options.at_s) return wrong("--at needs the event that it is the time of", "add --event NAME");
    if (options.remove) {
        CoachMark none;
        none.near_s = mark.near_s;
        mark = none;
    }
    return Done{};
}

Outcome mark(const MarkOptions& options) {
    Result<CoachMarks> read = read_marks(options.file);
    if (!read) return read.problem();
    CoachMarks& marks = read.value();
    const bool asks = !options.event.empty() || options.at_s || !options.kind.empty() ||
                      options.not_a_swing || options.remove;
    if (!asks) {
        print_marks(marks);
        return Done{};
    }
    if (options.swing == 0)
        return wrong("it is not said which swing to mark", "add --swing N, the number in footing analyse");
    AnalysisRequest unmarked;
    unmarked.marks = MarksAre::left_out;
    const auto lesson = analyse_recording(options.file, unmarked);
    if (!lesson) return lesson.problem();
    const auto& swings = lesson.value().swings;
    const auto swing = std::ranges::find_if(swings, [&](const Swing& s) { return s.index == options.swing; });
    if (swing == swings.end() || !swing->events.impact) {
        return wrong(fmt::format("there is no swing {}; {} {} found", options.swing, swings.size(),
                                 swings.size() == 1 ? "was" : "were"),
                     "footing analyse " + options.file + " lists them");
    }
    const double impact_s = swing->events.impact->time_s;
    const CoachMark* earlier = mark_near(marks, impact_s);
    CoachMark changed;
    changed.near_s = impact_s;
    if (earlier != nullptr) changed = *earlier;
    if (Outcome done = change(options, *swing, changed); !done) return done;
    std::erase_if(marks.swings, [&](const CoachMark& one) { return one.near_s == changed.near_s; });
    if (!changed.empty()) marks.swings.push_back(changed);
    std::ranges::sort(marks.swings, {}, &CoachMark::near_s);
    if (Outcome written = write_marks(options.file, marks); !written) return written;
    print_marks(marks);
    return Done{};
}

}  // namespace

void add_mark(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<MarkOptions>();
    Arguments* verb = program.add_subcommand(
        "mark", "say of a swing what you know better than the program; without more, list what is marked");
    verb->add_option("FILE", options->file, "a recording (.h5); it is not changed")->required();
    verb->add_option("--swing", options->swing, "its number in footing analyse");
    verb->add_option("--event", options->event, "address, takeaway, turnaround, top, impact or finish");
    verb->add_option("--at", options->at_s, "when it was, in seconds from the first frame")
        ->check(number_between(0.0, 1e7));
    verb->add_option("--kind", options->kind, "shot or practice");
    verb->add_flag("--not-a-swing", options->not_a_swing, "leave it out from now on");
    verb->add_flag("--remove", options->remove, "take back the mark of --event, or all marks of the swing");
    verb->callback([options, &outcome] {
        if (const Outcome done = mark(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
