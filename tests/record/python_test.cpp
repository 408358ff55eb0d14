#include <doctest/doctest.h>

#include <cstdlib>
#include <sstream>

#include "acquisition/record/program_version.h"
#include "tests/record/samples.h"
#include "tests/support/page_block.h"

using namespace footing;
using namespace footing::samples;

namespace {

/// Empty plates for two seconds, then a golfer of 700 N with 75 % on the left foot.
FrameBlock standing() {
    FrameBlock block = cell_frames(0, 6000);
    auto& counts = std::get<std::vector<std::int32_t>>(block.values);
    for (std::size_t i = 0; i < block.size(); ++i) {
        for (std::size_t cell = 0; cell < 8; ++cell) {
            const double load_n = i < 2000 ? 0.0 : cell < 4 ? 700.0 * 0.75 / 4.0 : 700.0 * 0.25 / 4.0;
            counts[i * 8 + cell] =
                5000 + 100 * static_cast<std::int32_t>(cell) + static_cast<std::int32_t>(load_n * 1000.0);
        }
    }
    return block;
}

}  // namespace

TEST_CASE("the twenty lines of Python in the page on the format plot the lead share") {
    if (std::system("/usr/bin/python3 -c 'import h5py' >/dev/null 2>&1") != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no h5py");
        return;
    }
    const ScratchFolder folder;
    RecordingInfo info = info_for(two_plates());
    info.calibration_json.clear();
    REQUIRE(write_recording(folder / "lesson.h5", info, standing()).ok());
    std::string script = test::block_of_page("docs/recording_format.md", "python");
    if (std::system("/usr/bin/python3 -c 'import matplotlib' >/dev/null 2>&1") != 0) {
        MESSAGE("no matplotlib: run without the picture");
        std::istringstream lines(script);
        script.clear();
        for (std::string line; std::getline(lines, line);) {
            if (line.find("plot") == std::string::npos && line.find("plt") == std::string::npos)
                script += line + "\n";
        }
    }
    script += "print('SHARE %.6f %d' % (share[4000], len(share)))\n";
    std::ofstream(folder / "plot.py") << script;
    const std::string command =
        "cd '" + folder.path().string() +
        "' && MPLBACKEND=Agg /usr/bin/python3 plot.py lesson.h5 > said.txt 2> complained.txt";
    const int status = std::system(command.c_str());
    const std::vector<char> complained = bytes_of(folder / "complained.txt");
    REQUIRE_MESSAGE(status == 0, std::string(complained.begin(), complained.end()));
    const std::vector<char> said = bytes_of(folder / "said.txt");
    // Right-handed lead is left; the sample is left-handed, so the lead foot is the right one.
    CHECK(std::string(said.begin(), said.end()).find("SHARE 0.250000 6000") != std::string::npos);
}

TEST_CASE("h5py reads a recording with nothing else installed: every dataset, every unit") {
    if (std::system("/usr/bin/python3 -c 'import h5py' >/dev/null 2>&1") != 0) {
        MESSAGE("skipped: /usr/bin/python3 has no h5py");
        return;
    }
    const ScratchFolder folder;
    REQUIRE(write_recording(folder / "a.h5", info_for(two_plates()), cell_frames(0, 40000)).ok());
    std::ofstream(folder / "read.py") << R"(
import h5py, sys, numpy
f = h5py.File(sys.argv[1], 'r')
units = []
f.visititems(lambda name, item: units.append(item.attrs['unit'].decode()) if isinstance(item, h5py.Dataset) else None)
assert len(units) >= 25 and all(units), units
frames = f['frames']
assert frames['counts'].shape == (40000, 8) and frames['counts'].dtype == numpy.int32
assert (numpy.diff(frames['counter'][:].astype('i8')) == 1).all()
assert (frames['device_time'][:] == 5000000 + 1000 * numpy.arange(40000)).all()
assert frames['counts'].compression == 'gzip' and frames['counts'].shuffle
print(int(frames['counts'][:].astype('i8').sum()))
)";
    const std::string command = "/usr/bin/python3 " + (folder / "read.py").string() + " " +
                                (folder / "a.h5").string() + " > " + (folder / "sum.txt").string();
    REQUIRE(std::system(command.c_str()) == 0);
    std::int64_t sum = 0;
    for (std::uint64_t i = 0; i < 40000; ++i) {
        for (std::size_t cell = 0; cell < 8; ++cell) sum += count_at(i, cell);
    }
    const std::vector<char> said = bytes_of(folder / "sum.txt");
    CHECK(std::stoll(std::string(said.begin(), said.end())) == sum);
}

TEST_CASE("the program version in recordings is that of the build") {
    std::ifstream build(std::string(FOOTING_SOURCE_DIR) + "/CMakeLists.txt");
    const std::string text{std::istreambuf_iterator<char>(build), std::istreambuf_iterator<char>()};
    CHECK(text.find("project(footing VERSION " + std::string(program_version) + " ") != std::string::npos);
}
