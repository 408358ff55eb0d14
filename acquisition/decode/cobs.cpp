#include "acquisition/decode/cobs.h"

namespace footing {

namespace {
constexpr std::size_t longest_run = 254;  // a code byte of 0xFF: 254 bytes, and no zero after them
}

std::vector<std::byte> cobs_encode(std::span<const std::byte> bytes) {
    std::vector<std::byte> encoded;
    encoded.reserve(cobs_most_bytes(bytes.size()));
    std::size_t code_at = 0;
    encoded.push_back(std::byte{1});
    const auto close_run = [&](std::size_t run) { encoded[code_at] = static_cast<std::byte>(run + 1); };
    const auto open_run = [&] {
        code_at = encoded.size();
        encoded.push_back(std::byte{1});
    };
    std::size_t run = 0;
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        if (bytes[i] == std::byte{0}) {
            close_run(run);
            open_run();
            run = 0;
            continue;
        }
        encoded.push_back(bytes[i]);
        ++run;
        if (run == longest_run && i + 1 < bytes.size()) {
            close_run(run);
            open_run();
            run = 0;
        }
    }
    close_run(run);
    return encoded;
}

std::optional<std::size_t> cobs_decode(std::span<const std::byte> encoded, std::span<std::byte> into) {
    if (encoded.empty()) return std::nullopt;
    std::size_t written = 0;
    std::size_t at = 0;
    while (at < encoded.size()) {
        const auto code = std::to_integer<std::size_t>(encoded[at]);
        if (code == 0 || code > encoded.size() - at) return std::nullopt;
        const std::size_t run = code - 1;
        if (run > into.size() - written) return std::nullopt;
        for (std::size_t i = 1; i <= run; ++i) {
            const std::byte value = encoded[at + i];
            if (value == std::byte{0}) return std::nullopt;
            into[written++] = value;
        }
        at += code;
        if (run < longest_run && at < encoded.size()) {
            if (written == into.size()) return std::nullopt;
            into[written++] = std::byte{0};
        }
    }
    return written;
}

}  // namespace footing
