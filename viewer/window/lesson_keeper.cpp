#include "viewer/window/lesson_keeper.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "viewer/lesson/marks_file.h"
#include "viewer/panels/view_action.h"

namespace footing {

namespace {

/// Only a lesson of the simulated golfer records nobody.
bool is_simulated(const LessonChoice& choice) {
    return !choice.plates.empty() && std::ranges::all_of(choice.plates, [](const PlatesChoice& plates) {
        return plates.kind == PlatesChoice::Kind::simulated;
    });
}

LessonDesk desk_for(const LessonChoice& choice, const ViewState& state, LessonDesk desk) {
    desk.student = choice.student;
    desk.golfer = is_simulated(choice) ? Golfer::simulated : Golfer::person;
    if (choice.student) desk.unit = choice.student->unit;
    if (state.book) take_bag(desk, *state.book);
    return desk;
}

Problem refused(const Student& student) {
    return {ProblemKind::command_line, student.name, "does not want to be recorded",
            "on the page of the next lesson Y says that this has changed"};
}

/// The book's pages are about who is taught.
void open_book_at(BookDesk& book, std::int64_t student) {
    if (book.student == student) return;
    book.student = student;
    ++book.revision;
}

}  // namespace

LessonKeeper::~LessonKeeper() {
    if (writing_.valid()) writing_.wait();
}

void LessonKeeper::begin(const LessonChoice& choice, ViewState& state) {
    if (run_ || !start_) return;
    if (choice.student && choice.student->consent == Consent::refused) {
        state.problem = refused(*choice.student);
        return;
    }
    if (state.book && choice.student && choice.student->consent == Consent::not_asked &&
        !is_simulated(choice)) {
        open_book_at(*state.book, choice.student->id);
        state.front = Front::book;
        state.book->page = BookPage::begin;
        state.notice = "May " + choice.student->name + " be recorded? Y or N; then Enter begins the lesson.";
        return;
    }
    Result<std::unique_ptr<LessonRun>> run = start_(choice, changed_);
    if (!run) {
        state.problem = run.problem();
        return;
    }
    run_ = std::move(run).value();
    seen_.reset();
    written_labels_.clear();
    left_ = Left::marks;
    analysed_.reset();
    kept_.reset();
    if (choice.student && !book_.empty())
        kept_ = LessonInBook{book_, 0, choice.student->id, choice.student->hand, {}};
    LessonDesk desk = desk_for(choice, state, usual_desk_);
    if (choice.student && state.book) open_book_at(*state.book, choice.student->id);
    if (state.book) {
        state.book->refusal.reset();
        state.book->unnamed_consent = Consent::not_asked;  // the next one is asked anew
    }
    desk.live = run_->view();
    state.desk = std::move(desk);
    state.lesson.reset();
    state.overview.reset();
    state.chosen.reset();
    state.compared.reset();
    state.compare.reset();
    state.problem.reset();
    state.front = Front::swings;
}

bool LessonKeeper::is_over(const ViewState& state) const {
    if (!run_ || !state.desk) return true;
    if (!run_->is_over() || writing_.valid() || state.desk->labels != written_labels_) return false;
    return run_->view()->stage == LessonStage::failed;  // a closed one is put away by step()
}

bool LessonKeeper::step(ViewState& state) {
    if (!run_ && state.book && state.book->wish == BookWish::begin_lesson) {
        state.book->wish = BookWish::none;
        if (const auto choice = lesson_choice(*state.book)) begin(*choice, state);
        return true;
    }
    if (!run_ || !state.desk) return false;
    bool changed = take_written(state);
    if (std::shared_ptr<const LiveView> live = run_->view(); live != seen_) {
        seen_ = live;
        state = carry_out_lesson(std::move(state), HearLesson{std::move(live)});
        changed = true;
    }
    const bool asked_to_stop = state.desk->wish == LessonWish::stop;
    if (asked_to_stop) run_->ask_to_stop();
    if (writing_.valid()) return changed;
    if (state.desk->labels != written_labels_) {
        write(state);
        return changed;
    }
    if (seen_->stage == LessonStage::failed && asked_to_stop) {
        put_away(state);
        return true;
    }
    if (seen_->stage != LessonStage::closed) return changed;
    if (left_ == Left::marks) {
        left_ = Left::analysis;
        write_marks(state);
    } else if (left_ == Left::analysis) {
        left_ = Left::nothing;
        settle();
    } else {
        put_away(state);
        return true;
    }
    if (!writing_.valid() && changed_) changed_();  // nothing to wait for: the next step comes at once
    return changed;
}

void LessonKeeper::put_away(ViewState& state) {
    const bool recorded = seen_->stage == LessonStage::closed && !seen_->closing_words.empty();
    const DistanceUnit unit = state.desk->unit;
    run_.reset();  // its thread has ended
    state.desk.reset();
    state.lesson.reset();
    state.overview.reset();
    state.chosen.reset();
    state.compared.reset();
    state.compare.reset();
    if (state.book) {
        ++state.book->revision;
        if (kept_) open_book_at(*state.book, kept_->student);  // whomever the coach looked up meanwhile
    }
    state.front = Front::swings;
    if (state.book && state.book->refusal) {  // nobody looks at it now; it is kept
        if (recorded) state.book->refusal->recording = seen_->file;
        analysed_.reset();
        state.front = Front::book;
        return;
    }
    if (analysed_) {
        const auto problem = state.problem;  // of the book; the recording is open all the same
        state = show_lesson(std::exchange(analysed_, nullptr), std::move(state));
        state.marking = {};
        state.marking.marks = std::exchange(analysed_marks_, {});
        state.said = {std::exchange(analysed_labels_, {}), unit};
        state.problem = problem;
    } else if (state.book) {
        state.front = Front::book;
    }
    if (recorded)
        state.notice =
            seen_->closing_words + " R writes the report" + (state.book ? ", B opens the book." : ".");
}

void LessonKeeper::write(const ViewState& state) {
    written_labels_ = state.desk->labels;
    writing_ = std::async(std::launch::async, [live = state.desk->live, labels = written_labels_,
                                               kept = kept_, changed = changed_] {
        Written written{write_labels(live->file, live->lesson->swings, labels), {}, nullptr};
        if (kept) {
            if (auto lesson = keep_in_book(*kept, *live, labels)) {
                written.kept = std::move(lesson).value();
            } else {
                written.outcome = lesson.problem();
            }
        }
        if (changed) changed();
        return written;
    });
}

void LessonKeeper::write_marks(const ViewState& state) {
    CoachMarks marks = marks_of_labels(state.desk->live->lesson->swings, state.desk->labels);
    if (marks.swings.empty()) return;
    writing_ = std::async(std::launch::async,
                          [file = seen_->file, all = std::move(marks), changed = changed_]() mutable {
                              // What was said of the trigger meanwhile (footing mark --trigger) is no label,
                              // and stays.
                              if (const Result<CoachMarks> before = read_marks(file); before)
                                  all.trigger = before.value().trigger;
                              Written written{footing::write_marks(file, all), {}, nullptr};
                              if (changed) changed();
                              return written;
                          });
}

void LessonKeeper::settle() {
    if (seen_->closing_words.empty()) return;  // nothing was recorded
    writing_ = std::async(std::launch::async, [file = seen_->file, student = seen_->lesson->facts.student,
                                               kept = kept_, load = load_, changed = changed_] {
        Written written{Done{}, {}, nullptr};
        WorkWatch nobody_waits;
        Result<LessonResult> analysed = load(file, nobody_waits);
        if (analysed) {
            // Before its first swing the book does not know whose lesson it is.
            std::string& whose = analysed.value().facts.student;
            if (whose.empty()) whose = student;
            if (kept) written.outcome = settle_in_book(*kept, file, analysed.value().swings);
            written.analysed = std::make_shared<const LessonResult>(std::move(analysed).value());
            // Else the first mark given to the open recording would take those of the lesson's keys away.
            if (Result<CoachMarks> marks = read_marks(file)) written.marks = std::move(marks).value();
            if (auto labels = read_labels(file, written.analysed->swings))
                written.labels = std::move(labels).value();
        } else {
            written.outcome = analysed.problem();
        }
        if (changed) changed();
        return written;
    });
}

bool LessonKeeper::take_written(ViewState& state) {
    if (!writing_.valid() || writing_.wait_for(std::chrono::seconds(0)) != std::future_status::ready)
        return false;
    const Written written = writing_.get();
    if (kept_ && written.kept.lesson != 0) {
        kept_->lesson = written.kept.lesson;
        kept_->new_wedges = written.kept.new_wedges;
    }
    if (written.analysed) {
        analysed_ = written.analysed;
        analysed_marks_ = written.marks;
        analysed_labels_ = written.labels;
    }
    if (!written.outcome) state.problem = written.outcome.problem();
    return true;
}

}  // namespace footing
