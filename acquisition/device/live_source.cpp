#include "acquisition/device/live_source.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <thread>

#include "acquisition/decode/description.h"
#include "acquisition/decode/packet_stream.h"
#include "acquisition/decode/text_stream.h"
#include "acquisition/device/frame_intake.h"
#include "acquisition/device/text_board.h"
#include "acquisition/frame/count_words.h"
#include "acquisition/pipeline/frame_queue.h"

namespace footing {

namespace {

constexpr std::int64_t ns_per_ms = 1'000'000;
constexpr std::int64_t least_silence_ns = 100 * ns_per_ms;
constexpr double silent_periods = 5.0;
constexpr std::int64_t silence_before_new_port_ns = ns_per_s;
constexpr std::int64_t reopen_every_ns = 250 * ns_per_ms;
constexpr std::chrono::milliseconds open_turn{20};

enum class LineForm { unknown, packets, text };

/// Keeps what comes in one turn with the description, until somebody polls.
class EarlyFrames final : public FrameSink {
  public:
    explicit EarlyFrames(std::size_t most_values) : kept_(std::size_t{4} << 20U, most_values) {}

    void take_frame(const FrameView& frame) override { overflow_ += kept_.push_frame(frame) ? 0U : 1U; }
    void take_gap(const Gap& gap) override { overflow_ += kept_.push_gap(gap) ? 0U : 1U; }
    void hand_over(FrameSink& sink) { kept_.drain(sink); }
    [[nodiscard]] std::uint64_t overflow() const { return overflow_; }

  private:
    FrameQueue kept_;
    std::uint64_t overflow_ = 0;
};

}  // namespace

class LiveSource::Intake final : public PieceTaker {
  public:
    Intake(std::unique_ptr<Link> link, LiveSourceOptions options, const Clock& clock)
        : link_(std::move(link)), options_(std::move(options)), clock_(clock) {}

    Result<DeviceDescription> open(std::chrono::milliseconds patience);
    SourceState poll(FrameSink& sink, std::chrono::milliseconds patience);
    void take_piece(const Piece& piece) override;
    [[nodiscard]] LossCounters losses() const;
    [[nodiscard]] std::string name() const { return link_->name(); }

  private:
    enum class LineState { open, gone };

    void take_datagram(const Piece& piece);
    void take_packet_bytes(const Piece& piece);
    void take_text_bytes(const Piece& piece);
    void take_packet(const Packet& packet, const Piece& piece);
    void take_line(const TextFrame& frame, std::span<const std::int32_t> counts, std::int64_t host_time_ns);
    [[nodiscard]] bool is_foreign(const Packet& packet, const Piece& piece);
    void introduce(const Packet& packet, const Piece& piece);
    void accept(DeviceDescription device, const SenderAddress& sender);
    [[nodiscard]] Problem nothing_heard(std::int64_t waited_ns) const;
    void try_to_reopen(std::chrono::milliseconds patience);

    std::unique_ptr<Link> link_;
    LiveSourceOptions options_;
    const Clock& clock_;

    LineForm form_ = LineForm::unknown;
    PacketStream packets_;
    TextStream text_;
    TextBoardObserver board_;

    std::optional<DeviceDescription> device_;
    std::optional<Problem> bad_description_;
    SenderAddress sender_;
    std::unique_ptr<FrameIntake> frames_;
    std::unique_ptr<EarlyFrames> early_;
    FrameSink* sink_ = nullptr;  ///< where frames go now; not while the device is unknown

    LineState line_ = LineState::gone;
    std::optional<std::int64_t> first_opened_ns_;  ///< opened in turns, it is waited for since then
    std::int64_t newest_heard_ns_ = 0;             ///< anything correct from the device
    std::int64_t newest_frame_ns_ = 0;
    std::int64_t silence_ns_ = least_silence_ns;
    std::int64_t reopen_at_ns_ = 0;
    std::uint64_t damaged_ = 0;
    std::uint64_t foreign_ = 0;
    std::uint64_t packets_heard_ = 0;  ///< correct ones, of anybody
    std::uint64_t bytes_heard_ = 0;
};

// --- opening

Result<DeviceDescription> LiveSource::Intake::open(std::chrono::milliseconds patience) {
    // A line on which nothing was heard yet stays open: many a board starts anew when its port is opened.
    if (line_ != LineState::open) {
        if (auto opened = link_->open(); !opened) return opened.problem();
        line_ = LineState::open;
        if (const std::string warning = link_->warning(); !warning.empty() && options_.tell)
            options_.tell(warning);
    }
    const std::int64_t began_ns = clock_.steady_ns();
    if (!first_opened_ns_) first_opened_ns_ = began_ns;
    const std::int64_t deadline_ns = began_ns + patience.count() * ns_per_ms;
    while (!device_ && clock_.steady_ns() < deadline_ns) {
        if (auto received = link_->receive(*this, open_turn); !received) {
            link_->close();
            line_ = LineState::gone;
            return received.problem();
        }
    }
    if (!device_) return nothing_heard(deadline_ns - *first_opened_ns_);
    newest_frame_ns_ = clock_.steady_ns();
    return *device_;
}

Problem LiveSource::Intake::nothing_heard(std::int64_t waited_ns) const {
    if (bad_description_) return *bad_description_;
    const double waited_s = std::round(100.0 * static_cast<double>(waited_ns) * seconds_per_ns) / 100.0;
    Problem problem{ProblemKind::device_failed, link_->name(), {}, {}};
    if (packets_heard_ > 0) {
        problem.what =
            fmt::format("frames came, but the device did not describe itself within {:g} s", waited_s);
        problem.remedy = "give a layout file, or let the device send its description each second";
    } else if (bytes_heard_ > 0) {
        problem.what = fmt::format(
            "what came within {:g} s was not from plates or a mat that this program knows", waited_s);
        problem.remedy = link_->kind() == LinkKind::serial_stream
                             ? "check the speed (baud) and the port"
                             : "check that the right device sends to this port";
    } else {
        problem.what = fmt::format("nothing was heard for {:g} s", waited_s);
        problem.remedy = "check that the plates are switched on, and the cable or the network";
    }
    return problem;
}

void LiveSource::Intake::introduce(const Packet& packet, const Piece& piece) {
    if (options_.layout) {
        DeviceDescription device = *options_.layout;
        device.serial = packet.head.serial;
        accept(std::move(device), piece.sender);
        return;
    }
    if (packet.kind != wire::PacketKind::description) return;
    auto device = parse_description(description_text(packet), link_->name());
    if (!device) {
        bad_description_ = device.problem();
        return;
    }
    if (device.value().serial != packet.head.serial) {
        bad_description_ =
            Problem{ProblemKind::bad_input, link_->name(),
                    fmt::format("the device's description says serial number {}, its packets say {}",
                                device.value().serial, packet.head.serial),
                    "the device's program must send one and the same number"};
        return;
    }
    accept(std::move(device).value(), piece.sender);
}

void LiveSource::Intake::accept(DeviceDescription device, const SenderAddress& sender) {
    FrameOrderOptions order;
    if (link_->kind() == LinkKind::serial_stream)
        order.window_frames = 0;  // bytes on a line do not overtake each other
    if (form_ == LineForm::text) order.time_width = TimeWidth::bits_32;
    frames_ = std::make_unique<FrameIntake>(device, order);
    early_ = std::make_unique<EarlyFrames>(values_per_frame(device.layout));
    sink_ = early_.get();
    silence_ns_ = std::max(least_silence_ns, static_cast<std::int64_t>(silent_periods / device.rate_hz *
                                                                       static_cast<double>(ns_per_s)));
    sender_ = sender;
    link_->favour(sender);
    damaged_ = 0;  // what came before the device was known is no loss
    foreign_ = 0;
    device_ = std::move(device);
}

// --- receiving

void LiveSource::Intake::take_piece(const Piece& piece) {
    bytes_heard_ += piece.bytes.size();
    if (link_->kind() == LinkKind::datagrams) {
        take_datagram(piece);
        return;
    }
    if (form_ != LineForm::text) take_packet_bytes(piece);
    if (form_ != LineForm::packets) take_text_bytes(piece);
}

void LiveSource::Intake::take_datagram(const Piece& piece) {
    const auto packet = decode_datagram(piece.bytes);
    if (packet) {
        take_packet(*packet, piece);
    } else if (device_ && !(piece.sender == sender_)) {
        ++foreign_;
    } else {
        ++damaged_;
    }
}

void LiveSource::Intake::take_packet_bytes(const Piece& piece) {
    for (auto rest = piece.bytes; !rest.empty();) {
        const PacketStream::Step step = packets_.step(rest);
        rest = rest.subspan(step.taken);
        if (step.verdict == Verdict::invalid) ++damaged_;
        if (step.verdict != Verdict::frame) continue;
        form_ = LineForm::packets;
        take_packet(step.packet, piece);
    }
}

void LiveSource::Intake::take_text_bytes(const Piece& piece) {
    for (auto rest = piece.bytes; !rest.empty();) {
        const TextStream::Step step = text_.step(rest);
        rest = rest.subspan(step.taken);
        if (step.verdict == Verdict::invalid) ++damaged_;
        if (step.verdict == Verdict::frame) take_line(step.frame, step.counts, piece.host_time_ns);
    }
}

void LiveSource::Intake::take_packet(const Packet& packet, const Piece& piece) {
    ++packets_heard_;
    if (!device_) introduce(packet, piece);
    if (!device_) return;
    if (is_foreign(packet, piece)) {
        ++foreign_;
        return;
    }
    newest_heard_ns_ = piece.host_time_ns;
    if (packet.kind != wire::PacketKind::description) newest_frame_ns_ = piece.host_time_ns;
    frames_->take_packet(packet, piece.host_time_ns, *sink_);
}

bool LiveSource::Intake::is_foreign(const Packet& packet, const Piece& piece) {
    if (packet.head.serial != device_->serial) return true;
    if (piece.sender == sender_) return false;
    const bool moved = piece.sender.address == sender_.address &&
                       piece.host_time_ns - newest_heard_ns_ > silence_before_new_port_ns;
    if (moved) {
        sender_ = piece.sender;
        link_->favour(piece.sender);
    }
    return !moved;
}

void LiveSource::Intake::take_line(const TextFrame& frame, std::span<const std::int32_t> counts,
                                   std::int64_t host_time_ns) {
    if (!device_) {
        board_.take(frame);
        if (!board_.cells()) return;
        form_ = LineForm::text;
        if (options_.layout) {
            accept(*options_.layout, {});
        } else {
            if (options_.tell) {
                options_.tell(
                    fmt::format("{}: the board sends {} and does not say where they are; without a "
                                "layout file their usual "
                                "places are assumed",
                                link_->name(), count_words(*board_.cells(), "cell", "cells")));
            }
            accept(assumed_text_board(*board_.cells(), board_.rate_hz()), {});
        }
    }
    newest_heard_ns_ = host_time_ns;
    newest_frame_ns_ = host_time_ns;
    frames_->take_line(frame, counts, host_time_ns, *sink_);
}

// --- polling

SourceState LiveSource::Intake::poll(FrameSink& sink, std::chrono::milliseconds patience) {
    early_->hand_over(sink);
    sink_ = &sink;
    if (line_ == LineState::gone) {
        try_to_reopen(patience);
    } else if (!link_->receive(*this, patience).ok()) {
        link_->close();
        line_ = LineState::gone;
        reopen_at_ns_ = clock_.steady_ns();
        frames_->release(sink);
    }
    sink_ = early_.get();
    const std::int64_t now_ns = clock_.steady_ns();
    frames_->pass_time(now_ns, sink);
    const bool silent = now_ns - newest_frame_ns_ > silence_ns_;
    return silent || line_ == LineState::gone ? SourceState::waiting : SourceState::running;
}

void LiveSource::Intake::try_to_reopen(std::chrono::milliseconds patience) {
    const std::int64_t now_ns = clock_.steady_ns();
    if (now_ns < reopen_at_ns_) {
        const std::int64_t wait_ns = std::min(patience.count() * ns_per_ms, reopen_at_ns_ - now_ns);
        std::this_thread::sleep_for(std::chrono::nanoseconds(wait_ns));
        return;
    }
    reopen_at_ns_ = now_ns + reopen_every_ns;
    if (!link_->open().ok()) return;
    line_ = LineState::open;
    packets_.reset();
    text_.reset();
}

LossCounters LiveSource::Intake::losses() const {
    LossCounters counters;
    counters.damaged = damaged_;
    counters.foreign = foreign_ + link_->foreign_overflow();
    counters.socket_overflow = link_->overflow();
    if (frames_) frames_->add_to(counters);
    if (early_) counters.queue_overflow = early_->overflow();
    return counters;
}

// --- the public face

LiveSource::LiveSource(std::unique_ptr<Link> link, LiveSourceOptions options, const Clock& clock)
    : intake_(std::make_unique<Intake>(std::move(link), std::move(options), clock)) {}

LiveSource::~LiveSource() = default;

Result<DeviceDescription> LiveSource::open(std::chrono::milliseconds patience) {
    return intake_->open(patience);
}

Result<SourceState> LiveSource::poll(FrameSink& sink, std::chrono::milliseconds patience) {
    return intake_->poll(sink, patience);
}

LossCounters LiveSource::losses() const {
    return intake_->losses();
}

std::string LiveSource::name() const {
    return intake_->name();
}

}  // namespace footing
