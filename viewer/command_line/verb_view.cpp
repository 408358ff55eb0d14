#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "analysis/report/figure_scale.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/checks.h"
#include "viewer/command_line/reading_option.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/terminal_table.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/window_option.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/panels/keys.h"
#include "viewer/panels/view_action.h"
#include "viewer/window/off_screen.h"
#include "viewer/window/window.h"

namespace footing {

namespace {

struct ViewOptions {
    std::string file;
    std::string screenshot;
    std::string size = "1280x720";
    WindowOptions look;
    ReadingOptions reading;
    std::string student;
    std::optional<std::size_t> swing;
    std::optional<std::size_t> compare;
    std::optional<double> at_s;
    bool help_keys = false;
    bool numbers = false;
};

/// "1920x1080"; nothing when it is not two whole numbers.
std::optional<PixelSize> parse_size(const std::string& text) {
    PixelSize size;
    const char* end = text.data() + text.size();
    const auto [cross, first] = std::from_chars(text.data(), end, size.width);
    if (first != std::errc() || cross == end || *cross != 'x') return std::nullopt;
    const auto [rest, second] = std::from_chars(cross + 1, end, size.height);
    if (second != std::errc() || rest != end) return std::nullopt;
    return size;
}

/// Place of the swing that people call `number`; fails when there is no such swing.
Result<std::size_t> place_of(const LessonResult& lesson, std::size_t number, const std::string& option) {
    const auto found = std::find_if(lesson.swings.begin(), lesson.swings.end(),
                                    [&](const Swing& swing) { return swing.index == number; });
    if (found != lesson.swings.end()) return static_cast<std::size_t>(found - lesson.swings.begin());
    const std::string have = lesson.swings.empty()
                                 ? "no swing was found in this recording"
                                 : "the recording has swings 1 to " + std::to_string(lesson.swings.size());
    return Problem{ProblemKind::command_line, option, "there is no swing " + std::to_string(number), have};
}

/// What the words on the command line ask to see of a lesson.
Result<ViewState> arrange(const ViewOptions& options, ViewState state) {
    const auto carry = [&](const ViewAction& action) { state = carry_out(std::move(state), action); };
    if (options.compare) {
        const auto place = place_of(*state.lesson, *options.compare, "--compare");
        if (!place) return place.problem();
        carry(CompareSwing{place.value()});
    }
    if (options.swing) {
        const auto place = place_of(*state.lesson, *options.swing, "--swing");
        if (!place) return place.problem();
        carry(ChooseSwing{place.value()});
    }
    if (options.at_s) {
        const Swing* swing = chosen_swing(state);
        carry(MoveHead{*options.at_s + (swing ? zero_of(*swing) : 0.0)});
    }
    return state;
}

/// A picture called .jpg that holds a PNG would open nowhere.
Outcome check_picture_name(const std::string& name) {
    std::string ending = std::filesystem::path(name).extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (ending.empty() || ending == ".png") return Done{};
    return Problem{ProblemKind::command_line, "--screenshot",
                   "\"" + name + "\" is not a name for a PNG picture", "let it end in .png"};
}

Outcome draw_screenshot(const ViewOptions& options, ViewState state, const AnalysisRequest& request) {
    if (Outcome name = check_picture_name(options.screenshot); !name) return name;
    const auto size = parse_size(options.size);
    if (!size) {
        return Problem{ProblemKind::command_line, "--size", "\"" + options.size + "\" is not a size",
                       "give width x height in pixels, for example 1920x1080"};
    }
    if (!options.file.empty()) {
        auto lesson = analyse_recording(options.file, request);
        if (!lesson) return lesson.problem();
        state =
            show_lesson(std::make_shared<const LessonResult>(std::move(lesson).value()), std::move(state));
        auto arranged = arrange(options, std::move(state));
        if (!arranged) return arranged.problem();
        state = std::move(arranged).value();
    }
    const auto picture = draw_off_screen(state, *size);
    if (!picture) return picture.problem();
    return write_png(picture.value(), options.screenshot);
}

Outcome view(const ViewOptions& options) {
    const auto asked = options.reading.request(options.student);
    if (!asked) return asked.problem();
    const AnalysisRequest& request = asked.value();
    if (options.help_keys && options.screenshot.empty()) {
        for (const KeySection& section : keys_by_screen()) {
            std::vector<std::vector<std::string>> rows;
            for (const KeyLine& line : section.lines) rows.push_back({line.keys, line.meaning});
            say_text(
                fmt::format("{}\n{}\n", section.screen, terminal_table({{"key"}, {"what it does"}}, rows)));
        }
        return Done{};
    }
    ViewState state;
    const bool pictured = !options.screenshot.empty();  // a picture does not hang on who made the last one
    const WindowMemory memory =
        as_said(pictured ? WindowMemory{} : read_window_memory(usual_window_memory()), options.look);
    state = with_memory(std::move(state), memory);
    if (options.help_keys) state.overlay = Overlay::keys;
    if (options.numbers) state.overlay = Overlay::numbers;
    if (pictured) return draw_screenshot(options, std::move(state), request);
    state.opening = options.file;
    LessonWork work;
    work.size = memory.size;
    work.left = keeping_memory();
    return run_window(
        std::move(state),
        [request](const std::string& path, WorkWatch& watch) {
            AnalysisRequest watched = request;
            watched.watch = &watch;
            return analyse_recording(path, watched);
        },
        [options](ViewState opened) {
            auto arranged = arrange(options, opened);
            if (arranged) return std::move(arranged).value();
            opened.problem = arranged.problem();
            return opened;
        },
        std::move(work));
}

}  // namespace

void add_view(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<ViewOptions>();
    Arguments* verb =
        program.add_subcommand("view", "look at a recording in a window, or draw that window into a picture");
    verb->add_option("FILE", options->file,
                     "a recording (.h5); others, tables (CSV) and C3D files can be "
                     "dropped onto the window");
    verb->add_option("--screenshot", options->screenshot,
                     "draw the window into this PNG instead; needs no display");
    verb->add_option("--size", options->size, "of the screenshot, in pixels")->capture_default_str();
    verb->add_option("--swing", options->swing, "show this swing, by its number")
        ->check(number_between(1.0, 1e6));
    verb->add_option("--compare", options->compare, "beside it this swing, by its number")
        ->check(number_between(1.0, 1e6));
    verb->add_flag("--numbers", options->numbers, "show all numbers of the swing, as the key N does");
    verb->add_option("--at", options->at_s, "head at this time, in seconds from impact");
    add_window_options(*verb, options->look);
    add_reading_options(*verb, options->reading);
    verb->add_option("--student", options->student, "the name to show");
    verb->add_flag("--help-keys", options->help_keys, "list the keys here, or in the screenshot");
    verb->callback([options, &outcome] {
        if (const Outcome done = view(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
