#include <fmt/format.h>

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <system_error>
#include <utility>
#include <vector>

#include "acquisition/calibrate/calibration.h"
#include "acquisition/device/emulated_source.h"
#include "acquisition/frame/units.h"
#include "viewer/book/book.h"
#include "viewer/book/book_place.h"
#include "viewer/calibration/calibration_shelf.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/calibration_option.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/interruption.h"
#include "viewer/command_line/live_line.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/command_line/window_option.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/lesson_folder.h"
#include "viewer/lesson/lesson_run.h"
#include "viewer/lesson/live_lesson_in_book.h"
#include "viewer/lesson/paced_source.h"
#include "viewer/window/window.h"

namespace footing {

namespace {

struct LessonOptions {
    LiveLinesOptions lines;
    std::string book;
    std::string out;
    std::vector<std::string> calibrations;
    std::string student;
    std::string hand = "right";
    std::string band = "70:80";
    WindowOptions look;
    std::vector<std::string> wedges;
    bool yards = false;
};

/// Where plates on the network are listened for unless said otherwise.
constexpr const char* usual_network = "0.0.0.0:9750";

/// The simulated golfer hands over so much at a time.
constexpr std::chrono::milliseconds simulated_step{20};
constexpr std::size_t swings_of_demo = 400;  // more than an hour

std::unique_ptr<FrameSource> simulated_golfer(Hand hand, const Clock& clock) {
    EmulatedDeviceSettings settings;
    settings.golfer.hand = hand;
    settings.swings = swings_of_demo;
    settings.trigger = EmulatedDeviceSettings::Trigger::absent;
    const double step_s = std::chrono::duration<double>(simulated_step).count();
    return std::make_unique<PacedSource>(std::make_unique<EmulatedSource>(settings, step_s), simulated_step,
                                         clock);
}

/// The layout that the command line gives for a line, which may have been chosen again in the window.
std::string layout_of(const LessonOptions& options, const PlatesChoice& plates) {
    const LiveLinesOptions& lines = options.lines;
    for (std::size_t i = 0; i < lines.layouts.size(); ++i) {
        const bool udp = i < lines.udp.size();
        const std::string& line = udp ? lines.udp[i] : lines.serial[i - lines.udp.size()];
        const auto kind = udp ? PlatesChoice::Kind::network : PlatesChoice::Kind::serial;
        if (plates.kind == kind && plates.address == line) return lines.layouts[i];
    }
    return "";
}

Result<std::vector<std::unique_ptr<FrameSource>>> sources_of(const LessonOptions& options,
                                                             const std::vector<PlatesChoice>& plates,
                                                             Hand hand, const Clock& clock) {
    std::vector<std::unique_ptr<FrameSource>> sources;
    for (const PlatesChoice& one : plates) {
        if (one.kind == PlatesChoice::Kind::simulated) {
            sources.push_back(simulated_golfer(hand, clock));
            continue;
        }
        LiveLineOptions line;
        (one.kind == PlatesChoice::Kind::network ? line.udp : line.serial) = one.address;
        line.layout = layout_of(options, one);
        line.wait_s = options.lines.wait_s;
        Result<std::unique_ptr<FrameSource>> source = make_live_source(line, clock);
        if (!source) return source.problem();
        sources.push_back(std::move(source).value());
    }
    return sources;
}

Result<std::unique_ptr<LessonRun>> begin_lesson(const LessonOptions& options,
                                                const std::vector<std::string>& calibrations,
                                                const CalibrationShelf& shelf, const TargetBand& band,
                                                const LessonChoice& choice, const Clock& clock,
                                                std::function<void()> changed) {
    LessonPlan plan;
    plan.band = band;
    plan.hand = choice.student ? choice.student->hand : parse_hand(options.hand).value_or(Hand::right);
    plan.student = choice.student ? choice.student->name : "";
    if (choice.student && choice.student->weight_kg)
        plan.weight_n = *choice.student->weight_kg * standard_gravity_m_s2;
    plan.calibrations = calibrations;
    plan.kept_calibration = [shelf](const DeviceDescription& device) { return shelf.newest(device); };
    plan.out = options.out;
    std::error_code ignored;
    if (options.out.empty() ||
        std::filesystem::exists(plan.out, ignored)) {  // the next lesson in this window
        Result<std::filesystem::path> file = new_lesson_file(clock);
        if (!file) return file.problem();
        plan.out = std::move(file).value();
    }
    plan.make_sources = [options, plates = choice.plates, hand = plan.hand, &clock] {
        return sources_of(options, plates, hand, clock);
    };
    return std::make_unique<LessonRun>(std::move(plan), clock, std::move(changed));
}

/// The plates of the command line, else those that would be on the network.
std::vector<PlatesChoice> plates_of(const LessonOptions& options) {
    using Kind = PlatesChoice::Kind;
    std::vector<PlatesChoice> plates;
    const auto on_network = [&](const std::string& address) {
        plates.push_back({Kind::network, address, "plates on the network, UDP " + address});
    };
    for (const std::string& udp : options.lines.udp) on_network(udp);
    for (const std::string& serial : options.lines.serial)
        plates.push_back({Kind::serial, serial, "plates at " + serial});
    if (plates.empty()) on_network(usual_network);
    return plates;
}

/// What is begun at once; nothing where the coach chooses in the window.
Result<std::optional<LessonChoice>> choice_of(const LessonOptions& options,
                                              const std::filesystem::path& book) {
    if (options.student.empty()) return std::optional<LessonChoice>();
    auto opened = Book::open(book, OpenAs::create_if_absent);
    if (!opened) return opened.problem();
    auto student = opened.value().student(options.student);
    if (!student) {
        Problem unknown = student.problem();
        unknown.remedy += fmt::format("{}\"footing students add NAME{}\" puts a new one into it",
                                      unknown.remedy.empty() ? "" : "; ",
                                      options.book.empty() ? "" : " --book " + options.book);
        return unknown;
    }
    if (student.value().consent == Consent::refused) {
        return Problem{ProblemKind::command_line, "--student " + options.student,
                       "does not want to be recorded",
                       "if that has changed, \"footing students change\" with --consent yes says so"};
    }
    if (options.lines.udp.empty() && options.lines.serial.empty()) {
        return Problem{ProblemKind::command_line, "--student " + options.student,
                       "on which plates is not said",
                       "add --udp or --serial, or choose both in the window without --student"};
    }
    return std::optional(LessonChoice{std::move(student).value(), plates_of(options)});
}

Outcome lesson(const LessonOptions& options) {
    static const SystemClock clock;  // outlives the lesson's thread
    const auto band = parse_band(options.band);
    if (!band) return band.problem();
    auto calibrations = given_calibrations(options.calibrations);
    if (!calibrations) return calibrations.problem();
    calibrations.value().kept = true;  // unless a file says otherwise
    if (Outcome sound = check_live_lines(options.lines); !sound) return sound;
    if (std::error_code ignored; !options.out.empty() && std::filesystem::exists(options.out, ignored)) {
        return Problem{ProblemKind::command_line, options.out, "is there already", "name a new file"};
    }
    std::filesystem::path book = options.book;
    if (options.book.empty()) {
        Result<std::filesystem::path> usual = usual_book_place();
        if (!usual) return usual.problem();
        book = std::move(usual).value();
    }
    const CalibrationShelf shelf = shelf_beside(book);
    auto choice = choice_of(options, book);
    if (!choice) return choice.problem();

    ViewState state;
    const WindowMemory memory = as_said(read_window_memory(usual_window_memory()), options.look);
    state = with_memory(std::move(state), memory);
    if (!choice.value()) state.front = Front::book;
    heed_interruption();
    LessonWork work;
    if (!options.wedges.empty()) {
        work.desk.clubs = options.wedges;
        work.desk.clubs_from = ClubsFrom::coach;
    }
    work.desk.unit = options.yards ? DistanceUnit::yards : DistanceUnit::metres;
    work.start = [&](const LessonChoice& begun, std::function<void()> changed) {
        return begin_lesson(options, calibrations.value().texts, shelf, band.value(), begun, clock,
                            std::move(changed));
    };
    work.listen = [&](const PlatesChoice& plates) {
        PlatesPlan plan{{}, {}, shelf};
        plan.make_source = [&, plates]() -> Result<std::unique_ptr<FrameSource>> {
            auto sources =
                sources_of(options, {plates}, parse_hand(options.hand).value_or(Hand::right), clock);
            if (!sources) return sources.problem();
            return std::move(sources.value().front());
        };
        plan.calibration = [&](const DeviceDescription& device) {
            return calibrations.value().record_for(device, shelf);
        };
        return plan;
    };
    work.begin_with = std::move(choice).value();
    work.book = book;
    work.plates = plates_of(options);
    work.tell = [](const std::string& sentence) { say_line(sentence); };
    work.size = memory.size;
    work.left = keeping_memory();
    work.end_asked = &interruption();
    return run_window(
        std::move(state),
        [band = band.value(), book](const std::string& path, WorkWatch& watch) {
            AnalysisRequest request;
            request.watch = &watch;
            request.band = band;
            request.student = student_of_recording(book, path);
            return analyse_recording(path, request);
        },
        nullptr, std::move(work));
}

}  // namespace

void add_lesson(Arguments& program, VerbOutcome& outcome) {
    auto options = std::make_shared<LessonOptions>();
    Arguments* verb = program.add_subcommand(
        "lesson", "a lesson in the window: set-up live, each swing caught and replayed, all of it recorded");
    add_live_lines(*verb, options->lines, LinesAre::optional);
    verb->add_option("--book", options->book,
                     "the lesson book's file; else the one in the user's data folder");
    verb->add_option("--out", options->out,
                     "the recording to make (.h5); else a new one in the user's data folder");
    verb->add_option("--student", options->student,
                     "who is taught: name in the lesson book, or #number; else choose in the window");
    add_hand_option(*verb, options->hand, "which way the student plays; right if it is not given");
    verb->add_option("--band", options->band, "lead share to aim at, in per cent")->capture_default_str();
    verb->add_option(
        "--calibration", options->calibrations,
        "calibration record of the device (JSON); with several devices one for each, in any order");
    verb->add_option("--wedges", options->wedges, "the wedges that W goes through, divided by commas")
        ->delimiter(',');
    verb->add_flag("--yards", options->yards,
                   "carries in yards where nobody of the book is taught; else metres. A student of the book "
                   "has the unit that the book says");
    add_window_options(*verb, options->look);
    verb->callback([options, &outcome] {
        if (const Outcome done = lesson(*options); !done) complain(done.problem(), outcome);
    });
}

}  // namespace footing
