#include "acquisition/record/fold.h"

#include <algorithm>
#include <optional>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "acquisition/decode/clock_fitter.h"
#include "acquisition/frame/units.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/recording_writer.h"

namespace footing {

namespace {

constexpr std::size_t block_frames = 16384;

/// Passes frames on to the writer, fits the clocks, and finds the holes that nobody has told of.
class Salvage {
  public:
    explicit Salvage(RecordingWriter& writer) : writer_(writer) {}

    Outcome take(const FrameView& frame) {
        const FrameStamp& stamp = frame.stamp;
        if (newest_ && stamp.counter <= newest_->counter) return Done{};  // never twice, never backwards
        if (newest_) find_hole(stamp);
        if (!first_) first_ = stamp;
        newest_ = stamp;
        told_ = 0;
        clock_.take(stamp.device_time_us, stamp.host_time_ns);
        ++frames_;
        return writer_.append(frame);
    }

    Outcome take(const FrameBlock& block) {
        for (std::size_t i = 0; i < block.size(); ++i) {
            if (Outcome done = take(block.frame(i)); !done.ok()) return done;
        }
        return Done{};
    }

    void take(const Gap& gap) {
        told_ += gap.frames_missing;
        if (gap.frames_missing == 0) clock_.restart();
        gaps_.push_back(gap);
    }

    /// `frames_lost`: recorded, but not among those taken.
    void complete(SalvageReport& report, std::uint64_t frames_lost) const {
        report.frames_lost = frames_lost;
        if (first_ && newest_->counter > first_->counter) {
            report.duration_s =
                static_cast<double>(newest_->device_time_us - first_->device_time_us) * seconds_per_us;
            report.seconds_lost = static_cast<double>(frames_lost) * report.duration_s /
                                  static_cast<double>(newest_->counter - first_->counter);
        }
        RecordingInfo& info = report.info;
        info.frame_count = frames_;
        info.gaps = gaps_;
        info.losses.frames = frames_;
        info.losses.lost += frames_lost;
        if (info.start.steady_ns != 0) {  // an import has no host clock
            ClockLine line = clock_.line();
            info.clock = {line.slope,       line.offset_ns,     line.jitter_sd_ns,
                          line.residual_ns, line.worst_late_ns, std::move(line.knots)};
        }
    }

    [[nodiscard]] std::uint64_t frames() const { return frames_; }
    /// Frames missing between those taken that no recorded gap tells of.
    [[nodiscard]] std::uint64_t frames_in_holes() const { return frames_in_holes_; }
    [[nodiscard]] const std::optional<FrameStamp>& newest() const { return newest_; }

  private:
    void find_hole(const FrameStamp& next) {
        const std::uint64_t missing = next.counter - newest_->counter - 1;
        if (missing <= told_) return;
        gaps_.push_back({newest_->counter, missing - told_, newest_->device_time_us, next.device_time_us});
        frames_in_holes_ += missing - told_;
    }

    RecordingWriter& writer_;
    std::optional<FrameStamp> first_;
    std::optional<FrameStamp> newest_;
    std::uint64_t told_ = 0;  ///< frames missing since the newest frame, by gaps that were recorded
    std::vector<Gap> gaps_;
    ClockFitter clock_;
    std::uint64_t frames_ = 0;
    std::uint64_t frames_in_holes_ = 0;
};

void tell_of_damage(SalvageReport& report, const std::string& cause) {
    if (report.info.outcome == RecordingOutcome::clean) report.info.outcome = RecordingOutcome::lossy;
    if (!report.info.cause.empty()) report.info.cause += "; ";
    report.info.cause += cause;
}

}  // namespace

Result<SalvageReport> fold_journal(const std::filesystem::path& journal,
                                   const std::filesystem::path& recording) {
    Result<JournalReader> opened = JournalReader::open(journal);
    if (!opened.ok()) return opened.problem();
    JournalReader& reader = opened.value();
    Result<RecordingWriter> writer = RecordingWriter::create(recording, reader.info());
    if (!writer.ok()) return writer.problem();
    Salvage salvage(writer.value());
    SalvageReport report;
    std::vector<RecordingNote> notes;
    std::vector<SwingMark> swings;
    std::optional<RecordingInfo> end;
    while (std::optional<JournalItem> item = reader.next()) {
        if (const auto* block = std::get_if<FrameBlock>(&*item)) {
            if (Outcome done = salvage.take(*block); !done.ok()) return done.problem();
        } else if (const auto* gap = std::get_if<Gap>(&*item)) {
            salvage.take(*gap);
        } else if (auto* note = std::get_if<RecordingNote>(&*item)) {
            notes.push_back(std::move(*note));
        } else if (const auto* swing = std::get_if<SwingMark>(&*item)) {
            swings.push_back(*swing);
        } else if (auto* last = std::get_if<JournalEnd>(&*item)) {
            end = std::move(last->info);
        }
    }
    report.journal_damage = reader.damage();
    report.info = end ? *end : reader.info();
    report.info.device.layout = reader.info().device.layout;
    report.info.notes = std::move(notes);
    report.info.swings = std::move(swings);
    salvage.complete(report, salvage.frames_in_holes());
    if (!end) {
        report.info.outcome = RecordingOutcome::truncated;
        report.info.cause = "the recording stopped before it could be closed";
        if (salvage.newest()) {
            const std::int64_t host_ns = salvage.newest()->host_time_ns;
            report.info.end = {host_ns, report.info.start.utc_ns + (host_ns - report.info.start.steady_ns)};
        }
    }
    if (report.journal_damage.damaged_places > 0 || report.journal_damage.missing_records > 0) {
        tell_of_damage(report, fmt::format("the journal was damaged in {} places, {} frames were lost there",
                                           std::max<std::uint64_t>(report.journal_damage.damaged_places, 1),
                                           report.frames_lost));
    }
    if (Outcome done = writer.value().close(report.info); !done.ok()) return done.problem();
    return report;
}

Result<SalvageReport> fold_and_remove_journal(const std::filesystem::path& journal,
                                              const std::filesystem::path& recording) {
    Result<SalvageReport> report = fold_journal(journal, recording);
    if (!report.ok()) return report;
    std::error_code error;
    std::filesystem::remove(journal, error);
    if (error) return disk_problem(journal, "be removed", error.value());
    if (Outcome done = sync_folder_of(journal); !done.ok()) return done.problem();
    return report;
}

Result<SalvageReport> salvage_recording(const std::filesystem::path& damaged,
                                        const std::filesystem::path& recording) {
    Result<RecordingReader> opened = RecordingReader::open(damaged);
    if (!opened.ok()) return opened.problem();
    RecordingReader& reader = opened.value();
    Result<RecordingWriter> writer = RecordingWriter::create(recording, reader.info());
    if (!writer.ok()) return writer.problem();
    Salvage salvage(writer.value());
    const RecordingCheck check = reader.check();
    const std::vector<Gap>& gaps = reader.info().gaps;
    std::size_t gaps_told = 0;
    auto stretch = check.damaged.begin();
    for (std::uint64_t first = 0; first < reader.frame_count();) {
        if (stretch != check.damaged.end() && first == stretch->first_frame) {
            first += stretch->frame_count;
            ++stretch;
            continue;
        }
        const std::uint64_t end =
            stretch == check.damaged.end() ? reader.frame_count() : stretch->first_frame;
        Result<FrameBlock> block =
            reader.read(first, static_cast<std::size_t>(std::min<std::uint64_t>(end - first, block_frames)));
        if (!block.ok()) return block.problem();
        for (std::size_t i = 0; i < block.value().size(); ++i) {
            const FrameView frame = block.value().frame(i);
            // The gaps that were recorded are told again, each when the frames have come to it.
            while (gaps_told < gaps.size() && gaps[gaps_told].after_counter < frame.stamp.counter) {
                salvage.take(gaps[gaps_told++]);
            }
            if (Outcome done = salvage.take(frame); !done.ok()) return done.problem();
        }
        first += block.value().size();
    }
    if (salvage.frames() == 0 && reader.frame_count() > 0) {
        return Problem{ProblemKind::bad_input, damaged.string(),
                       fmt::format("nothing can be saved: all {} frames are damaged", reader.frame_count()),
                       "look for a copy of the recording, or for its journal"};
    }
    SalvageReport report;
    report.info = reader.info();
    salvage.complete(report, reader.frame_count() - salvage.frames());
    if (report.frames_lost > 0) {
        tell_of_damage(
            report, fmt::format("the recording was damaged, {} frames were lost there", report.frames_lost));
    }
    if (check.facts == Facts::changed) {
        tell_of_damage(report, "what the recording says of itself was damaged and may be wrong");
    }
    if (Outcome done = writer.value().close(report.info); !done.ok()) return done.problem();
    return report;
}

Result<SalvageReport> recover(const std::filesystem::path& input, const std::filesystem::path& recording) {
    Result<SalvageReport> report =
        looks_like_journal(input) ? fold_journal(input, recording) : salvage_recording(input, recording);
    if (!report.ok()) return report;
    Result<RecordingReader> opened = RecordingReader::open(recording);
    if (!opened.ok()) return opened.problem();
    return report;
}

}  // namespace footing
