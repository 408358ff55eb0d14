#include <cstdio>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "analysis/report/lesson_comparison.h"
#include "analysis/report/set_figure.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/picture_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/write_text.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/marks_file.h"

namespace footing {

namespace {

constexpr double picture_width_px = 736.0;
constexpr double picture_height_px = 660.0;

struct CompareOptions {
    std::vector<std::string> files;
    std::string json;
    std::string kind = "counted";
    std::string picture;
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
    return check_picture_name(options.picture);
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

Outcome compare(const CompareOptions& options) {
    if (Outcome sound = check(options); !sound) return sound;
    const auto band = parse_band(options.band);
    if (!band) return band.problem();
    if (Outcome apart = check_apart(options.files); !apart) return apart;
    LessonChoice choice(kind_of(options.kind));
    std::optional<LessonResult> last;
    for (const std::string& file : options.files) {
        last.reset();
        auto result = analyse_recording(file, {band.value(), parse_hand(options.hand), ""});
        if (!result) return result.problem();
        last = std::move(result).value();
        choice.add(*last);
    }
    const std::vector<ComparedLesson>& lessons = choice.lessons();
    if (!options.picture.empty()) {
        if (Outcome drawn = draw(options, *last, lessons.back().set); !drawn) return drawn;
    }
    const Pairing pairing = options.same_swings ? Pairing::same_swings : Pairing::lessons;
    if (options.json != "-") std::fputs(comparison_table(lessons, pairing).c_str(), stdout);
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
                     "draw the swings of the last file laid over each other into this file (.svg or .png)")
        ->check(file_name());
    verb->add_option("--json", options->json,
                     "write the numbers as JSON to this file; - writes only JSON to standard output");
    verb->add_option("--band", options->band, "lead share to aim at, in per cent")->capture_default_str();
    add_hand_option(*verb, options->hand, "play as this hand, whatever the recordings say");
    verb->callback([options, &outcome] {
        if (const Outcome done = compare(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
