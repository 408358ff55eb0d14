#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <string>

#include "acquisition/frame/count_words.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/marks_file.h"

namespace footing {

namespace {

struct MarkOptions {
    std::string file;
    std::optional<std::size_t> swing;
    std::string event;
    std::optional<double> at_s;
    std::optional<double> by_s;
    std::string kind;
    std::string trigger;
    bool not_a_swing = false;
    bool remove = false;
    std::string hand;
};

Problem wrong(const std::string& what, const std::string& remedy) {
    return {ProblemKind::command_line, "", what, remedy};
}

void print_marks(const CoachMarks& marks) {
    if (marks.empty()) say_line("nothing is marked");
    if (marks.trigger == TriggerTrust::never_misses)
        say_line("the trigger never misses: a swing in which it is silent is practice");
    for (const CoachMark& mark : marks.swings) {
        std::string words = fmt::format("swing near {:.2f} s:", mark.near_s);
        for (std::size_t i = 0; i < named_events.size(); ++i) {
            if (mark.event_s[i])
                words += fmt::format(" {} at {:.3f} s", named_events[i].name, *mark.event_s[i]);
        }
        if (mark.kind) words.append(" ").append(kind_name(*mark.kind));
        if (mark.marked_as == MarkedAs::not_a_swing) words += " not a swing";
        say_line(words);
    }
}

Problem not_marked(const MarkOptions& options, const std::string& what) {
    return {ProblemKind::bad_input, options.file, what, "footing mark " + options.file + " lists the marks"};
}

/// When the coach says the event was: so many seconds from the first frame, or from where it was found.
Result<std::optional<double>> said_time(const MarkOptions& options, const Swing& swing,
                                        const NamedEvent& named) {
    const int said = (options.at_s ? 1 : 0) + (options.by_s ? 1 : 0) + (options.remove ? 1 : 0);
    if (said != 1) {
        return wrong("an event is marked with --at SECONDS or --by SECONDS, or unmarked with --remove",
                     "give one of the three");
    }
    if (!options.by_s) return options.at_s;
    const auto& found = swing.events.*named.member;
    if (!found) {
        return wrong(fmt::format("{} of swing {} was not found, so it cannot be moved by anything",
                                 named.name, swing.index),
                     "say when it was with --at, in seconds from the first frame");
    }
    return std::optional(found->time_s + *options.by_s);
}

/// `lasts_s`: the recording.
Outcome change_event(const MarkOptions& options, const Swing& swing, double lasts_s, CoachMark& mark) {
    const auto named = std::ranges::find_if(
        named_events, [&](const NamedEvent& event) { return options.event == event.name; });
    if (named == named_events.end()) {
        return wrong("\"" + options.event + "\" is no event of a swing",
                     "the events are address, takeaway, turnaround, top, impact, finish");
    }
    const Result<std::optional<double>> said = said_time(options, swing, *named);
    if (!said) return said.problem();
    const std::optional<double>& at_s = said.value();
    if (at_s && (*at_s < swing.from_s - 1.0 || *at_s > swing.to_s + 1.0)) {
        return wrong(fmt::format("{:.3f} s is not within swing {}, which lasts from {:.2f} to {:.2f} s",
                                 *at_s, swing.index, swing.from_s, swing.to_s),
                     "times are seconds from the first frame");
    }
    if (at_s && (*at_s < 0.0 || *at_s > lasts_s)) {
        return wrong(fmt::format("{:.3f} s is not within the recording, which lasts from 0 to {:.3f} s",
                                 *at_s, lasts_s),
                     "times are seconds from the first frame");
    }
    std::optional<double>& marked_s = mark.event_s[static_cast<std::size_t>(named - named_events.begin())];
    if (options.remove && !marked_s)
        return not_marked(options, fmt::format("{} of swing {} is not marked", named->name, swing.index));
    marked_s = at_s;
    if (const auto pair = out_of_order(mark))
        return wrong(order_words(mark, *pair), "mark another instant, or remove the other mark first");
    return Done{};
}

Outcome change(const MarkOptions& options, const Swing& swing, double lasts_s, CoachMark& mark) {
    if (!options.kind.empty()) {
        if (options.kind != "shot" && options.kind != "practice")
            return wrong("\"" + options.kind + "\" is no kind of swing", "say shot or practice");
        mark.kind = options.kind == "shot" ? SwingKind::shot : SwingKind::practice;
    }
    if (options.not_a_swing) mark.marked_as = MarkedAs::not_a_swing;
    if (!options.event.empty()) return change_event(options, swing, lasts_s, mark);
    const bool says_something = !options.kind.empty() || options.not_a_swing || options.remove;
    const bool says_when = options.at_s || options.by_s;
    if (!says_something && !says_when)
        return wrong("it is not said what is known of the swing",
                     "add --event and --at or --by, --kind, --not-a-swing or --remove");
    if (says_when)
        return wrong(std::string(options.at_s ? "--at" : "--by") + " needs the event that it is the time of",
                     "add --event NAME");
    if (options.remove) {
        if (mark.empty()) return not_marked(options, fmt::format("swing {} is not marked", swing.index));
        CoachMark none;
        none.near_s = mark.near_s;
        mark = none;
    }
    return Done{};
}

Outcome list(const std::string& file) {
    const Result<std::string> recording = recording_uuid(file);
    if (!recording) return recording.problem();
    const Result<CoachMarks> marks = read_marks(file);
    if (!marks) return marks.problem();
    print_marks(marks.value());
    return Done{};
}

/// What the coach knows of the trigger is of the whole recording.
Outcome mark_trigger(const MarkOptions& options) {
    if (options.trigger != "never-misses" && options.trigger != "may-miss")
        return wrong("\"" + options.trigger + "\" is nothing that a trigger does",
                     "say never-misses or may-miss");
    Result<CoachMarks> read = read_marks(options.file);
    if (!read) return read.problem();
    CoachMarks& marks = read.value();
    marks.trigger = options.trigger == "may-miss" ? TriggerTrust::may_miss : TriggerTrust::never_misses;
    if (Outcome written = write_marks(options.file, marks); !written) return written;
    print_marks(marks);
    return Done{};
}

Outcome mark(const MarkOptions& options) {
    const bool asks = options.swing || !options.event.empty() || options.at_s || options.by_s ||
                      !options.kind.empty() || options.not_a_swing || options.remove;
    if (!options.trigger.empty()) {
        if (asks) return wrong("--trigger is said of the whole recording", "say it by itself");
        return mark_trigger(options);
    }
    if (!asks) return list(options.file);
    if (!options.swing)
        return wrong("it is not said which swing to mark", "add --swing N, the number in footing analyse");
    AnalysisRequest unmarked;
    unmarked.marks = MarksAre::left_out;
    unmarked.hand = parse_hand(options.hand);
    const auto lesson = analyse_recording(options.file, unmarked);
    if (!lesson) return lesson.problem();
    Result<CoachMarks> read = read_marks(options.file);
    if (!read) return read.problem();
    CoachMarks& marks = read.value();
    const auto& swings = lesson.value().swings;
    const auto swing =
        std::ranges::find_if(swings, [&](const Swing& s) { return s.index == *options.swing; });
    const std::string remedy = "footing analyse " + options.file + " lists them";
    if (swing == swings.end()) {
        return wrong(fmt::format("there is no swing {}; {} found", *options.swing,
                                 count_words(swings.size(), "was", "were")),
                     remedy);
    }
    if (!swing->events.impact) {
        return wrong(fmt::format("swing {} has no impact, by which its marks would be kept", *options.swing),
                     "mark a swing with an impact; " + remedy);
    }
    const double impact_s = swing->events.impact->time_s;
    const CoachMark* earlier = mark_near(marks, impact_s);
    CoachMark changed;
    changed.near_s = impact_s;
    if (earlier != nullptr) changed = *earlier;
    const double lasts_s = lesson.value().trace.time_s.back();
    if (Outcome done = change(options, *swing, lasts_s, changed); !done) return done;
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
    verb->add_option("--swing", options->swing, "its number, as footing analyse lists it")
        ->check(number_between(1.0, 1e6));
    verb->add_option("--event", options->event, "address, takeaway, turnaround, top, impact or finish");
    verb->add_option("--at", options->at_s, "when it was, in seconds from the first frame")
        ->check(number_between(0.0, 1e7));
    verb->add_option("--by", options->by_s,
                     "by how many seconds it was later than it was found; earlier with a minus")
        ->check(number_between(-10.0, 10.0));
    Argument* kind = verb->add_option("--kind", options->kind, "shot or practice");
    verb->add_option("--trigger", options->trigger,
                     "never-misses: a swing in which it is silent is practice; may-miss takes that back");
    Argument* none = verb->add_flag("--not-a-swing", options->not_a_swing, "leave it out from now on");
    none->excludes(kind);
    verb->add_flag("--remove", options->remove, "take back the mark of --event, or all marks of the swing")
        ->excludes(kind)
        ->excludes(none);
    add_hand_option(*verb, options->hand,
                    "count the swings of a golfer who plays this way, whatever the recording says");
    verb->callback([options, &outcome] {
        if (const Outcome done = mark(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
