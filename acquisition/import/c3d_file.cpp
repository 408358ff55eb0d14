#include "acquisition/import/c3d_file.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "acquisition/import/c3d_format.h"

namespace footing {

namespace {

constexpr std::size_t most_parameter_bytes = 1U << 20U;
constexpr std::uint64_t bytes_at_once = 1U << 18U;
constexpr double most_rate_hz = 1e6;

Problem bad(const std::string& place, const std::string& what, const std::string& remedy) {
    return {ProblemKind::bad_input, place, what, remedy};
}

std::optional<C3dByteOrder> order_of(std::uint8_t processor) {
    switch (processor) {
        case c3d::processor_intel:
            return C3dByteOrder::intel;
        case c3d::processor_dec:
            return C3dByteOrder::dec;
        case c3d::processor_mips:
            return C3dByteOrder::mips;
        default:
            return std::nullopt;
    }
}

bool sensible_rate(double rate_hz) {
    return rate_hz > 0.0 && rate_hz <= most_rate_hz;
}

/// NAME, NAME2, NAME3, …: a parameter has at most 255 elements in one dimension, so there may be more.
std::vector<double> in_parts(const C3dParameters& parameters, const std::string& name) {
    std::vector<double> all = parameters.numbers("ANALOG", name);
    for (int part = 2; part <= 9; ++part) {
        const std::vector<double> more = parameters.numbers("ANALOG", name + std::to_string(part));
        if (more.empty()) break;
        all.insert(all.end(), more.begin(), more.end());
    }
    return all;
}

std::string capitals(std::string text) {
    for (char& letter : text) {
        if (letter >= 'a' && letter <= 'z') letter = static_cast<char>(letter - 'a' + 'A');
    }
    return text;
}

}  // namespace

C3dFile::C3dFile(C3dBytes bytes, std::string place, std::vector<std::byte> header, C3dByteOrder order,
                 C3dParameters parameters)
    : bytes_(std::move(bytes)),
      place_(std::move(place)),
      header_bytes_(std::move(header)),
      order_(order),
      parameters_(std::move(parameters)) {}

Result<C3dFile> C3dFile::open(C3dBytes bytes, const std::string& place) {
    std::vector<std::byte> header(c3d::block_bytes);
    if (bytes.read_at(0, header) < header.size()) {
        return bad(place, "is too short to be a C3D file", "export it again");
    }
    if (std::to_integer<std::uint8_t>(header[c3d::key_offset]) != c3d::key) {
        return bad(place, "is no C3D file: its second byte is not 0x50", "give a file that was saved as C3D");
    }
    const auto parameter_block = std::to_integer<std::uint64_t>(header[c3d::parameter_block_offset]);
    const std::uint64_t parameters_at = (std::max<std::uint64_t>(parameter_block, 1) - 1) * c3d::block_bytes;
    if (parameters_at < c3d::block_bytes || parameters_at + c3d::first_record_offset > bytes.size) {
        return bad(place, "its parameters would begin where there are none",
                   "the file is damaged; export it again");
    }
    std::vector<std::byte> section(
        static_cast<std::size_t>(std::min<std::uint64_t>(most_parameter_bytes, bytes.size - parameters_at)));
    section.resize(bytes.read_at(parameters_at, section));
    const C3dNumbers raw(section, C3dByteOrder::intel);
    const auto order = order_of(raw.byte(c3d::processor_offset));
    if (!order) {
        return bad(place,
                   "was written for a processor that C3D does not know (" +
                       std::to_string(raw.byte(c3d::processor_offset)) + ")",
                   "export it again");
    }
    // The parameters end where the data begin; the count of blocks is the second witness.
    const std::uint64_t data_at =
        (std::max<std::uint64_t>(C3dNumbers(header, *order).word(c3d::data_block_offset), 1) - 1) *
        c3d::block_bytes;
    std::uint64_t section_bytes =
        raw.byte(c3d::parameter_block_count_offset) * std::uint64_t{c3d::block_bytes};
    if (data_at > parameters_at) section_bytes = data_at - parameters_at;
    if (section_bytes == 0) section_bytes = section.size();
    section.resize(std::min<std::uint64_t>(section.size(), section_bytes));

    auto parameters = C3dParameters::parse(C3dNumbers(section, *order), place);
    if (!parameters) return parameters.problem();
    C3dFile file(std::move(bytes), place, std::move(header), *order, std::move(parameters).value());
    if (Outcome measured = file.measure(); !measured) return measured.problem();
    file.read_scales();
    return file;
}

Outcome C3dFile::measure() {
    const C3dNumbers header(header_bytes_, order_);
    points_ = header.word(c3d::point_count_offset);
    const std::size_t analog_values = header.word(c3d::analog_count_offset);
    samples_per_frame_ = header.word(c3d::samples_per_frame_offset);
    const auto used =
        static_cast<std::size_t>(std::max(0.0, parameters_.count("ANALOG", "USED").value_or(0.0)));
    if (analog_values == 0 || (samples_per_frame_ == 0 && used == 0)) {
        return bad(place_, "has no analog channels, so no force plates can be in it",
                   "export the force plates' channels too");
    }
    if (samples_per_frame_ == 0) samples_per_frame_ = analog_values / used;
    if (samples_per_frame_ == 0 || analog_values % samples_per_frame_ != 0) {
        return bad(place_,
                   "its header contradicts itself: " + std::to_string(analog_values) +
                       " analog values a frame are no whole multiple of " +
                       std::to_string(samples_per_frame_) + " samples",
                   "the file is damaged; export it again");
    }
    channels_ = analog_values / samples_per_frame_;

    const double stated_scale =
        parameters_.number("POINT", "SCALE").value_or(header.real(c3d::point_scale_offset));
    const auto format = parameters_.texts("ANALOG", "FORMAT");
    const bool is_unsigned = !format.empty() && capitals(format.front()) == "UNSIGNED";
    storage_ = stated_scale < 0.0 ? Storage::reals
               : is_unsigned      ? Storage::unsigned_words
                                  : Storage::signed_words;

    double data_block = header.word(c3d::data_block_offset);
    if (data_block < 2.0) data_block = parameters_.count("POINT", "DATA_START").value_or(0.0);
    if (!(data_block >= 2.0 && data_block <= 65535.0)) {
        return bad(place_, "does not say where its data begin", "the file is damaged; export it again");
    }
    data_offset_ = (static_cast<std::uint64_t>(data_block) - 1) * c3d::block_bytes;
    const std::uint64_t value_bytes = storage_ == Storage::reals ? 4 : 2;
    frame_bytes_ = (points_ * c3d::values_per_point + analog_values) * value_bytes;

    const double header_rate = header.real(c3d::point_rate_offset);
    point_rate_hz_ = parameters_.number("POINT", "RATE").value_or(header_rate);
    if (!sensible_rate(point_rate_hz_)) point_rate_hz_ = header_rate;
    analog_rate_hz_ = point_rate_hz_ * static_cast<double>(samples_per_frame_);
    if (!sensible_rate(analog_rate_hz_)) analog_rate_hz_ = parameters_.number("ANALOG", "RATE").value_or(0.0);
    if (!sensible_rate(analog_rate_hz_)) {
        return bad(place_, "states no sampling rate that can be believed",
                   "set POINT:RATE and export it again");
    }
    if (!sensible_rate(point_rate_hz_))
        point_rate_hz_ = analog_rate_hz_ / static_cast<double>(samples_per_frame_);

    // How long it is, the format tells in up to four places, of which some are too small for long recordings
    // and some are left over from before the recording was cut: the largest that the file has room for holds.
    first_frame_ = header.word(c3d::first_frame_offset);
    std::vector<double> stated{header.word(c3d::last_frame_offset) - first_frame_ + 1.0};
    if (const auto frames = parameters_.count("POINT", "FRAMES")) stated.push_back(*frames);
    if (const auto frames = parameters_.number("POINT", "LONG_FRAMES")) stated.push_back(*frames);
    const auto start = parameters_.counts("TRIAL", "ACTUAL_START_FIELD");
    const auto end = parameters_.counts("TRIAL", "ACTUAL_END_FIELD");
    if (start.size() >= 2 && end.size() >= 2) {
        stated.push_back(end[0] + 65536.0 * end[1] - start[0] - 65536.0 * start[1] + 1.0);
    }
    const std::uint64_t room =
        bytes_.size > data_offset_ ? (bytes_.size - data_offset_) / frame_bytes_ : std::uint64_t{0};
    double fits = 0.0;
    double least = 0.0;
    for (const double count : stated) {
        if (!(count >= 1.0) || count != std::floor(count)) continue;
        if (count <= static_cast<double>(room)) fits = std::max(fits, count);
        least = least == 0.0 ? count : std::min(least, count);
    }
    frames_ = fits > 0.0 ? static_cast<std::uint64_t>(fits) : room;
    if (fits == 0.0 && least > 0.0)
        missing_frames_ = static_cast<std::uint64_t>(least - static_cast<double>(room));
    if (frames_ == 0) return bad(place_, "holds no frames", "export it again");
    return Done{};
}

void C3dFile::read_scales() {
    const double general = parameters_.number("ANALOG", "GEN_SCALE").value_or(1.0);
    scale_ = in_parts(parameters_, "SCALE");
    scale_.resize(channels_, 1.0);
    for (double& scale : scale_) scale *= general;
    offset_ = in_parts(parameters_, "OFFSET");
    offset_.resize(channels_, 0.0);
    if (storage_ == Storage::unsigned_words) {
        for (double& offset : offset_) {
            if (offset < 0.0) offset += 65536.0;
        }
    }
}

Result<std::vector<double>> C3dFile::read(std::uint64_t first, std::size_t count,
                                          std::span<const std::size_t> channels) const {
    const std::uint64_t end = std::min(sample_count(), first + count);
    std::vector<double> values;
    if (first >= end) return values;
    values.reserve(static_cast<std::size_t>(end - first) * channels.size());
    const std::uint64_t first_frame = first / samples_per_frame_;
    const std::uint64_t end_frame = (end + samples_per_frame_ - 1) / samples_per_frame_;
    const std::size_t value_bytes = storage_ == Storage::reals ? 4 : 2;

    const std::uint64_t frames_at_once = std::max<std::uint64_t>(1, bytes_at_once / frame_bytes_);
    std::vector<std::byte> buffer;
    for (std::uint64_t frame = first_frame; frame < end_frame; frame += frames_at_once) {
        const std::uint64_t frame_count = std::min(frames_at_once, end_frame - frame);
        buffer.resize(static_cast<std::size_t>(frame_count * frame_bytes_));
        if (bytes_.read_at(data_offset_ + frame * frame_bytes_, buffer) < buffer.size()) {
            return bad(place_ + ", 3-D frame " + std::to_string(frame + 1), "cannot be read",
                       "check the disk, or copy the file again");
        }
        const C3dNumbers numbers(buffer, order_);
        for (std::uint64_t sample = 0; sample < frame_count * samples_per_frame_; ++sample) {
            const std::uint64_t index = frame * samples_per_frame_ + sample;
            if (index < first || index >= end) continue;
            const auto row = static_cast<std::size_t>(sample / samples_per_frame_ * frame_bytes_) +
                             (points_ * c3d::values_per_point +
                              static_cast<std::size_t>(sample % samples_per_frame_) * channels_) *
                                 value_bytes;
            for (const std::size_t channel : channels) {
                const std::size_t at = row + channel * value_bytes;
                double stored = 0.0;
                switch (storage_) {
                    case Storage::reals:
                        stored = numbers.real(at);
                        break;
                    case Storage::unsigned_words:
                        stored = numbers.word(at);
                        break;
                    case Storage::signed_words:
                        stored = numbers.signed_word(at);
                        break;
                }
                values.push_back((stored - offset_[channel]) * scale_[channel]);
            }
        }
    }
    return values;
}

std::vector<C3dEvent> C3dFile::events() const {
    const std::vector<double> times = parameters_.numbers("EVENT", "TIMES");
    if (times.size() < 2) return header_events();
    // EVENT:TIMES holds pairs of minutes and seconds, on the clock of the whole trial.
    const double first_s = std::max(0.0, first_frame_ - 1.0) / point_rate_hz_;
    const std::vector<std::string> labels = parameters_.texts("EVENT", "LABELS");
    const std::vector<std::string> contexts = parameters_.texts("EVENT", "CONTEXTS");
    std::vector<C3dEvent> events;
    for (std::size_t i = 0; i < times.size() / 2; ++i) {
        std::string label = i < labels.size() ? labels[i] : "";
        const std::string context = i < contexts.size() ? contexts[i] : "";
        if (!context.empty() && capitals(context) != "GENERAL") label = context + " " + label;
        events.push_back({60.0 * times[2 * i] + times[2 * i + 1] - first_s, std::move(label)});
    }
    return events;
}

std::vector<C3dEvent> C3dFile::header_events() const {
    const C3dNumbers header(header_bytes_, order_);
    std::vector<C3dEvent> events;
    if (header.word(c3d::event_key_offset) != c3d::event_key) return events;
    const double first_s = std::max(0.0, first_frame_ - 1.0) / point_rate_hz_;
    const std::size_t count =
        std::min<std::size_t>(header.word(c3d::event_count_offset), c3d::most_header_events);
    for (std::size_t i = 0; i < count; ++i) {
        std::string label =
            c3d_text(header, c3d::event_labels_offset + i * c3d::event_label_length, c3d::event_label_length);
        events.push_back({header.real(c3d::event_times_offset + 4 * i) - first_s, std::move(label)});
    }
    return events;
}

}  // namespace footing
