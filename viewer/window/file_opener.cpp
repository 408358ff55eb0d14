#include "viewer/window/file_opener.h"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "viewer/lesson/bring_in.h"
#include "viewer/lesson/marks_file.h"

namespace footing {

namespace {

constexpr std::size_t most_recent = 12;
constexpr double read_from = 0.8;  // of the work with a table: by then it is a recording

bool is_ready(const std::future_status status) {
    return status == std::future_status::ready;
}

std::string absolute(const std::string& path) {
    std::error_code failed;
    const std::filesystem::path whole = std::filesystem::absolute(path, failed);
    return failed ? path : whole.lexically_normal().string();
}

}  // namespace

FileOpener::~FileOpener() {
    if (job_) job_->watch.give_up();
}

bool FileOpener::step(ViewState& state) {
    forget_what_is_over();
    if (job_ && state.opening != job_->path) {  // given up, or another file was dropped meanwhile
        job_->watch.give_up();
        given_up_.push_back(std::move(job_));
    }
    if (!job_) {
        if (state.opening.empty()) return false;
        begin(state);
        return true;
    }
    if (!is_ready(job_->result.wait_for(std::chrono::seconds(0)))) {
        const double part = job_->watch.part();
        return std::exchange(state.opening_part, part) != part;
    }
    Result<Opened> result = job_->result.get();
    job_.reset();
    state.opening.clear();
    state.opening_part = 0.0;
    show(std::move(result), state);
    return true;
}

void FileOpener::begin(const ViewState& state) {
    Hand hand = Hand::right;
    if (state.book) {
        if (const Student* student = chosen_student(*state.book)) hand = student->hand;
    }
    job_ = std::make_unique<Job>();
    job_->path = state.opening;
    job_->result = std::async(std::launch::async, [path = job_->path, hand, load = load_,
                                                   &watch = job_->watch, changed = changed_] {
        Result<Opened> opened = read(path, hand, load, watch);
        if (changed) changed();
        return opened;
    });
}

Result<FileOpener::Opened> FileOpener::read(const std::string& path, Hand hand, const LessonLoader& load,
                                            WorkWatch& watch) {
    Opened opened;
    opened.recording = path;
    if (file_kind(path) != FileKind::recording) {
        watch.begin_stretch(0.0, read_from);
        Result<BroughtIn> made = bring_in(path, hand, watch);
        if (!made) return made.problem();
        opened.recording = made.value().recording.string();
        opened.made = std::move(made.value().words);
        watch.begin_stretch(read_from, 1.0);
    }
    Result<LessonResult> lesson = load(opened.recording, watch);
    if (!lesson) return lesson.problem();
    opened.lesson = std::move(lesson).value();
    Result<CoachMarks> marks = read_marks(opened.recording);
    if (!marks) return marks.problem();
    opened.marks = std::move(marks).value();
    Result<std::vector<SwingLabel>> labels = read_labels(opened.recording, opened.lesson.swings);
    if (!labels) return labels.problem();
    opened.labels = std::move(labels).value();
    return opened;
}

void FileOpener::show(Result<Opened> result, ViewState& state) {
    if (!result) {
        state.problem = result.problem();
        return;
    }
    Opened& opened = result.value();
    state.recent = with_recent(std::move(state.recent), absolute(opened.recording));
    state = show_lesson(std::make_shared<const LessonResult>(std::move(opened.lesson)), std::move(state));
    state.marking.marks = std::move(opened.marks);
    state.said.labels = std::move(opened.labels);
    const Student* student = state.book ? chosen_student(*state.book) : nullptr;
    if (student) state.said.unit = student->unit;
    if (!opened.made.empty()) state.notice = std::move(opened.made);
    if (first_look_) state = std::exchange(first_look_, nullptr)(std::move(state));
}

void FileOpener::forget_what_is_over() {
    std::erase_if(given_up_, [](const std::unique_ptr<Job>& job) {
        return is_ready(job->result.wait_for(std::chrono::seconds(0)));
    });
}

std::vector<std::string> with_recent(std::vector<std::string> recent, const std::string& path) {
    std::erase(recent, path);
    recent.insert(recent.begin(), path);
    recent.resize(std::min(recent.size(), most_recent));
    return recent;
}

}  // namespace footing
