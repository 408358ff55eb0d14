#pragma once

#include <algorithm>
#include <memory>
#include <optional>
#include <vector>

#include "acquisition/record/journal_reader.h"
#include "acquisition/record/journal_writer.h"
#include "tests/record/samples.h"

namespace footing::samples {

/// A file in memory that knows what was synced, and whose disk can become full.
class MemoryFile final : public AppendFile {
  public:
    struct Content {
        std::vector<std::vector<std::byte>> writes;
        std::size_t synced_writes = 0;
        std::size_t room = ~std::size_t{0};
        std::uint64_t size = 0;
    };
    explicit MemoryFile(std::shared_ptr<Content> content) : content_(std::move(content)) {}

    Outcome append(std::span<const std::byte> bytes) override {
        // A full disk takes what still fits and then fails, as write(2) does.
        const std::size_t fits = std::min(bytes.size(), content_->room);
        content_->room -= fits;
        content_->writes.emplace_back(bytes.begin(), bytes.begin() + static_cast<std::ptrdiff_t>(fits));
        content_->size += fits;
        if (fits < bytes.size()) return disk_problem("memory", "be written", ENOSPC);
        return Done{};
    }
    Outcome appear() override { return sync(); }
    Outcome sync_soon() override { return sync(); }
    Outcome sync() override {
        content_->synced_writes = content_->writes.size();
        return Done{};
    }
    Outcome cut_to(std::uint64_t bytes) override {
        while (content_->size > bytes) {
            std::vector<std::byte>& last = content_->writes.back();
            const std::size_t cut = std::min<std::size_t>(last.size(), content_->size - bytes);
            last.erase(last.end() - static_cast<std::ptrdiff_t>(cut), last.end());
            content_->size -= cut;
            content_->room += cut;
            if (last.empty()) content_->writes.pop_back();
        }
        return Done{};
    }

  private:
    std::shared_ptr<Content> content_;
};

inline std::vector<char> flat(const MemoryFile::Content& content) {
    std::vector<char> bytes;
    for (const auto& write : content.writes) {
        for (const std::byte byte : write) bytes.push_back(static_cast<char>(byte));
    }
    return bytes;
}

/// A journal of `frames` frames, one flush each 16 frames, a gap and a note in it, closed.
inline void write_journal(JournalWriter& writer, std::size_t frames) {
    const FrameBlock block = cell_frames(0, frames);
    for (std::size_t i = 0; i < frames; ++i) {
        const std::int64_t now_ns = block.stamps[i].host_time_ns;
        if (i == frames / 2) {
            static_cast<void>(writer.append(RecordingNote{now_ns, "half of it"}).ok());
        }
        static_cast<void>(writer.append(block.frame(i), now_ns).ok());
        static_cast<void>(writer.keep_up(now_ns, {}).ok());
    }
}

inline std::vector<char> closed_journal(std::size_t frames) {
    auto content = std::make_shared<MemoryFile::Content>();
    Result<JournalWriter> writer =
        JournalWriter::create(std::make_unique<MemoryFile>(content), info_for(two_plates()), 0);
    write_journal(writer.value(), frames);
    static_cast<void>(writer.value().close(info_for(two_plates())).ok());
    return flat(*content);
}

/// All that a journal gives.
struct JournalContent {
    std::vector<FrameBlock> blocks;
    std::vector<Gap> gaps;
    std::vector<RecordingNote> notes;
    std::optional<RecordingInfo> end;
    JournalDamage damage;

    [[nodiscard]] std::size_t frames() const {
        std::size_t count = 0;
        for (const FrameBlock& block : blocks) count += block.size();
        return count;
    }
    /// Nothing invented, nothing moved, nothing twice.
    [[nodiscard]] bool is_true() const {
        std::uint64_t newest = 0;
        for (const FrameBlock& block : blocks) {
            if (!frames_are_true(block)) return false;
            for (const FrameStamp& stamp : block.stamps) {
                if (stamp.counter <= newest) return false;
                newest = stamp.counter;
            }
        }
        return true;
    }
};

inline Result<JournalContent> read_journal(const std::filesystem::path& path) {
    Result<JournalReader> reader = JournalReader::open(path);
    if (!reader.ok()) return reader.problem();
    JournalContent content;
    while (std::optional<JournalItem> item = reader.value().next()) {
        if (auto* block = std::get_if<FrameBlock>(&*item)) content.blocks.push_back(std::move(*block));
        if (auto* gap = std::get_if<Gap>(&*item)) content.gaps.push_back(*gap);
        if (auto* note = std::get_if<RecordingNote>(&*item)) content.notes.push_back(*note);
        if (auto* end = std::get_if<JournalEnd>(&*item)) content.end = end->info;
    }
    content.damage = reader.value().damage();
    return content;
}

}  // namespace footing::samples
