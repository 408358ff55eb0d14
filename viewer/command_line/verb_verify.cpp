#include <fmt/format.h>

#include <filesystem>
#include <memory>
#include <string>
#include <system_error>

#include "acquisition/frame/count_words.h"
#include "acquisition/frame/units.h"
#include "acquisition/join/joined_device.h"
#include "acquisition/record/file_steps.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/recording_origin.h"
#include "acquisition/record/recording_reader.h"
#include "viewer/command_line/arguments.h"
#include "viewer/command_line/say.h"
#include "viewer/command_line/verbs.h"
#include "viewer/lesson/recording_session.h"
#include "viewer/lesson/wall_time.h"

namespace footing {

namespace {

double seconds_between(const FrameStamp& first, const FrameStamp& last) {
    return last.device_time_us > first.device_time_us
               ? static_cast<double>(last.device_time_us - first.device_time_us) * seconds_per_us
               : 0.0;
}

/// One of several devices.
std::string device_facts(const JoinedDevice& joined, std::size_t number) {
    const std::string losses = describe_losses(joined.losses);
    std::string text = fmt::format(
        "  device {}: {}, {}; {}, {} lost, {}", number, shown_words(device_words(joined.device)),
        shown_words(origin_words(joined.origin)), count_words(joined.frame_count, "frame", "frames"),
        joined.losses.lost, count_words(joined.gaps.size(), "gap", "gaps"));
    if (joined.clock.residual_sd_ns > 0.0) text += "; clock: " + describe_clock(joined.clock);
    return text;
}

void say_facts(const RecordingInfo& info) {
    const std::string name = info.device.name.empty() ? "without a name" : shown_words(info.device.name);
    say_line(fmt::format("  device: {} (serial number {}), {:g} Hz, {} values a frame, {}-handed golfer",
                         name, info.device.serial, info.device.rate_hz, values_per_frame(info.device.layout),
                         info.hand == Hand::left ? "left" : "right"));
    if (info.start.utc_ns != 0) {
        say_line(fmt::format("  started: {}, {}", shown_words(wall_time(info.start.utc_ns, info.zone)),
                             shown_words(origin_words(info.origin))));
    } else {
        say_line("  " + shown_words(origin_words(info.origin)));
    }
    if (info.clock.residual_sd_ns > 0.0) say_line("  clock: " + describe_clock(info.clock));
    for (std::size_t i = 0; i < info.devices.size(); ++i) say_line(device_facts(info.devices[i], i + 1));
    if (info.devices.size() > 1 && joined_residual_ns(info) > 0.0) {
        say_line(fmt::format(
            "  time base: the clock of device 1; the devices' frames belong together to ±{:.2f} ms",
            joined_residual_ns(info) * ms_per_ns));
    }
    const std::string losses = describe_losses(info.losses);
    say_line(fmt::format("  losses: {}; {}", losses.empty() ? "none" : losses,
                         count_words(info.gaps.size(), "gap", "gaps")));
}

std::string recover_hint(const std::filesystem::path& file) {
    return fmt::format("footing recover {} --out FILE.h5", file.string());
}

/// A journal beside a recording means that a recording of this name was begun and never closed.
void tell_of_journal(const std::filesystem::path& file) {
    const std::filesystem::path journal = journal_of(file);
    if (!is_there(file) || !is_there(journal)) return;  // without the recording, that is told of it
    tell_line(fmt::format("footing: {}: is the journal of a recording that was not closed; save it with: {}",
                          journal.string(), recover_hint(journal)));
}

Outcome verify_journal(const std::string& file) {
    Result<JournalReader> opened = JournalReader::open(file);
    if (!opened.ok()) return opened.problem();
    JournalReader& reader = opened.value();
    RecordingInfo info = reader.info();
    std::optional<FrameStamp> first;
    FrameStamp last;
    bool closed = false;
    while (const std::optional<JournalItem> item = reader.next()) {
        const auto* block = std::get_if<FrameBlock>(&*item);
        if (const auto* frames = std::get_if<DeviceFrames>(&*item)) {
            info.devices.at(frames->device).frame_count += frames->block.size();
            info.frame_count += frames->block.size();
            if (frames->device == 0) block = &frames->block;
        } else if (block != nullptr) {
            info.frame_count += block->size();
        }
        if (block != nullptr && block->size() > 0) {
            if (!first) first = block->stamps.front();
            last = block->stamps.back();
        } else if (const auto* device_gap = std::get_if<DeviceGap>(&*item)) {
            JoinedDevice& device = info.devices.at(device_gap->device);
            device.gaps.push_back(device_gap->gap);
            device.losses.lost += device_gap->gap.frames_missing;
        } else if (const auto* gap = std::get_if<Gap>(&*item)) {
            info.gaps.push_back(*gap);
        } else if (const auto* end = std::get_if<JournalEnd>(&*item)) {
            info.losses = end->info.losses;
            closed = true;
        }
    }
    say_line(fmt::format("{}: the journal of a recording that was {}: {} in {:.1f} s", file,
                         closed ? "closed but not made a recording of" : "not closed",
                         count_words(info.frame_count, "frame", "frames"),
                         first ? seconds_between(*first, last) : 0.0));
    say_facts(info);
    say_line("  make a recording of it: " + recover_hint(file));
    const JournalDamage& damage = reader.damage();
    if (damage.damaged_places > 0 || damage.missing_records > 0) {
        return Problem{ProblemKind::bad_input, file,
                       fmt::format("is damaged in {} ({}, {} missing)",
                                   count_words(damage.damaged_places, "place", "places"),
                                   count_words(damage.damaged_bytes, "byte", "bytes"),
                                   count_words(damage.missing_records, "record", "records")),
                       recover_hint(file) + " saves the rest"};
    }
    return Done{};
}

Outcome verify(const std::string& file) {
    tell_of_journal(file);
    if (looks_like_journal(file)) return verify_journal(file);
    Result<RecordingReader> opened = RecordingReader::open(file);
    if (!opened.ok()) return opened.problem();
    RecordingReader& reader = opened.value();
    const RecordingInfo& info = reader.info();
    const RecordingCheck check = reader.check();
    double duration_s = 0.0;
    if (const std::uint64_t frames = reader.frame_count(); frames > 0) {
        const Result<FrameBlock> first = reader.read(0, 1);
        const Result<FrameBlock> last = reader.read(frames - 1, 1);
        if (first.ok() && last.ok())
            duration_s = seconds_between(first.value().stamps[0], last.value().stamps[0]);
    }
    say_line(describe_recording(info, duration_s, file));
    say_facts(info);
    if (check.facts == Facts::as_written && check.damaged.empty() && check.devices_are_whole()) {
        say_line("  all of it is as it was written");
        return Done{};
    }
    std::uint64_t damaged = 0;
    for (const DamagedStretch& stretch : check.damaged) damaged += stretch.frame_count;
    std::string what = damaged > 0
                           ? fmt::format("{} damaged, from frame {} on",
                                         part_words(damaged, info.frame_count, "frame is", "frames are"),
                                         check.damaged.front().first_frame)
                           : "";
    for (std::size_t i = 0; i < check.devices.size(); ++i) {
        std::uint64_t of_device = 0;
        for (const DamagedStretch& stretch : check.devices[i]) of_device += stretch.frame_count;
        if (of_device == 0) continue;
        what += what.empty() ? "" : "; ";
        what += fmt::format("of device {} {} damaged as it was sent", i + 1,
                            part_words(of_device, info.devices[i].frame_count, "frame is", "frames are"));
    }
    if (check.facts == Facts::changed) {
        what += what.empty() ? "" : "; ";
        what += "what it says of itself is not what was written";
    }
    const bool any_left = damaged < info.frame_count || !info.devices.empty();
    return Problem{ProblemKind::bad_input, file, what,
                   any_left ? recover_hint(file) + " saves the rest"
                            : "look for a copy of the recording, or for its journal"};
}

}  // namespace

void add_verify(Arguments& program, VerbOutcome& outcome) {
    auto file = std::make_shared<std::string>();
    Arguments* verb =
        program.add_subcommand("verify", "say what a recording or a journal holds, and whether it is whole");
    verb->add_option("FILE", *file, "a recording (.h5) or a journal")->required();
    verb->callback([file, &outcome] {
        if (const Outcome done = verify(*file); !done.ok()) complain(done.problem(), outcome);
    });
}

}  // namespace footing
