#include "viewer/lesson/gather_student_report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <utility>

#include "acquisition/record/recording_reader.h"
#include "analysis/progress/change_words.h"
#include "analysis/report/number_words.h"
#include "viewer/book/ruled_swing.h"
#include "viewer/book/simulated_lessons.h"
#include "viewer/book/student_chart.h"
#include "viewer/book/student_progress.h"
#include "viewer/lesson/analyse_recording.h"

namespace footing {

namespace {

/// Swings of the book and of a new analysis are the same where they begin within this of each other.
constexpr double same_swing_s = 1.0;

std::string consent_words(const Student& student) {
    switch (student.consent) {
        case Consent::given:
            return "yes" + (student.consent_date.empty() ? std::string() : ", " + student.consent_date);
        case Consent::refused:
            return "no" + (student.consent_date.empty() ? std::string() : ", " + student.consent_date);
        case Consent::not_asked:
            break;
    }
    return "not asked yet";
}

/// The lessons asked for, oldest first.
Result<std::vector<LessonLine>> lessons_asked(std::vector<LessonLine> newest_first,
                                              const StudentReportRequest& request, const Student& student) {
    std::vector<LessonLine> chosen;
    const bool by_dates = !request.from.empty() || !request.to.empty();
    for (LessonLine& line : newest_first) {
        const bool wanted = request.lesson ? line.lesson.id == *request.lesson
                            : by_dates     ? (request.from.empty() || line.lesson.date >= request.from) &&
                                             (request.to.empty() || line.lesson.date <= request.to)
                                       : chosen.empty();
        if (wanted) chosen.push_back(std::move(line));
    }
    if (chosen.empty()) {
        return Problem{ProblemKind::command_line, student.name,
                       request.lesson ? fmt::format("has no lesson {}", *request.lesson)
                       : by_dates     ? std::string("has no lesson in this time")
                                      : std::string("has no lesson yet"),
                       "\"footing lessons --student '" + request.student + "'\" lists them"};
    }
    std::reverse(chosen.begin(), chosen.end());
    return chosen;
}

ReportedSwing reported_swing(const BookSwing& swing, const Lesson& lesson, const std::vector<Wedge>& wedges,
                             std::size_t place, double sure) {
    ReportedSwing one;
    static_cast<RuledSwing&>(one) = ruled_swing(swing, lesson, sure);
    one.lesson = place;
    one.number = swing.number;
    one.tempo = tempo_of(swing);
    one.rhythm_percent = swing.rhythm_percent;
    one.wedge = wedge_name_of(wedges, swing);
    one.length = swing.length;
    if (swing.shot) one.carry_m = swing.shot->carry_m;
    one.coach = swing.coach;
    one.note = swing.note;
    return one;
}

/// The analysed swings under the numbers that the book has for them, with the coach's kinds, each judged
/// against the band of its length; what is not in the book is left out.
void follow_book(LessonResult& measured, const std::vector<BookSwing>& swings, const Lesson& lesson) {
    std::vector<Swing> kept;
    for (const BookSwing& known : swings) {
        if (!known.from_s) continue;
        const auto same = std::ranges::min_element(
            measured.swings, {}, [&](const Swing& swing) { return std::abs(swing.from_s - *known.from_s); });
        if (same == measured.swings.end() || std::abs(same->from_s - *known.from_s) > same_swing_s) continue;
        Swing swing = *same;
        swing.index = static_cast<std::size_t>(known.number);
        if (swing.kind != known.kind()) {
            swing.kind = known.kind();
            swing.kind_source =
                swing.kind == SwingKind::unknown ? std::nullopt : std::optional(KindSource::coach);
        }
        const TargetBand band = band_for(lesson, known.length);
        for (const NamedShare& named : named_shares) {
            if (auto& share = swing.lead_share.*named.member)
                share->verdict = judge(share->value, share->u, band, measured.sure);
        }
        kept.push_back(std::move(swing));
    }
    measured.swings = std::move(kept);
}

/// The questions that have an answer; the silent ones in one sentence.
std::vector<std::string> spoken_effects(const WeightEffects& effects, DistanceUnit unit) {
    const std::vector<std::string> all = weight_effect_words(effects, unit);
    std::vector<std::string> spoken;
    for (std::size_t i = 0; i < all.size(); ++i) {
        const Silence silence = i < effects.carry.size() ? effects.carry[i].silence : effects.strike.silence;
        if (silence == Silence::none) spoken.push_back(all[i]);
    }
    if (spoken.empty()) {
        spoken.emplace_back(
            "Whether the weight explains the miss cannot be said yet: too few shots are both measured and "
            "labelled.");
    }
    return spoken;
}

/// What the recording says of itself, without reading its frames.
std::vector<Fact> short_facts(const RecordingInfo& info) {
    const double share = 100.0 * static_cast<double>(info.losses.lost) /
                         std::max(1.0, static_cast<double>(info.losses.frames + info.losses.lost));
    return {{"Measured by", info.device.name.empty() ? info.origin : info.device.name},
            {"Loss", fmt::format("{}, {} lost ({} %)", count_words(info.losses.frames, "frame", "frames"),
                                 info.losses.lost, number_words(share, share < 1.0 ? 2 : 1))}};
}

/// How the swings ended that came into the book before it kept that, as their recording tells.
void add_finishes(StudentReport& report, std::size_t lesson, const LessonResult& measured) {
    for (ReportedSwing& one : report.swings) {
        if (one.lesson != lesson || one.came_to_rest) continue;
        const auto swing =
            std::ranges::find(measured.swings, static_cast<std::size_t>(one.number), &Swing::index);
        if (swing == measured.swings.end()) continue;
        one.finish = swing->lead_share.finish;
        one.came_to_rest = swing->events.finish.has_value();
    }
}

/// Lessons that came into the book before it kept how swings end, and whose recording is not drawn: that this
/// is not known of them.
void tell_missing_finishes(StudentReport& report, const std::vector<std::vector<BookSwing>>& swings) {
    constexpr const char* words = "how its swings ended is not in the book";
    for (std::size_t place = 0; place < report.lessons.size(); ++place) {
        const bool is_recorded = std::ranges::any_of(
            swings[place], [](const BookSwing& swing) { return swing.origin == SwingOrigin::recording; });
        const bool has_finish = std::ranges::any_of(report.swings, [&](const ReportedSwing& swing) {
            return swing.lesson == place && swing.came_to_rest;
        });
        if (!is_recorded || has_finish) continue;
        ReportedLesson& lesson = report.lessons[place];
        if (lesson.not_measured.empty()) {
            lesson.measured_by.push_back({"Finish", words});
        } else {
            lesson.not_measured += std::string("; ") + words;
        }
    }
}

Result<RecordingInfo> info_of(const LessonLine& line) {
    const auto reader = RecordingReader::open(line.recording_file);
    if (!reader) return reader.problem();
    if (reader.value().info().uuid != line.lesson.recording_uuid) {
        return Problem{ProblemKind::bad_input, line.recording_file,
                       "is another recording than that of the lesson",
                       "\"footing book index FOLDER\" looks for the right one"};
    }
    return reader.value().info();
}

/// The recording's swings as the book has them.
Result<LessonResult> measured_lesson(const LessonLine& line, const std::vector<BookSwing>& swings,
                                     const Student& student, double sure) {
    AnalysisRequest request{band_for(line.lesson, std::nullopt), line.lesson.hand.value_or(student.hand),
                            student.name};
    request.sure = sure;
    auto result = analyse_recording(line.recording_file, request);
    if (!result) return result;
    follow_book(result.value(), swings, line.lesson);
    // Without the folders, which may hold the coach's own name.
    std::string& file = result.value().facts.file;
    file = std::filesystem::path(file).filename().string();
    return result;
}

/// Kept without the trace, which is long, and of several lessons too long.
void lay_over_each_other(StudentReport& report, std::size_t place, const std::vector<BookSwing>& swings,
                         LessonResult& measured) {
    std::vector<std::size_t> left_out;
    for (std::size_t i = 0; i < measured.swings.size(); ++i) {
        const bool aside = std::ranges::any_of(swings, [&](const BookSwing& swing) {
            return swing.coach == CoachSays::set_aside &&
                   swing.number == static_cast<std::int64_t>(measured.swings[i].index);
        });
        if (aside) left_out.push_back(i);
    }
    SwingSet set =
        swing_set(measured.trace, measured.facts.hand, measured.swings, SetKind::counted, left_out);
    if (!set.together) return;
    LoadTrace trace = std::exchange(measured.trace, {});
    report.laid.push_back({place, measured, std::move(set)});
    measured.trace = std::move(trace);
}

/// What stands in the report of a lesson. The first recording that can be analysed is the report's own, and
/// some more are laid over each other, or drawn too where that is asked for; of the others only the head is
/// read. `analysed` counts those.
ReportedLesson reported_lesson(const LessonLine& line, const std::vector<BookSwing>& swings,
                               const Student& student, std::size_t place, EachSwing each_swing,
                               StudentReport& report, std::size_t& analysed) {
    ReportedLesson lesson;
    lesson.number = line.lesson.id;
    lesson.date = line.lesson.date;
    lesson.setup = line.lesson.setup;
    lesson.note = line.lesson.note;
    if (line.lesson.recording_uuid.empty()) {
        lesson.not_measured = "without plates";
        return lesson;
    }
    if (line.recording_file.empty()) {
        lesson.not_measured = "recorded, but the book does not know where the file is now";
        return lesson;
    }
    const auto info = info_of(line);
    if (!info) {
        lesson.not_measured = "recorded, but the recording cannot be read: " + info.problem().what;
        return lesson;
    }
    if (analysed >= most_laid && each_swing == EachSwing::of_newest) {
        lesson.measured_by = short_facts(info.value());
        return lesson;
    }
    auto measured = measured_lesson(line, swings, student, report.sure);
    if (!measured) {
        lesson.not_measured = "recorded, but the recording cannot be read: " + measured.problem().what;
        return lesson;
    }
    ++analysed;
    if (report.lessons.size() > 1 && analysed <= most_laid)
        lay_over_each_other(report, place, swings, measured.value());
    if (report.measured) {
        lesson.measured_by = short_facts(info.value());
        if (each_swing == EachSwing::of_all) report.earlier.push_back({place, std::move(measured).value()});
    } else {
        lesson.measured_by = lesson_facts(measured.value());
        report.measured = std::move(measured).value();
        report.measured_lesson = place;
    }
    return lesson;
}

}  // namespace

Result<StudentReport> gather_student_report(Book& book, const StudentReportRequest& request) {
    const auto student = book.student(request.student);
    if (!student) return student.problem();
    auto all_lessons = book.lessons(student.value().id);
    if (!all_lessons) return all_lessons.problem();
    std::string newest;  // of all
    for (const LessonLine& line : all_lessons.value()) newest = std::max(newest, line.lesson.date);
    const auto lessons = lessons_asked(std::move(all_lessons).value(), request, student.value());
    if (!lessons) return lessons.problem();
    const auto wedges = book.wedges(student.value().id);
    if (!wedges) return wedges.problem();

    StudentReport report;
    report.name = student.value().name;
    report.hand = student.value().hand;
    report.unit = request.unit.value_or(student.value().unit);
    report.consent = consent_words(student.value());
    report.sure = request.sure;
    report.limits = request.limits;
    report.form = request.form;
    report.card_kind = request.card;
    const std::string first = lessons.value().front().lesson.date;
    const std::string last = lessons.value().back().lesson.date;
    if (newest > last) {
        report.as_of = last;
        report.limits.today = day_of_date(last).value_or(0);
    } else if (const auto asked_until = day_of_date(request.to)) {
        // Days are counted to the end of the time that was asked for, not to the day of printing.
        report.limits.today = std::min(report.limits.today, *asked_until);
    }
    report.period = lessons.value().size() == 1
                        ? "Lesson of " + first
                        : fmt::format("{} lessons, {} to {}", lessons.value().size(), first, last);
    if (const std::size_t simulated = count_simulated(lessons.value()); simulated > 0) {
        report.period += lessons.value().size() == 1
                             ? " (simulated golfer)"
                             : fmt::format(" ({} of the simulated golfer)", simulated);
    }

    // The newest first: its recording is drawn swing by swing, some more as a whole.
    report.lessons.resize(lessons.value().size());
    std::size_t analysed = 0;
    std::vector<std::vector<BookSwing>> swings(lessons.value().size());
    for (std::size_t place = lessons.value().size(); place-- > 0;) {
        const LessonLine& line = lessons.value()[place];
        auto of_lesson = book.swings(line.lesson.id);
        if (!of_lesson) return of_lesson.problem();
        swings[place] = std::move(of_lesson).value();
        report.lessons[place] = reported_lesson(line, swings[place], student.value(), place,
                                                request.each_swing, report, analysed);
    }
    std::ranges::reverse(report.laid);
    for (std::size_t place = 0; place < swings.size(); ++place) {
        for (const BookSwing& swing : swings[place])
            report.swings.push_back(
                reported_swing(swing, lessons.value()[place].lesson, wedges.value(), place, request.sure));
    }

    if (report.measured) add_finishes(report, report.measured_lesson, *report.measured);
    tell_missing_finishes(report, swings);

    auto distances = distances_of(book, request.student, report.limits, report.as_of);
    if (!distances) return distances.problem();
    report.chart = std::move(distances.value().chart);
    for (const DistanceCell& cell : report.chart.cells) {
        for (const JudgedCarry& shot : cell.shots) {
            const ShotPlace& place = distances.value().places.at(shot.carry.shot);
            report.charted[shot.carry.shot] = {date_of_day(shot.carry.day), place.lesson, place.swing};
        }
    }
    const auto progress = progress_of(book, request.student,
                                      {report.limits, report.unit, std::nullopt, request.sure, report.as_of});
    if (!progress) return progress.problem();
    report.progress.assign(progress.value().series.begin(), progress.value().series.end());
    report.progress_dates = progress.value().dates();
    report.weight_words = spoken_effects(progress.value().effects, report.unit);
    std::optional<std::vector<Advice>> changes = changes_asked(report);
    // Where none of these lessons tells enough: of the newest that does.
    if (!changes)
        changes = advice_for_student(progress.value().newest, report.hand, " of the newest lesson on plates");
    report.advice =
        next_practice(report.chart, progress.value().effects, report.progress, *changes, report.unit);
    return report;
}

}  // namespace footing
