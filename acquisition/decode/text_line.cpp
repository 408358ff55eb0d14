#include "acquisition/decode/text_line.h"

#include <charconv>

#include "acquisition/decode/wire_format.h"

namespace footing {

namespace {

/// Takes fields off the front of a line.
class FieldReader {
  public:
    explicit FieldReader(std::string_view line) : rest_(line) {}

    template <typename Number>
    [[nodiscard]] bool take(Number& number) {
        if (!more_) return false;
        const std::size_t comma = rest_.find(',');
        const std::string_view field = trimmed(rest_.substr(0, comma));
        more_ = comma != std::string_view::npos;
        rest_ = more_ ? rest_.substr(comma + 1) : std::string_view{};
        const auto [end, error] = std::from_chars(field.data(), field.data() + field.size(), number);
        return error == std::errc{} && end == field.data() + field.size();
    }

    [[nodiscard]] bool more() const { return more_; }

  private:
    static std::string_view trimmed(std::string_view field) {
        while (!field.empty() && field.front() == ' ') field.remove_prefix(1);
        while (!field.empty() && field.back() == ' ') field.remove_suffix(1);
        return field;
    }

    std::string_view rest_;
    bool more_ = true;
};

/// The line without its checksum; nothing when the checksum is wrong.
std::optional<std::string_view> checked_part(std::string_view line) {
    const std::size_t star = line.rfind('*');
    if (star == std::string_view::npos) return line;
    const std::string_view digits = line.substr(star + 1);
    unsigned stated = 0;
    const auto [end, error] = std::from_chars(digits.data(), digits.data() + digits.size(), stated, 16);
    if (digits.size() != 2 || error != std::errc{} || end != digits.data() + 2) return std::nullopt;
    if (stated != nmea_checksum(line.substr(0, star))) return std::nullopt;
    return line.substr(0, star);
}

}  // namespace

std::uint8_t nmea_checksum(std::string_view bytes) {
    unsigned sum = 0;
    for (const char byte : bytes) sum ^= static_cast<unsigned char>(byte);
    return static_cast<std::uint8_t>(sum);
}

std::string encode_text_line(std::uint32_t counter, std::uint32_t microseconds,
                             std::span<const std::int32_t> counts, TextChecksum checksum) {
    std::string line = std::to_string(counter);
    line.append(1, ',').append(std::to_string(microseconds));
    for (const std::int32_t count : counts) line.append(1, ',').append(std::to_string(count));
    if (checksum == TextChecksum::nmea) {
        constexpr std::string_view digits = "0123456789ABCDEF";
        const unsigned sum = nmea_checksum(line);
        line.append(1, '*').append(1, digits[sum >> 4U]).append(1, digits[sum & 15U]);
    }
    line.push_back('\n');
    return line;
}

std::optional<TextFrame> decode_text_line(std::string_view line, std::span<std::int32_t> into) {
    if (line.size() > most_text_line_bytes) return std::nullopt;
    const auto checked = checked_part(line);
    if (!checked) return std::nullopt;
    FieldReader fields(*checked);
    TextFrame frame;
    if (!fields.take(frame.counter) || !fields.take(frame.microseconds)) return std::nullopt;
    if (frame.microseconds > wire::latest_device_time_us) return std::nullopt;
    while (fields.more()) {
        if (frame.count == into.size() || !fields.take(into[frame.count])) return std::nullopt;
        ++frame.count;
    }
    if (frame.count == 0) return std::nullopt;
    return frame;
}

}  // namespace footing
