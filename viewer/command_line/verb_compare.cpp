#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "analysis/report/aligned_figure.h"
#include "analysis/report/lesson_comparison.h"
#include "analysis/report/set_figure.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/picture_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/marks_file.h"

namespace footing {

namespace {

constexpr double picture_height_px = 660.0;
constexpr std::size_t fewest_pairs = 2;  // for limits of agreement

struct CompareOptions {
    std::vector<std::string> files;
    std::string json;
    std::string kind = "counted";
    std::string picture;
    std::string align;
    std::string band = "70:80";
    std::string hand;
    bool same_swings = false;
};

SetKind kind_of(const std::string& word) {
    if (word == "shots") return SetKind::shots;
    if (word == "practice") return SetKind::practice;
    return word == "all" ? SetKind::all : SetKind::counted;
}

Outcome check(const CompareOptions& options) {
    if (options.same_swings && options.files.size() != 2) {
        return Problem{ProblemKind::command_line, "--same-swings",
                       "swings can be paired between two files only",
                       "name two recordings of the same swings"};
    }
    if (!options.align.empty() && options.picture.empty()) {
        return Problem{ProblemKind::command_line, "--align " + options.align, "without a picture to draw",
                       "name one with --picture"};
    }
    if (!options.align.empty() && options.files.size() > aligned_groups) {
        return Problem{ProblemKind::command_line, "--align " + options.align,
                       "more than two recordings cannot be told apart in one picture", "name one or two"};
    }
    return check_picture_name(options.picture);
}

AlignedOn event_called(const std::string& name) {
    for (const NamedEvent& event : named_events) {
        if (event.name == name) return event.member;
    }
    return &SwingEvents::impact;
}

/// Swings of one or two recordings on one event, as the window shows them; what it shows, in words.
Result<std::string> draw_aligned(const CompareOptions& options, const TargetBand& band,
                                 const std::vector<LessonResult>& results,
                                 const std::vector<ComparedLesson>& lessons) {
    std::vector<SwingToAlign> swings;
    AlignedNames names;
    names.event = options.align;
    for (std::size_t group = 0; group < results.size(); ++group) {
        const LessonResult& lesson = results[group];
        const std::string& started = lesson.facts.started;
        names.groups[group] = started.size() >= 10 ? started.substr(0, 10) : lesson.facts.file;
        for (const std::size_t place : lessons[group].set.places) {
            const Swing& swing = lesson.swings[place];
            swings.push_back({&lesson.trace, &swing, lesson.facts.hand, group});
            const std::string of = results.size() > 1 ? " of " + names.groups[group] : "";
            names.swings.push_back("swing " + std::to_string(swing.index) + of);
        }
    }
    const AlignedSwings aligned = align_swings(swings, event_called(options.align));
    const Figure figure = aligned_figure(aligned, names, band, picture_width_px, picture_height_px);
    if (Outcome drawn = write_picture(options.picture, figure); !drawn) return drawn.problem();
    std::string words;
    for (const std::string& sentence : aligned_words(aligned, names)) words += sentence + "\n";
    return words;
}

/// One recording compared with itself would look like a lesson that changed nothing.
Outcome check_apart(const std::vector<std::string>& files) {
    std::map<std::string, std::string> seen;  // file by UUID
    for (const std::string& file : files) {
        const Result<std::string> uuid = recording_uuid(file);
        if (!uuid) continue;  // the analysis says better what is wrong with it
        const auto [first, is_new] = seen.emplace(uuid.value(), file);
        if (is_new || uuid.value().empty()) continue;
        return Problem{ProblemKind::bad_input, file, "this is the same recording as " + first->second,
                       "compare two different recordings"};
    }
    return Done{};
}

/// Of the last lesson named, in the form that the name's suffix asks for.
Outcome draw(const CompareOptions& options, const LessonResult& lesson, const SwingSet& set) {
    if (!set.together) {
        return Problem{ProblemKind::bad_input, lesson.facts.file,
                       "fewer than three swings of this kind have a known share, so there is no picture of "
                       "them together",
                       "ask for another kind with --kind"};
    }
    return write_picture(options.picture,
                         titled_set_figure(lesson, set, picture_width_px, picture_height_px));
}

/// Swings are paired in their order, so both must hold as many.
Outcome check_paired(const ComparedLesson& first, const ComparedLesson& second) {
    const std::string both = first.file + " and " + second.file;
    const std::size_t count = first.swing_indices.size();
    if (count != second.swing_indices.size()) {
        return Problem{ProblemKind::bad_input, both,
                       "the first holds " + set_size_words(first) + ", the second " + set_size_words(second) +
                           ", so they cannot be paired",
                       "see with \"footing analyse\" which swing only one of them has and take it out with "
                       "\"footing mark\", choose others with --kind, or leave --same-swings out"};
    }
    if (count < fewest_pairs) {
        return Problem{ProblemKind::bad_input, both,
                       "each holds " + set_size_words(first) + ", and two pairs are needed",
                       "choose others with --kind, or record more swings with both devices"};
    }
    for (const auto& agreement : swing_agreements(first, second)) {
        if (agreement) return Done{};
    }
    return Problem{ProblemKind::bad_input, both,
                   "no number is known of all swings of both, so there is nothing to pair",
                   "see with \"footing analyse\" what is missing of which swing, and take such swings out of "
                   "both with \"footing mark\""};
}

Outcome compare(const CompareOptions& options) {
    if (Outcome sound = check(options); !sound) return sound;
    const auto band = parse_band(options.band);
    if (!band) return band.problem();
    if (Outcome apart = check_apart(options.files); !apart) return apart;
    LessonsToCompare choice(kind_of(options.kind));
    std::vector<LessonResult> kept;  // the last one, or all that a picture is drawn of
    for (const std::string& file : options.files) {
        if (options.align.empty()) kept.clear();
        auto result = analyse_recording(file, {band.value(), parse_hand(options.hand), ""});
        if (!result) return result.problem();
        kept.push_back(std::move(result).value());
        choice.add(kept.back());
    }
    const std::vector<ComparedLesson>& lessons = choice.lessons();
    if (options.same_swings) {
        if (Outcome paired = check_paired(lessons[0], lessons[1]); !paired) return paired;
    }
    std::string aligned;
    if (!options.align.empty()) {
        auto words = draw_aligned(options, band.value(), kept, lessons);
        if (!words) return words.problem();
        aligned = std::move(words).value();
    } else if (!options.picture.empty()) {
        if (Outcome drawn = draw(options, kept.back(), lessons.back().set); !drawn) return drawn;
    }
    const Pairing pairing = options.same_swings ? Pairing::same_swings : Pairing::lessons;
    if (options.json != "-") say_text(comparison_table(lessons, pairing, terminal_columns()) + aligned);
    if (options.json.empty()) return Done{};
    return write_text(options.json, comparison_json(lessons, pairing) + "\n");
}

}  // namespace

void add_compare(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<CompareOptions>();
    Arguments* verb = program.add_subcommand(
        "compare", "how alike the swings of a recording are, and whether lessons differ by more than chance");
    verb->add_option("FILE", options->files, "recordings (.h5), in order of time")->required();
    verb->add_option(
            "--kind", options->kind,
            "which swings, of all files alike; counted: the shots, or all where one has fewer than three")
        ->check(one_of({"counted", "shots", "practice", "all"}))
        ->capture_default_str();
    verb->add_flag("--same-swings", options->same_swings,
                   "the two files hold the same swings, seen by two devices: tell how far they agree");
    verb->add_option("--picture", options->picture,
                     "draw the swings of the last file laid over each other into this file (.svg or .png)");
    verb->add_option("--align", options->align,
                     "in the picture align the swings of one or two files on this event and stretch nothing")
        ->check(one_of({"address", "takeaway", "turnaround", "top", "impact", "finish"}));
    verb->add_option("--json", options->json,
                     "write the numbers as JSON to this file; - writes only JSON to standard output");
    verb->add_option("--band", options->band, "lead share to aim at, in per cent")->capture_default_str();
    add_hand_option(*verb, options->hand, "take the golfer as playing this way, whatever the recordings say");
    verb->callback([options, &outcome] {
        if (const Outcome done = compare(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
