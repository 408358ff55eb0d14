// A season of lessons: 20 students, 30 lessons each, 60 swings a lesson, in one book; and, through the whole
// way from a simulated golfer's frames, some of its lessons as recordings. Prints how long lists, chart,
// progress and the student's reports take.
//   season_bench [short] [--recordings N] [--keep FOLDER]
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <random>
#include <string>
#include <string_view>

#include "acquisition/device/emulated_device.h"
#include "acquisition/record/recording_writer.h"
#include "analysis/report/canvas.h"
#include "analysis/report/progress_figure.h"
#include "analysis/report/student_html.h"
#include "analysis/report/student_pdf.h"
#include "tests/support/child_process.h"
#include "viewer/book/student_progress.h"
#include "viewer/lesson/gather_student_report.h"
#include "viewer/lesson/lesson_into_book.h"

using namespace footing;

namespace {

struct Season {
    int students = 20;
    int lessons = 30;
    int swings = 60;
    int recordings = 4;
};

template <typename T>
T need(Result<T> result) {
    if (!result) {
        fmt::print(stderr, "season_bench: {}\n", sentence(result.problem()));
        std::exit(1);
    }
    return std::move(result).value();
}

template <typename Work>
double milliseconds(Work work) {
    const auto begin = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count();
}

/// The slowest of five.
template <typename Work>
void tell_time(const std::string& what, double aim_ms, Work work) {
    double slowest = 0.0;
    for (int i = 0; i < 5; ++i) slowest = std::max(slowest, milliseconds(work));
    fmt::print("{:34} {:8.1f} ms   (aim {:.0f} ms)\n", what, slowest, aim_ms);
}

/// A swing of a student whose weight drifts into the band over the season, and whose carry and strike suffer
/// where it is not.
BookSwing season_swing(std::mt19937& random, const Season& season, int lesson, int number) {
    std::normal_distribution<double> one(0.0, 1.0);
    const double along = static_cast<double>(lesson) / std::max(1, season.lessons - 1);
    BookSwing swing;
    swing.origin = SwingOrigin::recording;
    swing.found_kind = number % 3 == 2 ? SwingKind::practice : SwingKind::shot;
    swing.from_s = 20.0 * number + 1.0;
    swing.to_s = *swing.from_s + 5.0;
    swing.strike_s = *swing.from_s + 3.0;
    const double off = 0.03 * one(random);
    swing.address_share = std::clamp(0.66 + 0.09 * along + off, 0.3, 0.98);
    swing.address_u = 0.006;
    swing.lowest_share = std::clamp(*swing.address_share - 0.08 + 0.02 * one(random), 0.1, 0.98);
    swing.lowest_u = 0.006;
    swing.impact_share = std::clamp(*swing.address_share + 0.1 + 0.02 * one(random), 0.1, 0.99);
    swing.impact_u = 0.008;
    swing.backswing_s = 0.75 + 0.03 * one(random);
    swing.downswing_s = 0.26 + 0.01 * one(random);
    swing.below_floor_s = std::max(0.0, 0.30 - 0.2 * along + 0.08 * one(random));
    if (swing.found_kind == SwingKind::practice) return swing;
    swing.rhythm_percent = std::clamp(80.0 + 8.0 * one(random), 0.0, 100.0);
    const int wedge = number % 3 == 0 ? 0 : number % 2 == 0 ? 1 : 2;
    swing.wedge = wedge;  // a place, made a number below
    swing.length = swing_lengths[static_cast<std::size_t>(number / 3 % 3)];
    const double mean_m = 40.0 + 8.0 * wedge + 15.0 * (number / 3 % 3);
    const bool is_poor = *swing.address_share < 0.68 && one(random) > 0.0;
    swing.shot = Shot{std::max(1.0, mean_m + 40.0 * off + 0.06 * mean_m * one(random) * (1.2 - 0.4 * along)),
                      2.0 * one(random), is_poor ? Strike::ground_first : Strike::ball_first};
    return swing;
}

void fill(Book& book, const Season& season) {
    std::mt19937 random(1);
    for (int s = 0; s < season.students; ++s) {
        Student student;
        student.name = fmt::format("Student {}", s + 1);
        const auto id = need(book.add_student(student, Namesakes::refused));
        std::vector<std::int64_t> wedges;
        for (const double loft : {60.0, 56.0, 52.0})
            wedges.push_back(need(book.add_wedge({0, id, fmt::format("{:.0f}", loft), loft, Bag::in})));
        for (int l = 0; l < season.lessons; ++l) {
            need(book.in_transaction([&]() -> Outcome {
                Lesson lesson;
                lesson.student = id;
                lesson.date = date_of_day(20454 + 7 * l);
                const auto number = need(book.add_lesson(lesson));
                for (int i = 0; i < season.swings; ++i) {
                    BookSwing swing = season_swing(random, season, l, i);
                    swing.lesson = number;
                    if (swing.wedge) swing.wedge = wedges[static_cast<std::size_t>(*swing.wedge)];
                    need(book.add_swing(swing));
                }
                return Done{};
            }));
        }
    }
}

/// One lesson of a simulated student, as a recording on the disk.
std::filesystem::path record(const std::filesystem::path& folder, const Season& season, int number) {
    EmulatedDeviceSettings settings;
    settings.swings = static_cast<std::size_t>(season.swings);
    settings.seed = static_cast<std::uint64_t>(number) + 1;
    settings.golfer = random_style(static_cast<std::uint64_t>(number % season.students) + 1);
    settings.golfer.hand = Hand::right;
    EmulatedDevice device(settings);
    const auto path = folder / fmt::format("lesson_{}.h5", number + 1);
    RecordingInfo info;
    info.zone = "UTC";
    info.origin = "simulated golfer";
    info.device = device.description();
    auto writer = RecordingWriter::create(path, info);
    if (!writer) need(Result<int>(writer.problem()));
    while (const auto frame = device.next()) {
        need(writer.value().append(*frame));
        ++info.losses.frames;
    }
    need(writer.value().close(info));
    return path;
}

void measure(const std::string& path) {
    tell_time("open", 100, [&] { need(Book::open(path, OpenAs::existing)); });
    Book book = need(Book::open(path, OpenAs::existing));
    tell_time("list of students", 100, [&] { need(book.students()); });
    tell_time("search in names", 100, [&] { need(book.students("nt 17")); });
    tell_time("list of all lessons", 100, [&] { need(book.lessons(std::nullopt)); });
    tell_time("swings of a lesson", 100, [&] { need(book.swings(3)); });
    tell_time("all swings of a student", 100, [&] { need(book.swings_of_student(2)); });
    tell_time("distance chart", 200, [&] { need(distances_of(book, "student 2", {})); });
    tell_time("progress with advice", 200, [&] { need(progress_of(book, "student 2", {})); });
    tell_time("progress with its picture", 200, [&] {
        const auto progress = need(progress_of(book, "student 2", {}));
        need(png_of(progress_figure("Student 2", progress.series, progress.dates(), 736.0), Theme::print));
    });
}

/// The student's report of one recorded lesson, and of all lessons: from the book and the recording to the
/// bytes.
void measure_reports(const std::string& path, std::int64_t recorded_lesson) {
    Book book = need(Book::open(path, OpenAs::existing));
    const auto tell = [&](const std::string& what, const StudentReportRequest& request, double aim_ms) {
        std::string bytes;
        for (const char* form : {"PDF", "HTML"}) {
            tell_time(what + ", " + form, aim_ms, [&] {
                const StudentReport report = need(gather_student_report(book, request));
                bytes = form[0] == 'P' ? need(student_pdf(report)) : student_html(report);
            });
            fmt::print("{:34} {:8.0f} kB\n", "", static_cast<double>(bytes.size()) / 1e3);
        }
    };
    StudentReportRequest request;
    request.student = "student 1";
    request.lesson = recorded_lesson;
    tell("report of a lesson", request, 2000);
    request.lesson.reset();
    request.from = "1970-01-01";
    tell("report of a season", request, 5000);
}

}  // namespace

int main(int count, char** words) {
    Season season;
    std::string keep;
    for (int i = 1; i < count; ++i) {
        const std::string_view word = words[i];
        if (word == "short") season = {2, 12, 12, 1};
        if (word == "--recordings" && i + 1 < count) season.recordings = std::atoi(words[++i]);
        if (word == "--keep" && i + 1 < count) keep = words[++i];
    }
    const test::ScratchFolder scratch;
    const std::filesystem::path folder = keep.empty() ? scratch.path() : keep;
    std::filesystem::create_directories(folder);
    const std::string path = folder / "season.book";
    std::int64_t recorded_lesson = 0;
    {
        Book book = need(Book::open(path, OpenAs::create_if_absent));
        const double fill_ms = milliseconds([&] { fill(book, season); });
        fmt::print("{} students, {} lessons, {} swings written in {:.1f} s, a transaction a lesson\n",
                   season.students, season.students * season.lessons,
                   season.students * season.lessons * season.swings, fill_ms / 1000.0);
        double record_ms = 0.0;
        double analyse_ms = 0.0;
        for (int i = 0; i < season.recordings; ++i) {
            std::filesystem::path recording;
            record_ms += milliseconds([&] { recording = record(folder, season, i); });
            Lesson lesson;
            lesson.student = 1;  // a report of theirs lays the newest of them side by side
            analyse_ms += milliseconds([&] {
                const auto id = need(put_lesson_into_book(book, lesson, recording));
                recorded_lesson = id;
            });
        }
        if (season.recordings > 0) {
            fmt::print(
                "{} lessons of {} swings recorded, {:.1f} s each, and analysed into the book, {:.1f} s "
                "each\n",
                season.recordings, season.swings, record_ms / season.recordings / 1000.0,
                analyse_ms / season.recordings / 1000.0);
        }
    }
    fmt::print("book of {:.1f} MB\n", static_cast<double>(std::filesystem::file_size(path)) / 1e6);
    measure(path);
    if (recorded_lesson > 0) measure_reports(path, recorded_lesson);
    return 0;
}
