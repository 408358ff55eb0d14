#include "viewer/lesson/journal_thread.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "acquisition/frame/units.h"
#include "acquisition/join/joined_device.h"
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
    Sink(JournalThread& journal, Device& device, std::int64_t now_ns)
        : journal_(journal), device_(device), now_ns_(now_ns) {}

    void take_frame(const FrameView& frame) override {
        if (!outcome_.ok()) return;
        outcome_ = journal_.writer_->append(frame, now_ns_, device_.number);
        if (device_.first_time_us.load(std::memory_order_relaxed) == 0) {
            device_.first_time_us.store(frame.stamp.device_time_us, std::memory_order_relaxed);
        }
        device_.newest_time_us.store(frame.stamp.device_time_us, std::memory_order_relaxed);
        device_.clock_fit.take(frame.stamp.device_time_us, frame.stamp.host_time_ns);
    }
    void take_gap(const Gap& gap) override {
        if (gap.frames_missing == 0) device_.clock_fit.restart();
        if (outcome_.ok()) outcome_ = journal_.writer_->append(gap, device_.number);
    }
    [[nodiscard]] const Outcome& outcome() const { return outcome_; }

  private:
    JournalThread& journal_;
    Device& device_;
    std::int64_t now_ns_;
    Outcome outcome_ = Done{};
};

JournalThread::JournalThread(JournalWriter writer, std::vector<Session*> sessions, const Clock& clock,
                             std::filesystem::path journal)
    : writer_(std::move(writer)), clock_(clock), path_(std::move(journal)) {
    for (Session* const session : sessions) {
        Device& device = devices_.emplace_back();
        device.session = session;
        if (sessions.size() > 1) device.number = static_cast<std::uint16_t>(devices_.size());
    }
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
    double longest_s = 0.0;
    for (const Device& device : devices_) {
        const std::uint64_t first = device.first_time_us.load(std::memory_order_relaxed);
        const std::uint64_t newest = device.newest_time_us.load(std::memory_order_relaxed);
        if (newest > first)
            longest_s = std::max(longest_s, static_cast<double>(newest - first) * seconds_per_us);
    }
    return longest_s;
}

std::optional<double> JournalThread::joined_residual_ms() const {
    const double residual_ms = joined_residual_ms_.load(std::memory_order_relaxed);
    if (residual_ms < 0.0) return std::nullopt;
    return residual_ms;
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
        if (facts.outcome != RecordingOutcome::incomplete) {  // closing itself failed
            facts.outcome = RecordingOutcome::incomplete;
            facts.cause += (facts.cause.empty() ? "" : "; ") + why->what;
        }
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
    bool idle = true;
    LossCounters losses;
    for (Device& device : devices_) {
        Sink sink(*this, device, now_ns);
        FrameQueue& queue = device.session->recorder_queue();
        idle = queue.drain(sink) == 0 && queue.empty() && idle;
        losses += device.session->losses();
        if (!sink.outcome().ok() && !failed_.load(std::memory_order_relaxed)) fail(sink.outcome().problem());
    }
    if (failed_.load(std::memory_order_relaxed)) return !idle;
    write_events();
    if (Outcome done = writer_->keep_up(now_ns, losses); !done.ok()) fail(done.problem());
    frames_.store(writer_->frames_written(), std::memory_order_relaxed);
    tell_of_clocks();
    bytes_.store(writer_->bytes_written(), std::memory_order_relaxed);
    if (now_ns - looked_at_disk_ns_ >= disk_watch_period_ns) watch_disk(now_ns);
    return !idle;
}

void JournalThread::tell_of_clocks() {
    double jitter_ms = 0.0;
    std::vector<double> residuals_ms;
    for (const Device& device : devices_) {
        if (!device.clock_fit.is_settled()) return;
        jitter_ms = std::max(jitter_ms, device.clock_fit.jitter_sd_ns() * ms_per_ns);
        residuals_ms.push_back(device.clock_fit.residual_ns() * ms_per_ns);
    }
    jitter_ms_.store(jitter_ms, std::memory_order_relaxed);
    if (devices_.size() > 1)
        joined_residual_ms_.store(joined_residual(residuals_ms), std::memory_order_relaxed);
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
