#include "acquisition/decode/text_stream.h"

#include <algorithm>
#include <cstring>

namespace footing {

TextStream::Step TextStream::step(std::span<const std::byte> bytes) {
    std::size_t at = 0;
    while (at < bytes.size()) {
        const auto rest = bytes.subspan(at);
        const auto end = std::ranges::find(rest, std::byte{'\n'});
        const auto run = rest.first(static_cast<std::size_t>(end - rest.begin()));
        const std::size_t taken = std::min(line_.size() - length_, run.size());
        std::memcpy(line_.data() + length_, run.data(), taken);
        length_ += taken;
        if (taken < run.size() && place_ == Place::in_line) place_ = Place::in_too_long;
        at += run.size();
        if (end == rest.end()) break;
        ++at;
        const Step step = close(at);
        if (step.verdict != Verdict::need_more) return step;
    }
    return {Verdict::need_more, bytes.size(), {}, {}};
}

TextStream::Step TextStream::close(std::size_t taken) {
    const Place place = place_;
    std::string_view line(line_.data(), length_);
    place_ = Place::in_line;
    length_ = 0;
    if (place == Place::before_first_end) return {};
    if (place == Place::in_too_long) return {Verdict::invalid, taken, {}, {}};
    while (!line.empty() && (line.back() == '\r' || line.back() == ' ')) line.remove_suffix(1);
    if (line.empty() || line.front() == '#') return {};
    const auto frame = decode_text_line(line, counts_);
    if (!frame) return {Verdict::invalid, taken, {}, {}};
    return {Verdict::frame, taken, *frame, std::span(counts_).first(frame->count)};
}

void TextStream::reset() {
    length_ = 0;
    place_ = Place::before_first_end;
}

}  // namespace footing
