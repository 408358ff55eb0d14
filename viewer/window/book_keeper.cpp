#include "viewer/window/book_keeper.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <utility>

#include "acquisition/device/device_survey.h"
#include "viewer/book/book.h"
#include "viewer/book/student_progress.h"
#include "viewer/book/undone_words.h"
#include "viewer/book/wedge_called.h"

namespace footing {

namespace {

constexpr std::int64_t ns_a_day = 86'400'000'000'000;

std::vector<PlatesChoice> plates_here(std::vector<PlatesChoice> plates) {
    using Kind = PlatesChoice::Kind;
    for (const SerialPortSeen& port : survey_serial_ports()) {
        std::string words = port.words.empty() ? port.node : port.words + " at " + port.node;
        if (port.use == SerialPortSeen::Use::in_use) words += " (in use)";
        const bool named = std::ranges::any_of(plates, [&](const PlatesChoice& first) {
            return first.kind == Kind::serial && first.address.rfind(port.path, 0) == 0;
        });
        if (!named) plates.push_back({Kind::serial, port.path, std::move(words)});
    }
    plates.push_back({Kind::simulated, "", "no plates: a simulated golfer, for a demo lesson"});
    return plates;
}

/// "Made again (lesson 3 of Robin Vale, 2026-11-25): 1 lesson there again, 12 swings there again."
std::string notice_of(const char* what, const std::vector<std::string>& words, const Undone& undone) {
    return fmt::format("{}{}: {}.", what, undone.of.empty() ? "" : " (" + undone.of.front() + ")",
                       fmt::join(words, ", "));
}

/// Each part that can be read is; the first that cannot is told.
class Asking {
  public:
    Asking(Book& book, BookFacts& facts) : book_(book), facts_(facts) {}

    void change(const BookQuestion& question) {
        if (!question.new_student.empty()) add_student(question.new_student);
        for (const StudentToWrite& said : question.to_write) write(said);
        for (const SwingToWrite& said : question.swings_to_write) write(said);
        if (question.undo == BookUndo::newest_change) {
            if (auto undone = take(book_.undo())) {
                facts_.notice =
                    notice_of("The newest change is taken back", undone_words(undone->change), *undone) +
                    " Ctrl Y makes it again.";
                facts_.taken_back = std::move(undone->change.changes);
            }
        } else if (question.undo == BookUndo::make_again) {
            if (const auto made = take(book_.make_again(question.make_again)))
                facts_.notice = notice_of("Made again", made_again_words(made->change), *made);
        }
    }
    void read(std::optional<std::int64_t> student, std::int64_t today) {
        if (auto students = take(book_.students())) facts_.students = std::move(*students);
        if (facts_.added) student = facts_.added;
        const bool there = std::any_of(facts_.students.begin(), facts_.students.end(),
                                       [&](const StudentLine& line) { return line.student.id == student; });
        if (!there) return;
        facts_.student = take(book_.student(*student));
        if (!facts_.student) return;
        if (auto wedges = take(book_.wedges(*student))) facts_.wedges = std::move(*wedges);
        if (auto lessons = take(book_.lessons(student))) facts_.lessons = std::move(*lessons);
        ProgressRequest request;
        request.limits = usual_limits(facts_.student->unit);
        request.limits.today = today;
        request.unit = facts_.student->unit;
        const std::string who = "#" + std::to_string(*student);
        if (auto distances = take(distances_of(book_, who, request.limits))) {
            facts_.chart = std::move(distances->chart);
            facts_.lacking = lacking_of(distances->without_place);
        }
        if (auto progress = take(progress_of(book_, who, request)))
            facts_.progress = std::make_shared<const StudentProgress>(std::move(*progress));
    }

  private:
    template <typename Value>
    std::optional<Value> take(Result<Value> result) {
        if (result) return std::move(result).value();
        if (!facts_.problem) facts_.problem = result.problem();
        return std::nullopt;
    }
    void add_student(const std::string& name) {
        Student student;
        student.name = name;
        if (auto added = take(book_.add_student(student, Namesakes::refused))) facts_.added = *added;
    }
    void write(const StudentToWrite& said) {
        static_cast<void>(take(book_.in_transaction([&]() -> Outcome {
            auto student = book_.student(said.student);
            if (!student) return student.problem();
            take_said(student.value(), said.said);
            return book_.change_student(student.value(), Namesakes::allowed);
        })));
    }

    void write(const SwingToWrite& said) {
        static_cast<void>(take(book_.in_transaction([&]() -> Outcome {
            auto swing = book_.swing(said.lesson, said.swing);
            if (!swing) return swing.problem();
            const auto lesson = book_.lesson(said.lesson);
            if (!lesson) return lesson.problem();
            const auto wedge = wedge_called(book_, lesson.value().lesson.student, said.said.club);
            if (!wedge) return wedge.problem();
            swing.value().wedge = wedge.value();
            swing.value().length = length_called(said.said.length);
            return book_.change_swing(swing.value());
        })));
    }
    [[nodiscard]] std::vector<LackingCarry> lacking_of(const std::vector<ShotWithoutPlace>& shots) const {
        std::vector<LackingCarry> lacking;
        for (const ShotWithoutPlace& shot : shots) {
            LackingCarry carry{shot.place.lesson, shot.place.swing, "", shot.carry_m, {}};
            for (const LessonLine& line : facts_.lessons) {
                if (line.lesson.id == carry.lesson) carry.date = line.lesson.date;
            }
            for (const Wedge& wedge : facts_.wedges) {
                if (shot.wedge == wedge.id) carry.said.club = wedge.name;
            }
            if (shot.length) carry.said.length = length_name(*shot.length);
            lacking.push_back(std::move(carry));
        }
        return lacking;
    }

    Book& book_;
    BookFacts& facts_;
};

}  // namespace

BookFacts ask_book(const std::filesystem::path& file, const BookQuestion& question, std::int64_t today) {
    BookFacts facts;
    facts.file = file.string();
    facts.revision = question.revision;
    facts.today = date_of_day(today);
    facts.plates = plates_here(question.plates);
    facts.plates_named = question.plates.size();
    auto book = Book::open(file, OpenAs::create_if_absent);
    if (!book) {
        facts.problem = book.problem();
        return facts;
    }
    Asking asking(book.value(), facts);
    asking.change(question);
    asking.read(question.student, today);
    return facts;
}

Result<std::vector<std::string>> empty_bin(const std::filesystem::path& file,
                                           const std::vector<BinItem>& bin) {
    std::vector<std::string> told;
    if (bin.empty()) return told;
    auto book = Book::open(file, OpenAs::existing);
    if (!book) return book.problem();
    for (const BinItem& item : bin) {
        const auto removed = item.what == BinItem::What::student ? book.value().remove_student(item.id)
                                                                 : book.value().remove_lesson(item.id);
        if (!removed) return removed.problem();
        told.push_back(fmt::format("{} is no longer in the book", item.name));
        for (const std::string& recording : removed.value().recordings)
            told.push_back("still on the disk: " + recording);
    }
    return told;
}

BookKeeper::BookKeeper(std::filesystem::path file, std::vector<PlatesChoice> plates, const Clock& clock,
                       std::function<void()> changed)
    : file_(std::move(file)), plates_(std::move(plates)), clock_(clock), changed_(std::move(changed)) {}

bool BookKeeper::step(ViewState& state) {
    if (!state.book) return false;
    if (answer_.valid()) {
        if (answer_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
        if (!presence_) presence_.emplace(file_);
        BookFacts facts = answer_.get();
        if (!facts.taken_back.empty()) taken_back_.push_back(std::move(facts.taken_back));
        state.book->to_make_again = taken_back_.size();
        state = carry_out(std::move(state),
                          BookAction{HearBook{std::make_shared<const BookFacts>(std::move(facts))}});
        return true;
    }
    BookDesk& book = *state.book;
    const OpenIn now =
        presence_ && presence_->others_are_there() ? OpenIn::other_windows_too : OpenIn::this_window;
    const bool changed = std::exchange(book.open_in, now) != now;
    if (book.facts && book.facts->revision == book.revision) return changed;
    const BookUndo undo = book.undo;
    if (undo != BookUndo::asked_once) book.undo = BookUndo::none;
    taken_back_.resize(
        std::min(taken_back_.size(), book.to_make_again));  // an edit of the coach ends the row
    BookQuestion question{book.revision, book.student, book.new_student, book.to_write, book.swings_to_write,
                          undo,          {},           plates_};
    if (undo == BookUndo::make_again && !taken_back_.empty()) {
        question.make_again = std::move(taken_back_.back());
        taken_back_.pop_back();  // where it cannot be made again now, it will not be later
        book.to_make_again = taken_back_.size();
    }
    answer_ = std::async(std::launch::async, [this, asked = std::move(question)] {
        BookFacts facts = ask_book(file_, asked, clock_.utc_ns() / ns_a_day);
        if (changed_) changed_();
        return facts;
    });
    return changed;
}

}  // namespace footing
