#include <doctest/doctest.h>

#include <cstdlib>
#include <cstring>

#include "tests/record/journal_samples.h"

using namespace footing;
using namespace footing::samples;

namespace {

/// Opens and reads everything there is, as the rest of the program would. Returns frames read; what matters
/// is that it comes back.
std::uint64_t read_everything(const std::filesystem::path& path) {
    Result<RecordingReader> reader = RecordingReader::open(path);
    if (!reader.ok()) {
        CHECK(reader.problem().kind == ProblemKind::bad_input);
        CHECK(!reader.problem().what.empty());
        return 0;
    }
    std::uint64_t frames = 0;
    for (std::uint64_t first = 0; first < std::min<std::uint64_t>(reader.value().frame_count(), 1'000'000);) {
        Result<FrameBlock> block = reader.value().read(first, 4096);
        if (!block.ok() || block.value().size() == 0) break;
        frames += block.value().size();
        first += block.value().size();
    }
    const RecordingCheck check = reader.value().check();
    // What passes all checksums is the truth.
    if (check.facts == Facts::as_written && check.damaged.empty() && frames == 300) {
        CHECK(frames_are_true(reader.value().read(0, 300).value()));
    }
    return frames;
}

std::vector<char> small_recording(const ScratchFolder& folder) {
    std::filesystem::remove(folder / "good.h5");
    RecordingInfo info = info_for(two_plates());
    info.gaps = {{120, 7, 5'020'000, 5'028'000}};
    info.notes = {{5'100'000'000, "zeroed"}};
    REQUIRE(write_recording(folder / "good.h5", info, cell_frames(0, 300)).ok());
    return bytes_of(folder / "good.h5");
}

/// Runs a script of Python with h5py on the folder; false where there is no h5py.
bool run_h5py(const ScratchFolder& folder, const std::string& script) {
    if (std::system("/usr/bin/python3 -c 'import h5py' >/dev/null 2>&1") != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no h5py");
        return false;
    }
    std::ofstream(folder / "script.py") << "import h5py, numpy, shutil, sys, os\nos.chdir(sys.argv[1])\n"
                                        << script;
    const std::string command =
        "/usr/bin/python3 " + (folder / "script.py").string() + " " + folder.path().string();
    REQUIRE(std::system(command.c_str()) == 0);
    return true;
}

/// 4,000, or what FOOTING_MUTATIONS says: for a long run.
int mutations_asked_for() {
    const char* asked = std::getenv("FOOTING_MUTATIONS");
    return asked != nullptr ? std::max(1, std::atoi(asked)) : 4000;
}

std::string refusal(const std::filesystem::path& path) {
    Result<RecordingReader> reader = RecordingReader::open(path);
    if (reader.ok()) return "opened";
    CHECK(reader.problem().kind == ProblemKind::bad_input);
    return sentence(reader.problem());
}

}  // namespace

TEST_CASE("thousands of mutated recordings: a sentence or a recording, never a crash (R22)") {
    const ScratchFolder folder;
    const std::vector<char> good = small_recording(folder);
    Chance chance(20261125);
    std::uint64_t opened = 0;
    const int rounds = mutations_asked_for();
    for (int round = 0; round < rounds; ++round) {
        std::vector<char> bytes = good;
        const std::uint64_t changes = 1 + chance.below(8);
        for (std::uint64_t i = 0; i < changes; ++i) {
            const std::size_t at = chance.below(bytes.size());
            switch (chance.below(5)) {
                case 0:
                    bytes[at] = static_cast<char>(chance.next());
                    break;
                case 1:
                    bytes[at] = static_cast<char>(bytes[at] ^ (1 << chance.below(8)));
                    break;
                case 2:
                    bytes[at] = '\xFF';
                    break;
                case 3:  // an address or a length that points somewhere else
                    for (std::size_t k = 0; k < 8 && (at & ~7U) + k < bytes.size(); ++k) {
                        bytes[(at & ~std::size_t{7}) + k] = good[chance.below(good.size())];
                    }
                    break;
                default:
                    bytes.resize(std::max<std::size_t>(1, at));
                    break;
            }
            if (chance.below(20) == 0) break;
        }
        put_bytes(folder / "bad.h5", bytes);
        if (read_everything(folder / "bad.h5") > 0) ++opened;
    }
    CHECK(opened > 0);  // some changes hit padding
    CHECK(opened < static_cast<std::uint64_t>(rounds));
}

TEST_CASE("a chunk that says it belongs elsewhere is damage, not a stretch of zeros") {
    const ScratchFolder folder;
    std::vector<char> bytes = small_recording(folder);
    // The key of the only chunk of /frames/counts in its B-tree: node head of 24 bytes (one entry), u32
    // length, u32 filter mask, u64 row 0, u64 column 0, u64 0. That of a column is shorter: its third number
    // is the chunk's address.
    std::size_t moved = 0;
    for (std::size_t at = 0; at + 64 < bytes.size(); ++at) {
        if (std::string(&bytes[at], 5) != std::string("TREE\1", 5)) continue;
        const auto number = [&](std::size_t place) {
            std::uint64_t value = 0;
            std::memcpy(&value, &bytes[at + place], sizeof value);
            return value;
        };
        if (number(32) != 0 || number(40) != 0 || number(48) != 0) continue;
        bytes[at + 40] = 16;
        ++moved;
    }
    REQUIRE(moved == 1);
    put_bytes(folder / "bad.h5", bytes);
    Result<RecordingReader> reader = RecordingReader::open(folder / "bad.h5");
    REQUIRE(reader.ok());
    CHECK(!reader.value().read(0, 300).ok());
    CHECK(reader.value().check().damaged.size() == 1);
}

TEST_CASE("a recording cut off anywhere is refused, or read as far as it is whole") {
    const ScratchFolder folder;
    const std::vector<char> good = small_recording(folder);
    for (std::size_t cut = 0; cut < good.size(); cut += 37) {
        put_bytes(folder / "bad.h5",
                  std::vector<char>(good.begin(), good.begin() + static_cast<std::ptrdiff_t>(cut)));
        CHECK(read_everything(folder / "bad.h5") == 0);
    }
}

TEST_CASE("thousands of mutated journals: never a crash, never an invented frame") {
    const ScratchFolder folder;
    const std::vector<char> good = closed_journal(200);
    Chance chance(99);
    for (int round = 0; round < mutations_asked_for() / 2; ++round) {
        std::vector<char> bytes = good;
        for (std::uint64_t i = 0; i < 1 + chance.below(30); ++i) {
            bytes[chance.below(bytes.size())] = static_cast<char>(chance.next());
        }
        put_bytes(folder / "bad.journal", bytes);
        const Result<JournalContent> read = read_journal(folder / "bad.journal");
        if (read.ok()) REQUIRE(read.value().is_true());
    }
}

TEST_CASE("links, foreign objects, missing units and odd storage are refused by name (R16, R22)") {
    const ScratchFolder folder;
    small_recording(folder);
    if (!run_h5py(folder, R"(
def variant(name, change, **how):
    shutil.copy('good.h5', name)
    with h5py.File(name, 'r+', **how) as f:
        change(f)
def external_link(f): f['calibration/more'] = h5py.ExternalLink('/etc/passwd', '/')
def external_link_among_many(f): f['more'] = h5py.ExternalLink('/etc/passwd', '/')
def soft_link(f): f['frames/again'] = h5py.SoftLink('/frames/counter')
def no_unit(f): del f['frames/counts'].attrs['unit']
def odd_unit(f): f['frames/device_time'].attrs['unit'] = 'ms'
def extra_group(f): f.create_group('payload')
def extra_dataset(f): f['frames/more'] = numpy.zeros(300)
def other_filter(f):
    values = f['frames/counts'][:]
    del f['frames/counts']
    f.create_dataset('frames/counts', data=values, compression='lzf').attrs['unit'] = 'count'
def external_storage(f):
    del f['frames/inputs']
    open('raw.bin', 'wb').write(bytes(600))
    f.create_dataset('frames/inputs', (300,), '<u2', external=[('raw.bin', 0, 600)]).attrs['unit'] = '1'
def short_column(f):
    del f['frames/inputs']
    f.create_dataset('frames/inputs', data=numpy.zeros(299, '<u2')).attrs['unit'] = '1'
def wrong_type(f):
    values = f['frames/counts'][:].astype('<f4')
    del f['frames/counts']
    f.create_dataset('frames/counts', data=values).attrs['unit'] = 'count'
def no_counter(f): del f['frames/counter']
def other_format(f): f.attrs['format'] = 'something else'
def hard_loop(f): f['frames/loop'] = f['/']
for change in [external_link, external_link_among_many, soft_link, no_unit, odd_unit, extra_group, extra_dataset, other_filter,
               external_storage, short_column, wrong_type, no_counter, other_format, hard_loop]:
    variant(change.__name__ + '.h5', change)
with h5py.File('newer.h5', 'w', libver='latest') as new, h5py.File('good.h5') as old:
    for name in old: old.copy(name, new)
    for name in old.attrs: new.attrs[name] = old.attrs[name]
)")) {
        return;
    }
    const auto says = [&](const std::string& name, const std::string& words) {
        const std::string said = refusal(folder / (name + ".h5"));
        CHECK_MESSAGE(said.find(words) != std::string::npos, (name + ": " + said));
    };
    says("external_link", "external link");
    says("external_link_among_many", "links to other files");
    says("soft_link", "soft link");
    says("no_unit", "unit is missing");
    says("odd_unit", "'ms'");
    says("extra_group", "/payload");
    says("extra_dataset", "/frames/more");
    says("other_filter", "filter number 32000");
    says("external_storage", "another file");
    says("short_column", "another number of frames");
    says("wrong_type", "wrong type");
    says("no_counter", "/frames/counter");
    says("other_format", "no recording of this program");
    says("hard_loop", "twice");
    says("newer", "h5repack");
}

TEST_CASE("a recording rewritten by another program, otherwise stored, is read the same") {
    const ScratchFolder folder;
    small_recording(folder);
    if (!run_h5py(folder, R"(
shutil.copy('good.h5', 'other.h5')
with h5py.File('other.h5', 'r+') as f:
    def rewrite(name, **how):
        values, unit = f[name][:], f[name].attrs['unit']
        del f[name]
        f.create_dataset(name, data=values, **how).attrs['unit'] = unit.decode()
    rewrite('frames/counts', chunks=(70, 3), compression='gzip', compression_opts=9)
    rewrite('frames/counter')
    rewrite('frames/device_time', chunks=(300,), shuffle=True)
    rewrite('frames/host_time', chunks=(64,), compression='gzip', shuffle=True)
    f.attrs['origin'] = 'text of variable length'
    f.attrs['remark'] = 'attributes that are not known do no harm'
    del f['checksums']
    del f.attrs['facts_checksum']
)")) {
        return;
    }
    Result<RecordingReader> reader = RecordingReader::open(folder / "other.h5");
    REQUIRE_MESSAGE(reader.ok(), (reader.ok() ? "" : sentence(reader.problem())));
    CHECK(reader.value().info().origin == "text of variable length");
    Result<FrameBlock> all = reader.value().read(0, 300);
    REQUIRE(all.ok());
    CHECK(all.value().size() == 300);
    CHECK(frames_are_true(all.value()));
    Result<FrameBlock> part = reader.value().read(65, 100);
    REQUIRE(part.ok());
    CHECK(frames_are_true(part.value()));
    CHECK(part.value().stamps[0] == stamp_at(65));
}
