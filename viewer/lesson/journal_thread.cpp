#include "viewer/lesson/journal_thread.h"

#include <chrono>
#include <utility>

#include "acquisition/frame/units.h"
#include "acquisition/record/file_steps.h"

namespace footing {

namespace {

constexpr auto nap = std::chrono::milliseconds(4);
constexpr std::int64_t disk_watch_period_ns = ns_per_s;
/// Left over for the system and for the program's own small files.
constexpr std::uint64_t room_for_others = std::uint64_t{1} << 20;

}  // namespace

/// Writes what the queue hands out. A failure is kept and the rest of the queue passes by.
class JournalThread::Sink final : public FrameSink {
  public:
    Sink(JournalThread& journal, std::int64_t now_ns) : journal_(journal), now_ns_(now_ns) {}

    void take_frame(const FrameView& frame) override {
        if (!outcome_.ok()) return;
        outcome_ = journal_.writer_->append(frame, now_ns_);
        if (journal_.first_time_us_.load(std::memory_order_relaxed) == 0) {
            journal_.first_time_us_.store(frame.stamp.device_time_us, std::memory_order_relaxed);
        }
        journal_.newest_time_us_.store(frame.stamp.device_time_us, std::memory_order_relaxed);
        journal_.clock_fit_.take(frame.stamp.device_time_us, frame.stamp.host_time_ns);
    }
    void take_gap(const Gap& gap) override {
        if (gap.frames_missing == 0) journal_.clock_fit_.restart();
        if (outcome_.ok()) outcome_ = journal_.writer_->append(gap);
    }
    [[nodiscard]] const Outcome& outcome() const { return outcome_; }

  private:
    JournalThread& journal_;
    std::int64_t now_ns_;
    Outcome outcome_ = Done{};
};

JournalThread::JournalThread(JournalWriter writer, Session& session, const Clock& clock,
                             std::filesystem::path journal)
    : writer_(std::move(writer)), session_(session), clock_(clock), path_(std::move(journal)) {
    watch_disk(clock_.steady_ns());
    thread_ = std::thread([this] { run(); });
}

JournalThread::~JournalThread() {
    finish();
}

void JournalThread::add(RecordingNote note) {
    const std::lock_guard lock(mutex_);
    notes_.push_back(std::move(note));
}

void JournalThread::add(const SwingMark& swing) {
    const std::lock_guard lock(mutex_);
    swings_.push_back(swing);
}

double JournalThread::duration_s() const {
    const std::uint64_t first = first_time_us_.load(std::memory_order_relaxed);
    const std::uint64_t newest = newest_time_us_.load(std::memory_order_relaxed);
    return newest > first ? static_cast<double>(newest - first) * seconds_per_us : 0.0;
}

std::optional<double> JournalThread::jitter_ms() const {
    const double jitter_ms = jitter_ms_.load(std::memory_order_relaxed);
    if (jitter_ms < 0.0) return std::nullopt;
    return jitter_ms;
}

std::optional<Problem> JournalThread::problem() const {
    if (!failed_.load(std::memory_order_acquire)) return std::nullopt;
    const std::lock_guard lock(mutex_);
    return problem_;
}

void JournalThread::finish() {
    finish_asked_.store(true, std::memory_order_release);
    if (thread_.joinable()) thread_.join();
}

void JournalThread::close(const RecordingInfo& final_facts) {
    if (!failed_.load(std::memory_order_acquire)) {
        Outcome closed = writer_->close(final_facts);
        if (!closed.ok()) fail(closed.problem());
    }
    if (const std::optional<Problem> why = problem()) {
        RecordingInfo facts = final_facts;
        facts.outcome = RecordingOutcome::incomplete;
        facts.cause = why->what;
        writer_->close_after_failure(facts);
    }
    writer_.reset();
}

void JournalThread::run() {
    while (!finish_asked_.load(std::memory_order_acquire)) {
        if (!work_once()) std::this_thread::sleep_for(nap);
    }
    while (work_once()) {
    }
    write_events();
}

/// Whether there was anything to do.
bool JournalThread::work_once() {
    const std::int64_t now_ns = clock_.steady_ns();
    Sink sink(*this, now_ns);
    const bool idle = session_.recorder_queue().drain(sink) == 0 && session_.recorder_queue().empty();
    if (failed_.load(std::memory_order_relaxed)) return !idle;
    if (!sink.outcome().ok()) {
        fail(sink.outcome().problem());
        return !idle;
    }
    write_events();
    if (Outcome done = writer_->keep_up(now_ns, session_.losses()); !done.ok()) fail(done.problem());
    frames_.store(writer_->frames_written(), std::memory_order_relaxed);
    if (clock_fit_.is_settled())
        jitter_ms_.store(clock_fit_.jitter_sd_ns() * ms_per_ns, std::memory_order_relaxed);
    bytes_.store(writer_->bytes_written(), std::memory_order_relaxed);
    if (now_ns - looked_at_disk_ns_ >= disk_watch_period_ns) watch_disk(now_ns);
    return !idle;
}

void JournalThread::write_events() {
    std::vector<RecordingNote> notes;
    std::vector<SwingMark> swings;
    {
        const std::lock_guard lock(mutex_);
        notes.swap(notes_);
        swings.swap(swings_);
    }
    if (failed_.load(std::memory_order_relaxed)) return;
    for (const RecordingNote& note : notes) {
        if (Outcome done = writer_->append(note); !done.ok()) return fail(done.problem());
    }
    for (const SwingMark& swing : swings) {
        if (Outcome done = writer_->append(swing); !done.ok()) return fail(done.problem());
    }
}

/// Stops while there is still room to make the recording of the journal: a full disk found only by a failed
/// write would leave a journal that nothing on this disk can be made of.
void JournalThread::watch_disk(std::int64_t now_ns) {
    looked_at_disk_ns_ = now_ns;
    const std::uint64_t left = free_bytes_beside(path_);
    free_bytes_.store(left, std::memory_order_relaxed);
    if (left < room_to_fold(writer_->bytes_written()) + room_for_others &&
        !failed_.load(std::memory_order_relaxed)) {
        fail({ProblemKind::disk_failed, path_.parent_path().string(), "the disk is full", "free some space"});
    }
}

void JournalThread::fail(Problem problem) {
    const std::lock_guard lock(mutex_);
    problem_ = std::move(problem);
    failed_.store(true, std::memory_order_release);
}

std::uint64_t room_to_fold(std::uint64_t journal_bytes) {
    return journal_bytes / 10 * 7 + (std::uint64_t{256} << 10);
}

}  // namespace footing
