#include "acquisition/record/fold.h"

#include <algorithm>
#include <optional>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "acquisition/frame/count_words.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/fold_devices.h"
#include "acquisition/record/recording_writer.h"
#include "acquisition/record/salvage.h"

namespace footing {

namespace {

constexpr std::size_t block_frames = 16384;

/// How much there is to do is not known beforehand, so only whether to go on is asked.
bool is_wanted(WorkWatch* watch) {
    return watch == nullptr || watch->go_on(0.0);
}

/// `frames_lost`: recorded, but not among those taken.
void complete(SalvageReport& report, const Salvage& salvage, std::uint64_t frames_lost) {
    report.frames_lost = frames_lost;
    report.duration_s = salvage.duration_s();
    report.seconds_lost = salvage.seconds_of(frames_lost);
    RecordingInfo& info = report.info;
    info.frame_count = salvage.frames();
    info.gaps = salvage.gaps();
    info.losses.frames = salvage.frames();
    info.losses.lost += frames_lost;
    // An import has no host clock.
    if (info.start.steady_ns != 0) info.clock = clock_fit_of(salvage.clock_line());
}

/// The same for several devices, whose frames fold_devices() has taken.
void complete(SalvageReport& report, const DevicesFolded& folded, std::uint64_t frames_lost) {
    report.frames_lost = frames_lost;
    report.duration_s = folded.duration_s;
    const double rate_hz = report.info.device.rate_hz;
    report.seconds_lost = rate_hz > 0.0 ? static_cast<double>(frames_lost) / rate_hz : 0.0;
    report.info.losses.lost += frames_lost;
}

void tell_of_damage(SalvageReport& report, const std::string& cause) {
    if (report.info.outcome == RecordingOutcome::clean) report.info.outcome = RecordingOutcome::lossy;
    if (!report.info.cause.empty()) report.info.cause += "; ";
    report.info.cause += cause;
}

/// What a journal holds beside frames and gaps.
struct JournalRest {
    std::vector<RecordingNote> notes;
    std::vector<SwingMark> swings;
    std::optional<RecordingInfo> end;
    void take(JournalItem&& item) {
        if (auto* note = std::get_if<RecordingNote>(&item)) notes.push_back(std::move(*note));
        if (const auto* swing = std::get_if<SwingMark>(&item)) swings.push_back(*swing);
        if (auto* last = std::get_if<JournalEnd>(&item)) end = std::move(last->info);
    }
};

/// Sets all that is known but the frames; gives whether the recording was closed.
void begin_report(SalvageReport& report, const JournalReader& reader, JournalRest rest) {
    report.journal_damage = reader.damage();
    report.info = rest.end ? std::move(*rest.end) : reader.info();
    report.info.device.layout = reader.info().device.layout;
    // The frames before the end were read by what was told first.
    report.info.devices.resize(reader.info().devices.size());
    for (std::size_t i = 0; i < report.info.devices.size(); ++i)
        report.info.devices[i].device = reader.info().devices[i].device;
    report.info.notes = std::move(rest.notes);
    report.info.swings = std::move(rest.swings);
}

void tell_of_truncation(SalvageReport& report, std::int64_t newest_host_ns) {
    report.info.outcome = RecordingOutcome::truncated;
    report.info.cause = "the recording stopped before it could be closed";
    if (newest_host_ns == 0) return;
    report.info.end = {newest_host_ns,
                       report.info.start.utc_ns + (newest_host_ns - report.info.start.steady_ns)};
}

void tell_of_journal_damage(SalvageReport& report) {
    if (report.journal_damage.damaged_places == 0 && report.journal_damage.missing_records == 0) return;
    tell_of_damage(report,
                   fmt::format("the journal was damaged in {}, {} lost there",
                               count_words(std::max<std::uint64_t>(report.journal_damage.damaged_places, 1),
                                           "place", "places"),
                               count_words(report.frames_lost, "frame was", "frames were")));
}

/// A journal of several devices. It is read twice, since the clocks must be known before frames are joined.
Result<SalvageReport> fold_journal_of_devices(const std::filesystem::path& journal, RecordingWriter& writer,
                                              const RecordingInfo& info, const RecordingInfo* closing,
                                              WorkWatch* watch) {
    JournalRest rest;
    SalvageReport report;
    report.info = info;
    bool first_time = true;
    bool closed = false;
    const DeviceFeed feed = [&](DeviceSink& sink) -> Outcome {
        Result<JournalReader> opened = JournalReader::open(journal);
        if (!opened.ok()) return opened.problem();
        while (std::optional<JournalItem> item = opened.value().next()) {
            if (!is_wanted(watch)) return given_up(journal.string());
            if (const auto* frames = std::get_if<DeviceFrames>(&*item)) {
                for (std::size_t i = 0; i < frames->block.size(); ++i) {
                    if (Outcome done = sink.take_frame(frames->device, frames->block.frame(i)); !done.ok())
                        return done;
                }
            } else if (const auto* gap = std::get_if<DeviceGap>(&*item)) {
                sink.take_gap(gap->device, gap->gap);
            } else if (first_time) {
                rest.take(std::move(*item));
            }
        }
        if (std::exchange(first_time, false)) {
            if (!rest.end && closing != nullptr) rest.end = *closing;
            closed = rest.end.has_value();
            begin_report(report, opened.value(), std::move(rest));
        }
        return Done{};
    };
    Result<DevicesFolded> folded = fold_devices(feed, writer, report.info);
    if (!folded.ok()) return folded.problem();
    complete(report, folded.value(), folded.value().frames_in_holes);
    if (!closed) tell_of_truncation(report, folded.value().newest_host_ns);
    tell_of_journal_damage(report);
    if (Outcome done = writer.close(report.info); !done.ok()) return done.problem();
    return report;
}

/// fold_journal(), whose end record may be told by `closing` where the journal has none.
Result<SalvageReport> fold(const std::filesystem::path& journal, const std::filesystem::path& recording,
                           const RecordingInfo* closing, WorkWatch* watch) {
    Result<JournalReader> opened = JournalReader::open(journal);
    if (!opened.ok()) return opened.problem();
    JournalReader& reader = opened.value();
    Result<RecordingWriter> writer = RecordingWriter::create(recording, reader.info());
    if (!writer.ok()) return writer.problem();
    if (!reader.info().devices.empty())
        return fold_journal_of_devices(journal, writer.value(), reader.info(), closing, watch);
    Salvage salvage([&writer](const FrameView& frame) { return writer.value().append(frame); });
    JournalRest rest;
    while (std::optional<JournalItem> item = reader.next()) {
        if (!is_wanted(watch)) return given_up(journal.string());
        if (const auto* block = std::get_if<FrameBlock>(&*item)) {
            if (Outcome done = salvage.take(*block); !done.ok()) return done.problem();
        } else if (const auto* gap = std::get_if<Gap>(&*item)) {
            salvage.take(*gap);
        } else {
            rest.take(std::move(*item));
        }
    }
    if (!rest.end && closing != nullptr) rest.end = *closing;
    SalvageReport report;
    const bool closed = rest.end.has_value();
    begin_report(report, reader, std::move(rest));
    complete(report, salvage, salvage.frames_in_holes());
    if (!closed) tell_of_truncation(report, salvage.newest() ? salvage.newest()->host_time_ns : 0);
    tell_of_journal_damage(report);
    if (Outcome done = writer.value().close(report.info); !done.ok()) return done.problem();
    return report;
}

}  // namespace

Result<SalvageReport> fold_journal(const std::filesystem::path& journal,
                                   const std::filesystem::path& recording, WorkWatch* watch) {
    return fold(journal, recording, nullptr, watch);
}

Result<SalvageReport> fold_and_remove_journal(const std::filesystem::path& journal,
                                              const std::filesystem::path& recording,
                                              const RecordingInfo& closing) {
    Result<SalvageReport> report = fold(journal, recording, &closing, nullptr);
    if (!report.ok()) return report;
    std::error_code error;
    std::filesystem::remove(journal, error);
    if (error) return disk_problem(journal, "be removed", error.value());
    if (Outcome done = sync_folder_of(journal); !done.ok()) return done.problem();
    return report;
}

namespace {

void tell_of_recording_damage(SalvageReport& report, const RecordingCheck& check) {
    if (report.frames_lost > 0) {
        tell_of_damage(report, fmt::format("the recording was damaged, {} lost there",
                                           count_words(report.frames_lost, "frame was", "frames were")));
    }
    if (check.facts == Facts::changed) {
        tell_of_damage(report, "what the recording says of itself was damaged and may be wrong");
    }
}

Problem nothing_left(const std::filesystem::path& damaged, std::uint64_t frames) {
    return {ProblemKind::bad_input, damaged.string(),
            "nothing can be saved: " + count_words(frames, "frame", "frames") + ", all damaged",
            "look for a copy of the recording, or for its journal"};
}

/// What the devices sent is read again as it came, and joined anew.
Result<SalvageReport> salvage_devices(const std::filesystem::path& damaged, RecordingReader& reader,
                                      const RecordingCheck& check, RecordingWriter& writer) {
    SalvageReport report;
    report.info = reader.info();
    Result<DevicesFolded> folded = fold_devices(feed_of(reader, check), writer, report.info);
    if (!folded.ok()) return folded.problem();
    std::uint64_t recorded = 0;
    for (const JoinedDevice& device : reader.info().devices) recorded += device.frame_count;
    if (folded.value().device_frames == 0 && recorded > 0) return nothing_left(damaged, recorded);
    complete(report, folded.value(), recorded - folded.value().device_frames);
    tell_of_recording_damage(report, check);
    if (Outcome done = writer.close(report.info); !done.ok()) return done.problem();
    return report;
}

}  // namespace

Result<SalvageReport> salvage_recording(const std::filesystem::path& damaged,
                                        const std::filesystem::path& recording, WorkWatch* watch) {
    Result<RecordingReader> opened = RecordingReader::open(damaged);
    if (!opened.ok()) return opened.problem();
    RecordingReader& reader = opened.value();
    Result<RecordingWriter> writer = RecordingWriter::create(recording, reader.info());
    if (!writer.ok()) return writer.problem();
    const RecordingCheck check = reader.check();
    if (!reader.info().devices.empty()) return salvage_devices(damaged, reader, check, writer.value());
    Salvage salvage([&writer](const FrameView& frame) { return writer.value().append(frame); });
    const std::vector<Gap>& gaps = reader.info().gaps;
    std::size_t gaps_told = 0;
    auto stretch = check.damaged.begin();
    for (std::uint64_t first = 0; first < reader.frame_count();) {
        if (!is_wanted(watch)) return given_up(damaged.string());
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
        return nothing_left(damaged, reader.frame_count());
    }
    SalvageReport report;
    report.info = reader.info();
    complete(report, salvage, reader.frame_count() - salvage.frames());
    tell_of_recording_damage(report, check);
    if (Outcome done = writer.value().close(report.info); !done.ok()) return done.problem();
    return report;
}

Result<SalvageReport> recover(const std::filesystem::path& input, const std::filesystem::path& recording,
                              WorkWatch* watch) {
    Result<SalvageReport> report = looks_like_journal(input) ? fold_journal(input, recording, watch)
                                                             : salvage_recording(input, recording, watch);
    if (!report.ok()) return report;
    Result<RecordingReader> opened = RecordingReader::open(recording);
    if (!opened.ok()) return opened.problem();
    return report;
}

}  // namespace footing
