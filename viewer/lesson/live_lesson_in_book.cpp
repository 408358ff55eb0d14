#include "viewer/lesson/live_lesson_in_book.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <system_error>
#include <utility>

#include "viewer/book/book.h"
#include "viewer/book/wedge_called.h"
#include "viewer/lesson/lesson_into_book.h"

namespace footing {

namespace {

constexpr double same_moment_s = 1e-6;  // both come from the one analysis, by way of the file

IndexedRecording entry_under_way(const LiveView& live, Hand hand) {
    IndexedRecording entry;
    entry.uuid = live.uuid;
    std::error_code ignored;
    entry.file = std::filesystem::absolute(live.file, ignored).lexically_normal().string();
    entry.start_utc_ns = live.start_utc_ns;
    entry.zone = live.zone;
    entry.duration_s = live.progress.duration_s;
    entry.hand = hand;
    entry.outcome = "incomplete";  // until it is closed
    entry.device = live.device;
    return entry;
}

Lesson lesson_of(const IndexedRecording& entry, std::int64_t student) {
    Lesson lesson;
    lesson.student = student;
    lesson.date = local_date(entry);
    lesson.recording_uuid = entry.uuid;
    return lesson;
}

/// The swing of the book as the label wants it.
Result<BookSwing> labelled(Book& book, std::int64_t student, BookSwing swing, const SwingLabel& label) {
    const auto wedge = wedge_called(book, student, label.club);
    if (!wedge) return wedge.problem();
    swing.wedge = wedge.value();
    swing.length = length_called(label.length);
    swing.coach_kind.reset();
    if (label.word == CoachWord::shot) swing.coach_kind = SwingKind::shot;
    if (label.word == CoachWord::practice) swing.coach_kind = SwingKind::practice;
    if (label.carry_m) {
        if (!swing.shot) swing.shot.emplace();
        swing.shot->carry_m = label.carry_m;
    } else {
        swing.shot.reset();
    }
    return swing;
}

bool same_label(const BookSwing& a, const BookSwing& b) {
    const auto carry = [](const BookSwing& swing) { return swing.shot ? swing.shot->carry_m : std::nullopt; };
    return a.wedge == b.wedge && a.length == b.length && a.coach_kind == b.coach_kind &&
           carry(a) == carry(b) && a.shot.has_value() == b.shot.has_value();
}

/// Where in the lesson the swing of the book is; nothing for one that the coach added by hand.
std::optional<std::size_t> place_of(const BookSwing& kept, const std::vector<Swing>& swings) {
    if (!kept.from_s) return std::nullopt;
    for (std::size_t place = 0; place < swings.size(); ++place) {
        if (std::abs(swings[place].from_s - *kept.from_s) <= same_moment_s) return place;
    }
    return std::nullopt;
}

Outcome put_labels(Book& book, const LessonInBook& kept, std::int64_t lesson,
                   const std::vector<Swing>& swings, const std::vector<SwingLabel>& labels) {
    const auto in_book = book.swings(lesson);
    if (!in_book) return in_book.problem();
    for (const BookSwing& swing : in_book.value()) {
        const auto place = place_of(swing, swings);
        if (!place || *place >= labels.size()) continue;
        if (labels[*place].word == CoachWord::not_a_swing) {
            if (Outcome gone = book.remove_swing(swing.id); !gone) return gone;
            continue;
        }
        const auto wanted = labelled(book, kept.student, swing, labels[*place]);
        if (!wanted) return wanted.problem();
        if (same_label(swing, wanted.value())) continue;
        if (Outcome changed = book.change_swing(wanted.value()); !changed) return changed;
    }
    return Done{};
}

/// Adds to `new_wedges` what the book had not `before`, and takes out of both what no swing was made with.
Outcome keep_used_wedges(Book& book, std::int64_t student, const std::vector<Wedge>& before,
                         std::vector<std::int64_t>& new_wedges) {
    const auto wedges = book.wedges(student);
    if (!wedges) return wedges.problem();
    for (const Wedge& wedge : wedges.value()) {
        if (std::ranges::find(before, wedge.id, &Wedge::id) == before.end()) new_wedges.push_back(wedge.id);
    }
    if (new_wedges.empty()) return Done{};
    const auto swings = book.swings_of_student(student);
    if (!swings) return swings.problem();
    std::vector<std::int64_t> used;
    for (const std::int64_t wedge : new_wedges) {
        const bool is_used = std::ranges::find(swings.value(), std::optional(wedge), &BookSwing::wedge) !=
                             swings.value().end();
        const bool is_there = std::ranges::find(wedges.value(), wedge, &Wedge::id) != wedges.value().end();
        if (is_used) {
            used.push_back(wedge);
        } else if (is_there) {
            if (Outcome gone = book.remove_wedge(wedge); !gone) return gone;
        }
    }
    new_wedges = std::move(used);
    return Done{};
}

}  // namespace

Result<KeptLesson> keep_in_book(const LessonInBook& kept, const LiveView& live,
                                const std::vector<SwingLabel>& labels) {
    auto book = Book::open(kept.book, OpenAs::existing);
    if (!book) return book.problem();
    const IndexedRecording entry = entry_under_way(live, kept.hand);
    const std::vector<Swing>& swings = live.lesson->swings;
    std::vector<BookSwing> found;
    for (std::size_t place = 0; place < swings.size(); ++place) {
        const bool not_one = place < labels.size() && labels[place].word == CoachWord::not_a_swing;
        if (!not_one) found.push_back(book_swing(swings[place]));
    }
    KeptLesson now{kept.lesson, kept.new_wedges};
    std::int64_t& lesson = now.lesson;
    const Outcome done = book.value().in_transaction([&]() -> Outcome {
        if (lesson == 0) {
            if (Outcome put = book.value().put_recording(entry); !put) return put;
            const auto added = book.value().add_lesson(lesson_of(entry, kept.student));
            if (!added) return added.problem();
            lesson = added.value();
        }
        if (Outcome put = book.value().put_found_swings(lesson, found); !put) return put;
        const auto before = book.value().wedges(kept.student);
        if (!before) return before.problem();
        if (Outcome put = put_labels(book.value(), kept, lesson, swings, labels); !put) return put;
        return keep_used_wedges(book.value(), kept.student, before.value(), now.new_wedges);
    });
    if (!done) return done.problem();
    return now;
}

std::string student_of_recording(const std::filesystem::path& book, const std::string& recording) {
    auto opened = Book::open(book, OpenAs::to_read);
    const auto entry = index_entry(recording);
    if (!opened || !entry) return "";
    const auto lessons = opened.value().lessons(std::nullopt);
    if (!lessons) return "";
    for (const LessonLine& line : lessons.value()) {
        if (line.lesson.recording_uuid == entry.value().uuid) return line.student_name;
    }
    return "";
}

Outcome settle_in_book(const LessonInBook& kept, const std::string& recording,
                       const std::vector<Swing>& found) {
    auto book = Book::open(kept.book, OpenAs::existing);
    if (!book) return book.problem();
    const auto entry = index_entry(recording);
    if (!entry) return entry.problem();
    std::vector<BookSwing> swings;
    for (const Swing& swing : found) swings.push_back(book_swing(swing));
    return book.value().in_transaction([&]() -> Outcome {
        if (Outcome put = book.value().put_recording(entry.value()); !put) return put;
        std::int64_t lesson = kept.lesson;
        if (lesson == 0) {  // no swing was caught: it is a lesson of the student all the same
            const auto added = book.value().add_lesson(lesson_of(entry.value(), kept.student));
            if (!added) return added.problem();
            lesson = added.value();
        }
        auto line = book.value().lesson(lesson);
        if (!line) return line.problem();
        line.value().lesson.hand = kept.hand;
        if (Outcome changed = book.value().change_lesson(line.value().lesson); !changed) return changed;
        return book.value().put_found_swings(lesson, swings);
    });
}

}  // namespace footing
