#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "tests/support/child_process.h"
#include "viewer/lesson/read_loads.h"

using namespace footing;
using namespace footing::test;
using nlohmann::json;

namespace {

/// Reads force plates of type 2 out of a C3D file after the public description of the format (c3d.org), with
/// nothing but Python's own library: it shares no line with this program.
const char* const reader_in_python = R"(
import json, struct, sys
d = open(sys.argv[1], 'rb').read()
assert d[1] == 0x50
first, last = struct.unpack_from('<HH', d, 6)
data_block, = struct.unpack_from('<H', d, 16)
per_frame, = struct.unpack_from('<H', d, 18)
at = 512 * (d[0] - 1)
assert d[at + 3] == 84, 'Intel'
groups, parameters, p = {}, {}, at + 4
while d[p]:
    length, group = d[p] & 0x7F, struct.unpack_from('b', d, p + 1)[0]
    name = d[p + 2:p + 2 + length].decode()
    q = p + 2 + length
    step, = struct.unpack_from('<h', d, q)
    if group < 0:
        groups[-group] = name
    else:
        kind, = struct.unpack_from('b', d, q + 2)
        dims = list(d[q + 4:q + 4 + d[q + 3]])
        count = 1
        for n in dims: count *= n
        body = q + 4 + d[q + 3]
        if kind == -1:
            text = d[body:body + count].decode()
            width = dims[0]
            value = [text[i:i + width].strip() for i in range(0, count, width)]
        else:
            value = list(struct.unpack_from('<%d%s' % (count, {1: 'b', 2: 'h', 4: 'f'}[kind]), d, body))
        parameters[groups[group] + ':' + name] = value
    if step == 0: break
    p = q + step
used = parameters['ANALOG:USED'][0]
samples = (last - first + 1) * per_frame
assert parameters['POINT:SCALE'][0] < 0, 'reals'
values = struct.unpack_from('<%df' % (samples * used), d, 512 * (data_block - 1))
plates = []
for plate in range(parameters['FORCE_PLATFORM:USED'][0]):
    assert parameters['FORCE_PLATFORM:TYPE'][plate] == 2
    corner = [parameters['FORCE_PLATFORM:CORNERS'][12 * plate + 3 * i:][:3] for i in range(4)]
    centre = [sum(c[i] for c in corner) / 4 for i in range(3)]
    ex = [a - b for a, b in zip(corner[0], corner[1])]
    ey = [a - b for a, b in zip(corner[0], corner[3])]
    unit = lambda v: [x / sum(y * y for y in v) ** 0.5 for x in v]
    ex, ey = unit(ex), unit(ey)
    channel = [c - 1 for c in parameters['FORCE_PLATFORM:CHANNEL'][6 * plate:6 * plate + 6]]
    load, x, y = [], [], []
    for s in range(samples):
        f = [values[s * used + c] for c in channel]
        load.append(-f[2])
        if f[2] > -20:
            x.append(None); y.append(None)
            continue
        px, py = -f[4] / f[2], f[3] / f[2]       # about the surface, mm
        x.append(centre[0] + px * ex[0] + py * ey[0])
        y.append(centre[1] + px * ex[1] + py * ey[1])
    plates.append({'load': load, 'x': x, 'y': y})
times = parameters.get('EVENT:TIMES', [])
events = [[l, 60 * times[2 * i] + times[2 * i + 1]] for i, l in enumerate(parameters.get('EVENT:LABELS', []))]
print(json.dumps({'rate': parameters['ANALOG:RATE'][0], 'plates': plates, 'events': events}))
)";

json read_independently(const ScratchFolder& folder, const std::string& c3d) {
    std::ofstream(folder / "reader.py") << reader_in_python;
    const ProgramOutput read = run_program({"/usr/bin/python3", folder / "reader.py", c3d});
    INFO(read.err);
    REQUIRE(read.exit_code == 0);
    return json::parse(read.out);
}

void compare_foot(const json& plate, const std::vector<double>& load_n, const std::vector<double>& x_m,
                  const std::vector<double>& y_m) {
    REQUIRE(plate["load"].size() == load_n.size());
    double worst_n = 0.0;
    double worst_mm = 0.0;
    std::size_t compared = 0;
    for (std::size_t i = 0; i < load_n.size(); ++i) {
        worst_n = std::max(worst_n, std::abs(plate["load"][i].get<double>() - load_n[i]));
        if (plate["x"][i].is_null() || !known(x_m[i])) continue;
        ++compared;
        worst_mm = std::max({worst_mm, std::abs(plate["x"][i].get<double>() - 1000.0 * x_m[i]),
                             std::abs(plate["y"][i].get<double>() - 1000.0 * y_m[i])});
    }
    CHECK(compared > load_n.size() / 3);
    CHECK(worst_n < 1e-3);
    CHECK(worst_mm < 1e-2);
}

}  // namespace

TEST_CASE("an independent reader of C3D finds the same loads and centres of pressure as the recording has") {
    for (const std::string name : {"left_handed_plates", "mat"}) {
        CAPTURE(name);
        const ScratchFolder folder;
        const std::string recording = FOOTING_SOURCE_DIR "/recordings/" + name + ".h5";
        const ProgramOutput made =
            run_program({FOOTING_PROGRAM, "export", recording, "--out", folder / "lesson.c3d"});
        INFO(made.err);
        REQUIRE(made.exit_code == 0);
        const json read = read_independently(folder, folder / "lesson.c3d");
        const auto loads = read_loads(recording);
        REQUIRE(loads.ok());
        const LoadTrace& trace = loads.value().trace;
        CHECK(read["rate"].get<double>() == doctest::Approx(trace.rate_hz));
        REQUIRE(read["plates"].size() == 2);
        compare_foot(read["plates"][0], trace.left_n, trace.left_x_m, trace.left_y_m);
        compare_foot(read["plates"][1], trace.right_n, trace.right_x_m, trace.right_y_m);

        const ProgramOutput analysed = run_program({FOOTING_PROGRAM, "analyse", recording, "--json", "-"});
        const json swings = json::parse(analysed.out)["swings"];
        std::size_t impacts = 0;
        for (const json& swing : swings) {
            const json& impact = swing["events"]["impact"];
            const std::string label = impact["source"] == "measured" ? "impact" : "impact estimate";
            for (const json& event : read["events"]) {
                const double off_s = std::abs(event[1].get<double>() - impact["time_s"].get<double>());
                if (event[0] == label && off_s < 1e-4) ++impacts;
            }
        }
        CHECK(impacts == swings.size());
    }
}

TEST_CASE("a lesson exported and imported again gives the same swings") {
    const ScratchFolder folder;
    const std::string recording = FOOTING_SOURCE_DIR "/recordings/left_handed_plates.h5";
    REQUIRE(run_program({FOOTING_PROGRAM, "export", recording, "--out", folder / "a.c3d"}).exit_code == 0);
    REQUIRE(
        run_program({FOOTING_PROGRAM, "import", folder / "a.c3d", "--out", folder / "b.h5", "--hand", "left"})
            .exit_code == 0);
    const auto swings_of = [](const std::string& file) {
        return json::parse(run_program({FOOTING_PROGRAM, "analyse", file, "--json", "-"}).out)["swings"];
    };
    const json before = swings_of(recording);
    const json after = swings_of(folder / "b.h5");
    REQUIRE(before.size() == after.size());
    for (std::size_t i = 0; i < before.size(); ++i) {
        const auto share = [i](const json& swings) {
            return swings[i]["lead_share"]["address"]["value"].get<double>();
        };
        CHECK(share(after) == doctest::Approx(share(before)).epsilon(1e-4));
    }
}

TEST_CASE("a lesson exported and imported again is known as well as before, and began when it began") {
    for (const std::string name : {"left_handed_plates", "mat"}) {
        CAPTURE(name);
        const ScratchFolder folder;
        const std::string recording = FOOTING_SOURCE_DIR "/recordings/" + name + ".h5";
        REQUIRE(run_program({FOOTING_PROGRAM, "export", recording, "--out", folder / "a.c3d"}).exit_code ==
                0);
        // Other readers pass over the group of ours.
        CHECK(read_independently(folder, folder / "a.c3d")["plates"].size() == 2);
        const auto imported = run_program({FOOTING_PROGRAM, "import", folder / "a.c3d", "--out",
                                           folder / "b.h5", "--hand", name == "mat" ? "right" : "left"});
        INFO(imported.err);
        REQUIRE(imported.exit_code == 0);
        CHECK(imported.out.find("date of last change") == std::string::npos);
        const auto before = read_loads(recording);
        const auto after = read_loads(folder / "b.h5");
        REQUIRE(before.ok());
        REQUIRE(after.ok());
        CHECK(after.value().facts.started == before.value().facts.started);
        CHECK(after.value().facts.calibration == before.value().facts.calibration);
        const CalibrationFacts& was = before.value().facts.calibration_facts;
        const CalibrationFacts& is = after.value().facts.calibration_facts;
        CHECK(is.state == was.state);
        CHECK(was.ratio_relative_u > 0.005);
        CHECK(is.ratio_relative_u == doctest::Approx(was.ratio_relative_u));
        CHECK(after.value().uncertainty.gain_relative_u ==
              doctest::Approx(before.value().uncertainty.gain_relative_u));
    }
}

TEST_CASE("frames that were lost before an export are lost again after the import, not measured ones") {
    const ScratchFolder folder;
    // Five samples at 100 Hz are missing from the table.
    std::ofstream table(folder / "a.csv");
    table << "time_s,left_n,right_n\n";
    for (int i = 0; i < 400; ++i) {
        if (i >= 200 && i < 205) continue;
        table << 0.01 * i << "," << 300 + i % 7 << "," << 400 - i % 5 << "\n";
    }
    table.close();
    const auto do_it = [](const std::vector<std::string>& words) {
        const ProgramOutput done = run_program(words);
        INFO(done.err);
        REQUIRE(done.exit_code == 0);
    };
    do_it({FOOTING_PROGRAM, "import", folder / "a.csv", "--out", folder / "a.h5"});
    do_it({FOOTING_PROGRAM, "export", folder / "a.h5", "--out", folder / "a.c3d"});
    do_it({FOOTING_PROGRAM, "import", folder / "a.c3d", "--out", folder / "b.h5"});
    const auto quality_of = [](const std::string& file) {
        return json::parse(run_program({FOOTING_PROGRAM, "analyse", file, "--json", "-"}).out)["quality"];
    };
    const json before = quality_of(folder / "a.h5");
    const json after = quality_of(folder / "b.h5");
    CHECK(before["lost"] == 5);
    CHECK(after["lost"] == before["lost"]);
    CHECK(after["frames"] == before["frames"]);
    CHECK(after["outcome"] == "lossy");
    REQUIRE(after["gaps"].size() == 1);
    for (const char* side : {"from_s", "to_s"})
        CHECK(after["gaps"][0][side].get<double>() ==
              doctest::Approx(before["gaps"][0][side].get<double>()).epsilon(1e-4));
}

TEST_CASE("an export never goes over a file, nor under another name than .c3d") {
    const ScratchFolder folder;
    const std::string recording = FOOTING_SOURCE_DIR "/recordings/mat.h5";
    std::ofstream(folder / "there.c3d") << "mine";
    CHECK(run_program({FOOTING_PROGRAM, "export", recording, "--out", folder / "there.c3d"}).exit_code == 2);
    CHECK(run_program({FOOTING_PROGRAM, "export", recording, "--out", folder / "a.mat"}).exit_code == 2);
    CHECK(run_program({FOOTING_PROGRAM, "export", folder / "none.h5", "--out", folder / "a.c3d"}).exit_code ==
          3);
}
