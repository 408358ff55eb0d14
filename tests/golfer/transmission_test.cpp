#include <doctest/doctest.h>
#include <fcntl.h>
#include <unistd.h>

#include <atomic>
#include <filesystem>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "acquisition/decode/cobs.h"
#include "acquisition/decode/crc32c.h"
#include "acquisition/decode/description.h"
#include "acquisition/decode/little_endian.h"
#include "acquisition/decode/text_line.h"
#include "acquisition/device/emulated_transmission.h"
#include "tests/support/unstopped.h"

using namespace footing;
using test::never_stop;

namespace {

EmulatedDeviceSettings short_lesson() {
    EmulatedDeviceSettings settings;
    settings.swings = 1;
    settings.rate_hz = 100.0;
    return settings;
}

/// Keeps what is sent.
struct KeptLine final : EmulatedLine {
    explicit KeptLine(Framing framing) : framing_(framing) {}
    Framing framing() const override { return framing_; }
    std::string name() const override { return "kept"; }
    Result<Reader> send(std::span<const std::byte> packet, const std::atomic<bool>&) override {
        packets.emplace_back(packet.begin(), packet.end());
        return packets.size() == leave_after ? Reader::gone : Reader::listening;
    }
    std::vector<std::vector<std::byte>> packets;
    std::size_t leave_after = 0;

  private:
    Framing framing_;
};

/// The contract of wire format 1, read independently of the decoder: checksum right and kind as asked.
bool is_whole(std::span<const std::byte> packet) {
    if (packet.size() < 28) return false;
    const std::size_t end = packet.size() - 4;
    return read_little_endian<std::uint32_t>(packet, end) == crc32c(packet.first(end)) &&
           read_little_endian<std::uint16_t>(packet, 0) == 0x4746;
}
int kind_of(std::span<const std::byte> packet) {
    return static_cast<int>(packet[3]);
}

TransmitSettings at_full_speed() {
    TransmitSettings how;
    how.speed = 10000.0;
    return how;
}

}  // namespace

TEST_CASE("datagrams carry the description first, then every frame, by the wire format") {
    EmulatedDevice device(short_lesson());
    KeptLine line(EmulatedLine::Framing::datagram);
    const auto count = transmit(device, line, at_full_speed(), never_stop);
    REQUIRE(count.ok());
    CHECK(count.value().frames == device.frame_count());
    CHECK(count.value().end == TransmitCount::End::lesson_over);
    EmulatedDevice again(short_lesson());
    std::size_t cells = 0;
    std::size_t descriptions = 0;
    for (const auto& packet : line.packets) {
        REQUIRE(is_whole(packet));
        if (kind_of(packet) == 1) {
            ++descriptions;
            const auto* text = reinterpret_cast<const char*>(packet.data()) + 24;
            const auto parsed = parse_description(std::string_view(text, packet.size() - 28), "test");
            REQUIRE(parsed.ok());
            CHECK(parsed.value().serial == device.description().serial);
            continue;
        }
        REQUIRE(kind_of(packet) == 2);
        CHECK(descriptions >= 5);
        const auto frame = again.next();
        const auto counts = std::get<std::span<const std::int32_t>>(frame->values);
        REQUIRE(read_little_endian<std::uint32_t>(packet, 8) == cells);
        REQUIRE(read_little_endian<std::uint64_t>(packet, 12) == frame->stamp.device_time_us);
        for (std::size_t i = 0; i < 8; ++i) {
            REQUIRE(read_little_endian<std::int32_t>(packet, 24 + 4 * i) == counts[i]);
        }
        ++cells;
    }
    CHECK(cells == device.frame_count());
    CHECK(descriptions == count.value().descriptions);
}

TEST_CASE("loss and damage hit exactly the frames that are reported, and the same ones each time") {
    TransmitSettings how = at_full_speed();
    how.loss_probability = 0.05;
    how.damage_probability = 0.05;
    std::vector<std::uint64_t> first_time;
    for (const auto framing : {EmulatedLine::Framing::datagram, EmulatedLine::Framing::stream}) {
        EmulatedDevice device(short_lesson());
        KeptLine line(framing);
        const auto count = transmit(device, line, how, never_stop);
        REQUIRE(count.ok());
        std::vector<bool> came(device.frame_count(), false);
        std::size_t damaged = 0;
        for (auto packet : line.packets) {
            if (framing == EmulatedLine::Framing::stream) {
                REQUIRE(packet.back() == std::byte{0});
                packet.pop_back();
                // A flipped bit may have made a zero: then the packet is cut in two, and neither part is
                // whole.
                const auto decoded = cobs_decode(packet, packet);
                packet.resize(decoded.value_or(0));
            }
            if (!is_whole(packet)) {
                ++damaged;
            } else if (kind_of(packet) == 2) {
                came[read_little_endian<std::uint32_t>(packet, 8)] = true;
            }
        }
        CHECK(damaged == count.value().packets_damaged);
        std::vector<std::uint64_t> missing;
        for (std::size_t i = 0; i < came.size(); ++i) {
            if (!came[i]) missing.push_back(i);
        }
        CHECK(missing == count.value().lost_frames);
        CHECK(missing.size() > came.size() / 20);
        CHECK(missing.size() < came.size() / 5);
        if (first_time.empty()) {
            first_time = missing;
        } else {
            CHECK(missing == first_time);
        }
    }
}

TEST_CASE("a mat's frames go out in bands that make up the whole") {
    EmulatedDeviceSettings settings = short_lesson();
    settings.kind = FrameKind::grid;
    settings.rows = 32;
    settings.columns = 40;
    settings.rate_hz = 20.0;
    EmulatedDevice device(settings);
    KeptLine line(EmulatedLine::Framing::datagram);
    REQUIRE(transmit(device, line, at_full_speed(), never_stop).ok());
    std::size_t values = 0;
    for (const auto& packet : line.packets) {
        REQUIRE(packet.size() <= 1452);
        REQUIRE(is_whole(packet));
        if (kind_of(packet) == 3) values += read_little_endian<std::uint16_t>(packet, 22);
    }
    CHECK(values == device.frame_count() * 32 * 40);
    EmulatedDevice another(settings);
    TransmitSettings text = at_full_speed();
    text.words = TransmitSettings::Words::text_lines;
    const auto refused = transmit(another, line, text, never_stop);
    REQUIRE_FALSE(refused.ok());
    CHECK(refused.problem().kind == ProblemKind::bad_input);
}

TEST_CASE("text lines carry counter, microseconds and counts with their checksum") {
    EmulatedDevice device(short_lesson());
    KeptLine line(EmulatedLine::Framing::stream);
    TransmitSettings how = at_full_speed();
    how.words = TransmitSettings::Words::text_lines;
    REQUIRE(transmit(device, line, how, never_stop).ok());
    REQUIRE(line.packets.size() == device.frame_count());
    EmulatedDevice again(short_lesson());
    for (const auto& packet : line.packets) {
        std::string_view text(reinterpret_cast<const char*>(packet.data()), packet.size());
        REQUIRE(text.back() == '\n');
        text.remove_suffix(1);
        std::array<std::int32_t, 8> counts{};
        const auto read = decode_text_line(text, counts);
        REQUIRE(read.has_value());
        const auto frame = again.next();
        const auto wanted = std::get<std::span<const std::int32_t>>(frame->values);
        CHECK(std::equal(wanted.begin(), wanted.end(), counts.begin()));
        CHECK(read->microseconds == frame->stamp.device_time_us);
    }
}

TEST_CASE("sending ends when the reader leaves or when it is told to stop") {
    EmulatedDevice device(short_lesson());
    KeptLine line(EmulatedLine::Framing::stream);
    line.leave_after = 40;
    const auto count = transmit(device, line, at_full_speed(), never_stop);
    REQUIRE(count.ok());
    CHECK(count.value().end == TransmitCount::End::reader_gone);
    CHECK(line.packets.size() == 40);
    const std::atomic<bool> stop{true};
    EmulatedDevice another(short_lesson());
    const auto stopped = transmit(another, line, at_full_speed(), stop);
    REQUIRE(stopped.ok());
    CHECK(stopped.value().end == TransmitCount::End::stopped);
    CHECK(stopped.value().frames == 0);
}

TEST_CASE("a real pty carries every byte to whoever opens the link") {
    const std::filesystem::path link =
        std::filesystem::temp_directory_path() / ("footing_pty_" + std::to_string(::getpid()));
    EmulatedDevice device(short_lesson());
    Result<TransmitCount> count = Problem{};
    std::size_t whole_frames = 0;
    {
        auto line = open_pty_line(link.string(), 10.0);
        REQUIRE(line.ok());
        std::thread sender([&] { count = transmit(device, *line.value(), at_full_speed(), never_stop); });
        const int port = ::open(link.c_str(), O_RDONLY | O_NOCTTY);
        REQUIRE(port >= 0);
        std::vector<std::byte> packet;
        std::byte buffer[4096];
        while (whole_frames < device.frame_count()) {
            const ssize_t got = ::read(port, buffer, sizeof buffer);
            if (got <= 0) break;
            for (ssize_t i = 0; i < got; ++i) {
                if (buffer[i] != std::byte{0}) {
                    packet.push_back(buffer[i]);
                    continue;
                }
                packet.resize(cobs_decode(packet, packet).value_or(0));
                if (is_whole(packet) && kind_of(packet) == 2) ++whole_frames;
                packet.clear();
            }
        }
        ::close(port);
        sender.join();
    }
    REQUIRE(count.ok());
    CHECK(whole_frames == device.frame_count());
    CHECK_FALSE(std::filesystem::is_symlink(link));
}

TEST_CASE("lines that cannot be opened say so") {
    CHECK(open_udp_line("9750").problem().kind == ProblemKind::command_line);
    CHECK(open_udp_line("127.0.0.1:port").problem().kind == ProblemKind::command_line);
    CHECK(open_udp_line("127.0.0.1:70000").problem().kind == ProblemKind::command_line);
    CHECK(open_serial_line("/dev/there_is_no_such_port").problem().kind == ProblemKind::device_failed);
    CHECK(open_serial_line("/dev/null").problem().kind == ProblemKind::device_failed);
    CHECK(open_pty_line("/there_is_no_such_folder/link", 0.1).problem().kind == ProblemKind::device_failed);
    const auto line = open_pty_line(
        (std::filesystem::temp_directory_path() / ("footing_lonely_" + std::to_string(::getpid()))).string(),
        0.05);
    REQUIRE(line.ok());
    CHECK(line.value()->wait_for_reader(never_stop).problem().kind == ProblemKind::device_failed);
}
