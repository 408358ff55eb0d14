#include <doctest/doctest.h>

#include "acquisition/record/recording_json.h"
#include "tests/record/journal_samples.h"

using namespace footing;
using namespace footing::samples;

namespace {

constexpr std::size_t frames = 120;

/// A whole journal and the ways to hurt it.
class HurtJournal {
  public:
    HurtJournal() : bytes_(closed_journal(frames)) {}
    [[nodiscard]] std::size_t size() const { return bytes_.size(); }

    HurtJournal& cut_at(std::size_t byte) {
        bytes_.resize(byte);
        return *this;
    }
    HurtJournal& flip_bit(std::size_t byte, unsigned bit) {
        bytes_[byte] = static_cast<char>(bytes_[byte] ^ (1 << bit));
        return *this;
    }
    HurtJournal& overwrite(std::size_t byte, std::size_t count, char with) {
        for (std::size_t i = byte; i < std::min(byte + count, bytes_.size()); ++i) bytes_[i] = with;
        return *this;
    }
    HurtJournal& append_again(std::size_t from, std::size_t to) {
        bytes_.insert(bytes_.end(), bytes_.begin() + static_cast<std::ptrdiff_t>(from),
                      bytes_.begin() + static_cast<std::ptrdiff_t>(to));
        return *this;
    }
    Result<JournalContent> read(const std::filesystem::path& path) const {
        put_bytes(path, bytes_);
        return read_journal(path);
    }

  private:
    std::vector<char> bytes_;
};

}  // namespace

TEST_CASE("a whole journal gives what was put into it") {
    const ScratchFolder folder;
    const Result<JournalContent> read = HurtJournal().read(folder / "a.journal");
    REQUIRE(read.ok());
    CHECK(read.value().frames() == frames);
    CHECK(read.value().is_true());
    REQUIRE(read.value().notes.size() == 1);
    CHECK(read.value().notes[0].text == "half of it");
    REQUIRE(read.value().end);
    CHECK(recording_json(*read.value().end) == recording_json(info_for(two_plates())));
    CHECK(read.value().damage.damaged_places == 0);
    CHECK(read.value().damage.missing_records == 0);
    CHECK(read.value().damage.cut_off_bytes == 0);
}

TEST_CASE(
    "cut off at any byte: never a crash, never an invented frame, the frames before the cut all there "
    "(R10)") {
    const ScratchFolder folder;
    const std::size_t size = HurtJournal().size();
    std::size_t most = 0;
    for (std::size_t cut = 0; cut < size; ++cut) {
        const Result<JournalContent> read = HurtJournal().cut_at(cut).read(folder / "a.journal");
        if (!read.ok()) {
            // Only where not even the first facts are whole.
            CHECK(cut < 2000);
            CHECK(most == 0);
            continue;
        }
        const JournalContent& content = read.value();
        REQUIRE(content.is_true());
        REQUIRE(content.damage.damaged_places == 0);
        REQUIRE(content.frames() >= most);
        most = content.frames();
        CHECK(!content.end);
    }
    CHECK(most == frames);
}

TEST_CASE("a flipped bit anywhere costs the record it is in, and is counted") {
    const ScratchFolder folder;
    const std::size_t size = HurtJournal().size();
    std::size_t least = frames;
    for (std::size_t byte = 0; byte < size; byte += 3) {
        const Result<JournalContent> read =
            HurtJournal().flip_bit(byte, static_cast<unsigned>(byte % 8)).read(folder / "a.journal");
        REQUIRE(read.ok());
        const JournalContent& content = read.value();
        REQUIRE(content.is_true());
        const JournalDamage& damage = content.damage;
        const bool noticed = damage.damaged_places + damage.missing_records + damage.cut_off_bytes > 0;
        REQUIRE_MESSAGE(noticed, byte);
        least = std::min(least, content.frames());
    }
    CHECK(least >= frames - 16);  // a batch is at most 16 frames here
}

TEST_CASE("a hole of zeros in the middle is skipped and reading goes on") {
    const ScratchFolder folder;
    const std::size_t size = HurtJournal().size();
    const Result<JournalContent> read = HurtJournal().overwrite(size / 2, 512, 0).read(folder / "a.journal");
    REQUIRE(read.ok());
    CHECK(read.value().is_true());
    CHECK(read.value().frames() >= frames - 48);
    CHECK(read.value().frames() < frames);
    CHECK(read.value().damage.damaged_places == 1);
    CHECK(read.value().end);
}

TEST_CASE("blocks written twice and blocks of another journal are not taken") {
    const ScratchFolder folder;
    const std::size_t size = HurtJournal().size();
    SUBCASE("the disk wrote a part a second time") {
        const Result<JournalContent> read =
            HurtJournal().append_again(size / 3, size).read(folder / "a.journal");
        REQUIRE(read.ok());
        CHECK(read.value().frames() == frames);
        CHECK(read.value().is_true());
    }
    SUBCASE("an older journal's blocks lie behind the end") {
        std::vector<char> bytes = closed_journal(frames);
        const std::vector<char> other = closed_journal(4 * frames);
        bytes.resize(bytes.size() / 2);
        bytes.insert(bytes.end(), other.begin() + static_cast<std::ptrdiff_t>(bytes.size()), other.end());
        put_bytes(folder / "a.journal", bytes);
        const Result<JournalContent> read = read_journal(folder / "a.journal");
        REQUIRE(read.ok());
        CHECK(read.value().is_true());
        CHECK(read.value().frames() < frames);
        CHECK(!read.value().end);
    }
}

TEST_CASE(
    "what was not synced when the computer lost power may be lost or scrambled: old state or new (R10)") {
    const ScratchFolder folder;
    Chance chance(11);
    for (int round = 0; round < 60; ++round) {
        auto content = std::make_shared<MemoryFile::Content>();
        Result<JournalWriter> writer = JournalWriter::create(std::make_unique<MemoryFile>(content),
                                                             info_for(two_plates()), 5'000'000'000);
        REQUIRE(writer.ok());
        // Each keep_up() a second after the last one syncs; stop anywhere.
        const std::size_t until = 1 + chance.below(3000);
        write_journal(writer.value(), until);
        std::size_t synced_bytes = 0;
        for (std::size_t i = 0; i < content->synced_writes; ++i) synced_bytes += content->writes[i].size();
        std::vector<char> disk;
        for (std::size_t i = 0; i < content->writes.size(); ++i) {
            const bool is_synced = i < content->synced_writes;
            const std::uint64_t fate = is_synced ? 0 : chance.below(4);  // kept, lost, zeros, scrambled
            if (fate == 1) continue;
            for (const std::byte byte : content->writes[i]) {
                disk.push_back(fate == 0   ? static_cast<char>(byte)
                               : fate == 2 ? '\0'
                                           : static_cast<char>(chance.next()));
            }
        }
        put_bytes(folder / "synced.journal",
                  std::vector<char>(disk.begin(), disk.begin() + static_cast<std::ptrdiff_t>(synced_bytes)));
        put_bytes(folder / "crashed.journal", disk);
        const Result<JournalContent> synced = read_journal(folder / "synced.journal");
        const Result<JournalContent> crashed = read_journal(folder / "crashed.journal");
        REQUIRE(synced.ok());
        REQUIRE(crashed.ok());
        CHECK(crashed.value().is_true());
        CHECK(crashed.value().frames() >= synced.value().frames());
        // At 1 kHz at most a second (and a batch) is not synced.
        CHECK(synced.value().frames() + 1040 >= until);
    }
}

TEST_CASE("a full disk: the journal is closed and holds all up to the last flush (R9)") {
    const ScratchFolder folder;
    Chance chance(5);
    for (int round = 0; round < 100; ++round) {
        auto content = std::make_shared<MemoryFile::Content>();
        Result<JournalWriter> writer =
            JournalWriter::create(std::make_unique<MemoryFile>(content), info_for(two_plates()), 0);
        REQUIRE(writer.ok());
        content->room = chance.below(40000);
        const FrameBlock block = cell_frames(0, 2000);
        Outcome outcome = Done{};
        for (std::size_t i = 0; outcome.ok() && i < block.size(); ++i) {
            outcome = writer.value().append(block.frame(i), block.stamps[i].host_time_ns);
            if (outcome.ok()) outcome = writer.value().keep_up(block.stamps[i].host_time_ns, {});
        }
        REQUIRE(!outcome.ok());
        CHECK(outcome.problem().kind == ProblemKind::disk_failed);
        CHECK(sentence(outcome.problem()).find("disk is full") != std::string::npos);
        RecordingInfo facts = info_for(two_plates());
        facts.outcome = RecordingOutcome::incomplete;
        facts.cause = "the disk is full";
        writer.value().close_after_failure(facts);
        put_bytes(folder / "a.journal", flat(*content));
        const Result<JournalContent> read = read_journal(folder / "a.journal");
        REQUIRE(read.ok());
        CHECK(read.value().is_true());
        CHECK(read.value().frames() == writer.value().frames_written());
        CHECK(read.value().damage.cut_off_bytes == 0);
        CHECK(read.value().damage.damaged_places == 0);
    }
}

TEST_CASE("a journal is created exclusively, and nobody reads it while it is written") {
    const ScratchFolder folder;
    put_bytes(folder / "a.journal", {'k', 'e', 'e', 'p'});
    const auto refused = JournalWriter::create(folder / "a.journal", info_for(two_plates()), 0);
    REQUIRE(!refused.ok());
    CHECK(refused.problem().kind == ProblemKind::command_line);
    CHECK(bytes_of(folder / "a.journal") == std::vector<char>{'k', 'e', 'e', 'p'});

    Result<JournalWriter> writer = JournalWriter::create(folder / "b.journal", info_for(two_plates()), 0);
    REQUIRE(writer.ok());
    const Result<JournalReader> reader = JournalReader::open(folder / "b.journal");
    REQUIRE(!reader.ok());
    CHECK(reader.problem().what.find("being written") != std::string::npos);
}
