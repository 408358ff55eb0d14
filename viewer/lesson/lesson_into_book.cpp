#include "viewer/lesson/lesson_into_book.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <system_error>
#include <utility>

#include "acquisition/frame/quality.h"
#include "acquisition/record/recording_reader.h"
#include "viewer/lesson/analyse_recording.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

/// Whose hand the recording's swings are read with. Shares of the wrong hand are those of the other foot, so
/// that nothing is guessed where the recording and the book differ.
Result<Hand> hand_of(const Lesson& lesson, const Student& student, const IndexedRecording& recording) {
    if (lesson.hand) return *lesson.hand;
    if (student.hand == recording.hand) return student.hand;
    return Problem{ProblemKind::bad_input, recording.file,
                   fmt::format("the recording is of a {}-handed golfer, and {} plays {}-handed in the book",
                               hand_name(recording.hand), student.name, hand_name(student.hand)),
                   "say which it is with --hand right or --hand left"};
}

Result<std::vector<BookSwing>> swings_in(const std::string& file, Hand hand) {
    // Bands are judged when the numbers are shown, each swing by that of its length.
    const auto result = analyse_recording(file, {TargetBand{}, hand, ""});
    if (!result) return result.problem();
    std::vector<BookSwing> found;
    for (const Swing& swing : result.value().swings) found.push_back(book_swing(swing));
    return found;
}

/// Adds the recordings in and below a folder. A folder that cannot be looked into is a problem: the index
/// would forget what is in it.
Outcome find_recordings(const std::filesystem::path& folder, std::vector<std::filesystem::path>& files) {
    std::error_code failure;
    std::filesystem::directory_iterator at(folder, failure);
    std::vector<std::filesystem::path> below;
    for (; !failure && at != std::filesystem::directory_iterator(); at.increment(failure)) {
        std::error_code ignored;
        if (at->is_directory(ignored) && !at->is_symlink(ignored)) below.push_back(at->path());
        if (at->path().extension() == ".h5" && at->is_regular_file(ignored)) files.push_back(at->path());
    }
    if (failure) {
        return Problem{ProblemKind::bad_input, folder.string(),
                       "cannot be looked into (" + failure.message() + "); the index is as it was",
                       "name folders that you may read"};
    }
    for (const std::filesystem::path& inner : below) {
        if (Outcome done = find_recordings(inner, files); !done) return done;
    }
    return Done{};
}

BookFinish book_finish(const Swing& swing) {
    BookFinish finish;
    finish.came_to_rest = swing.events.finish.has_value();
    if (const auto& share = swing.lead_share.finish) finish.share = share->value, finish.u = share->u;
    if (const auto& hold = swing.numbers.finish_hold) {
        finish.held_s = hold->held_s;
        finish.held_end = hold->end;
        if (hold->sway) finish.sway_m = hold->sway->cop_rms_m;
    }
    return finish;
}

}  // namespace

BookSwing book_swing(const Swing& swing) {
    BookSwing found;
    found.number = static_cast<std::int64_t>(swing.index);
    found.origin = SwingOrigin::recording;
    found.found_kind = swing.kind;
    found.from_s = swing.from_s;
    found.to_s = swing.to_s;
    if (swing.events.impact) found.strike_s = swing.events.impact->time_s;
    const SwingShares& shares = swing.lead_share;
    if (shares.address) found.address_share = shares.address->value, found.address_u = shares.address->u;
    if (shares.lowest) found.lowest_share = shares.lowest->value, found.lowest_u = shares.lowest->u;
    if (shares.impact) found.impact_share = shares.impact->value, found.impact_u = shares.impact->u;
    if (swing.tempo)
        found.backswing_s = swing.tempo->backswing_s, found.downswing_s = swing.tempo->downswing_s;
    if (swing.numbers.time_below) found.below_floor_s = swing.numbers.time_below->time_s;
    if (swing.numbers.rhythm) found.rhythm_percent = swing.numbers.rhythm->match_percent;
    found.finish = book_finish(swing);
    return found;
}

Result<IndexedRecording> index_entry(const std::filesystem::path& recording) {
    const auto reader = RecordingReader::open(recording);
    if (!reader) return reader.problem();
    const RecordingInfo& info = reader.value().info();
    IndexedRecording entry;
    entry.uuid = info.uuid;
    std::error_code ignored;
    entry.file = std::filesystem::absolute(recording, ignored).lexically_normal().string();
    entry.start_utc_ns = info.start.utc_ns;
    entry.zone = info.zone;
    entry.duration_s = static_cast<double>(info.end.steady_ns - info.start.steady_ns) * seconds_per_ns;
    entry.hand = info.hand;
    entry.outcome = outcome_name(info.outcome);
    entry.device = info.device.name;
    if (entry.uuid.empty()) {
        return Problem{ProblemKind::bad_input, recording.string(),
                       "the recording has no UUID, so it cannot be told "
                       "from others",
                       "import or record it again"};
    }
    return entry;
}

std::string local_date(const IndexedRecording& recording) {
    return wall_time(recording.start_utc_ns, recording.zone).substr(0, 10);
}

Result<std::int64_t> put_lesson_into_book(Book& book, Lesson lesson, const std::filesystem::path& recording) {
    const auto entry = index_entry(recording);
    if (!entry) return entry.problem();
    const auto student = book.student(lesson.student);
    if (!student) return student.problem();
    // The long work before the transaction: other programs need not wait for it.
    const auto hand = hand_of(lesson, student.value(), entry.value());
    if (!hand) return hand.problem();
    const auto found = swings_in(entry.value().file, hand.value());
    if (!found) return found.problem();
    lesson.recording_uuid = entry.value().uuid;
    if (lesson.date.empty()) lesson.date = local_date(entry.value());
    std::int64_t id = 0;
    const Outcome done = book.in_transaction([&]() -> Outcome {
        if (Outcome put = book.put_recording(entry.value()); !put) return put;
        const auto added = book.add_lesson(lesson);
        if (!added) return added.problem();
        id = added.value();
        return book.put_found_swings(id, found.value());
    });
    if (!done) return done.problem();
    return id;
}

Result<std::vector<BookSwing>> swings_of_lesson(Book& book, std::int64_t lesson, std::optional<Hand> said) {
    auto line = book.lesson(lesson);
    if (!line) return line.problem();
    if (said) line.value().lesson.hand = said;
    if (line.value().recording_file.empty()) {
        return Problem{ProblemKind::command_line, "lesson " + std::to_string(lesson),
                       "has no recording that the book knows where to find",
                       "\"footing book index FOLDER\" looks for it"};
    }
    const auto student = book.student(line.value().lesson.student);
    if (!student) return student.problem();
    const auto entry = index_entry(line.value().recording_file);
    if (!entry) return entry.problem();
    if (entry.value().uuid != line.value().lesson.recording_uuid) {
        return Problem{ProblemKind::bad_input, entry.value().file,
                       fmt::format("is another recording than that of lesson {}", lesson),
                       "\"footing book index FOLDER\" looks for the right one"};
    }
    const auto hand = hand_of(line.value().lesson, student.value(), entry.value());
    if (!hand) return hand.problem();
    return swings_in(entry.value().file, hand.value());
}

Outcome analyse_lesson_again(Book& book, std::int64_t lesson, std::optional<Hand> said) {
    const auto found = swings_of_lesson(book, lesson, said);
    if (!found) return found.problem();
    return book.in_transaction([&]() -> Outcome {
        if (said) {
            auto now = book.lesson(lesson);
            if (!now) return now.problem();
            now.value().lesson.hand = said;
            if (Outcome done = book.change_lesson(now.value().lesson); !done) return done;
        }
        return book.put_found_swings(lesson, found.value());
    });
}

Result<IndexRebuilt> rebuild_index_of(Book& book, const std::vector<std::filesystem::path>& folders) {
    IndexRebuilt report;
    std::vector<std::filesystem::path> files;
    for (const std::filesystem::path& folder : folders) {
        if (Outcome done = find_recordings(folder, files); !done) return done.problem();
    }
    std::sort(files.begin(), files.end());
    std::vector<IndexedRecording> entries;
    std::set<std::string> known;
    for (const std::filesystem::path& file : files) {
        auto entry = index_entry(file);
        if (!entry) {
            report.not_read.push_back(sentence(entry.problem()));
        } else if (!known.insert(entry.value().uuid).second) {
            report.twice.push_back(entry.value().file);
        } else {
            entries.push_back(std::move(entry).value());
        }
    }
    const auto before = book.recordings();
    if (!before) return before.problem();
    for (const IndexedRecording& entry : before.value()) {
        std::error_code ignored;
        if (known.count(entry.uuid) > 0 || !std::filesystem::exists(entry.file, ignored)) continue;
        entries.push_back(entry);
        ++report.elsewhere;
    }
    if (Outcome done = book.rebuild_index(entries); !done) return done.problem();
    report.recordings = entries.size();
    const auto lessons = book.lessons(std::nullopt);
    if (!lessons) return lessons.problem();
    for (const LessonLine& line : lessons.value()) {
        if (!line.lesson.recording_uuid.empty() && line.recording_file.empty())
            report.lessons_without.push_back(line.lesson.id);
    }
    return report;
}

}  // namespace footing
