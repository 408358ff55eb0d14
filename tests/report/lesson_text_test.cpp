#include <doctest/doctest.h>

#include <clocale>
#include <cmath>
#include <fstream>
#include <functional>
#include <limits>
#include <locale>
#include <nlohmann/json.hpp>
#include <sstream>

#include "analysis/report/csv_metadata.h"
#include "analysis/report/csv_report.h"
#include "analysis/report/html_report.h"
#include "analysis/report/lesson_json.h"
#include "analysis/report/lesson_table.h"
#include "analysis/report/number_words.h"
#include "analysis/report/plain_words.h"
#include "analysis/report/report_words.h"
#include "analysis/report/text_safety.h"
#include "tests/support/child_process.h"
#include "tests/support/lesson_sample.h"
#include "tests/support/open_data.h"

using namespace footing;
using nlohmann::json;

namespace {

std::vector<std::string> keys_of(const json& object) {
    std::vector<std::string> keys;
    for (const auto& [key, value] : object.items()) keys.push_back(key);
    return keys;
}

using Keys = std::vector<std::string>;

/// Every number in it, for a look at each.
void for_each_number(const json& value, const std::function<void(double)>& look) {
    if (value.is_number()) look(value.get<double>());
    if (value.is_structured()) {
        for (const auto& part : value) for_each_number(part, look);
    }
}

constexpr const char* python = "/usr/bin/python3";

bool have_python() {
    return test::run_program({python, "-c", "import csv"}).exit_code == 0;
}

/// Far below what anyone can measure: a micrometre, a microsecond, a thousandth of a point of share.
double tolerance_of(const std::string& column) {
    if (column.starts_with("cop_")) return 1e-6;
    if (column.ends_with("_s")) return 1e-6;
    return 1e-5;
}

class CommaForPoint : public std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
};

}  // namespace

TEST_CASE("the JSON has the names of the contract (docs: footing analyse --json), and those added since") {
    LessonResult made = sample::lesson_with_loss();
    made.swings[2].numbers.practice_swings_before = 2;
    const json lesson = json::parse(lesson_json(made));
    CHECK(keys_of(lesson) == Keys{"body_weight_n", "calibration", "duration_s", "file", "hand", "quality",
                                  "rate_hz", "strikes_without_swing_s", "sure", "swings",
                                  "swings_as_other_hand"});
    CHECK(keys_of(lesson["quality"]) == Keys{"damaged", "frames", "gaps", "lost", "outcome"});
    CHECK(keys_of(lesson["quality"]["gaps"][0]) == Keys{"from_s", "to_s"});
    REQUIRE(lesson["swings"].size() == 8);
    const json& swing = lesson["swings"][2];
    CHECK(keys_of(swing) == Keys{"cop_m", "cop_u_m", "events", "index", "kind", "lead_cop_m", "lead_cop_u_m",
                                 "lead_share", "rhythm", "smoothness", "tempo", "trail_cop_m",
                                 "trail_cop_u_m", "vertical"});
    CHECK(swing["rhythm"] == json{{"practice_swings", 2}});  // seen before the shot, though not compared
    CHECK(keys_of(swing["events"]) == Keys{"address", "finish", "impact", "takeaway", "top", "turnaround"});
    CHECK(keys_of(swing["events"]["impact"]) == Keys{"source", "time_s", "u_s"});
    CHECK(keys_of(swing["lead_share"]) == Keys{"address", "finish", "impact", "lowest", "top", "turnaround"});
    CHECK(keys_of(swing["lead_share"]["impact"]) == Keys{"u", "value", "verdict"});
    CHECK(keys_of(swing["tempo"]) == Keys{"backswing_s", "downswing_s", "ratio"});
    CHECK(keys_of(swing["vertical"]) == Keys{"max_bw", "max_time_s", "min_bw"});
    CHECK(keys_of(swing["smoothness"]) == Keys{"ldlj", "sparc"});
    CHECK(keys_of(swing["cop_m"]) == Keys{"address", "finish", "impact", "top"});
    CHECK(swing["kind"] == "shot");
    CHECK(swing["events"]["impact"]["source"] == "measured");
    CHECK(swing["lead_share"]["address"]["verdict"] == "inside");
    CHECK(swing["lead_share"]["turnaround"]["verdict"] == "below");
    CHECK(swing["lead_share"]["impact"]["verdict"] == "above");
    CHECK(lesson["swings"][6]["lead_share"]["address"]["verdict"] == "too_close");
    CHECK(lesson["quality"]["lost"] == 122);
    CHECK(lesson["quality"]["outcome"] == "lossy");
    CHECK(lesson["quality"]["gaps"][0]["to_s"] == 2.5);
}

TEST_CASE("what is not known is absent or null in the JSON, and every number is finite") {
    LessonResult bare = sample::lesson_of_unknowns();
    bare.swings[0].events.top->u_s = std::numeric_limits<double>::quiet_NaN();
    bare.swings[0].tempo = Tempo{0.7, 0.0, std::numeric_limits<double>::infinity()};
    const std::string text = lesson_json(bare);
    const json lesson = json::parse(text);
    CHECK(lesson["body_weight_n"].is_null());
    CHECK(lesson["swings"][1]["events"].empty());
    CHECK(lesson["swings"][1]["lead_share"].empty());
    CHECK_FALSE(lesson["swings"][1].contains("tempo"));
    CHECK(lesson["swings"][0]["tempo"]["ratio"].is_null());
    CHECK(lesson["swings"][0]["events"]["top"]["u_s"].is_null());
    for_each_number(lesson, [](double number) { CHECK(std::isfinite(number)); });
    CHECK(json::parse(lesson_json(sample::lesson_without_swings()))["swings"] == json::array());
}

TEST_CASE("hostile names stay data in JSON, table and HTML") {
    for (const std::string& name : sample::hostile_names()) {
        const LessonResult hostile = sample::hostile_lesson(name);
        CHECK(json::parse(lesson_json(hostile))["file"] == clean_text(name));
        const std::string table = lesson_table(hostile);
        CHECK(table.find('\x01') == std::string::npos);
        CHECK(table.find('\r') == std::string::npos);
        const std::string html = html_report(hostile);
        CHECK(html.find("<script") == std::string::npos);
        CHECK(html.find(escaped(name)) != std::string::npos);
    }
}

TEST_CASE("the table has one line a swing with shares, verdict words and tempo") {
    const std::string table = lesson_table(sample::lesson());
    CHECK(table.find("3  shot       36.00  73.1 ± 0.8 inside") != std::string::npos);
    CHECK(table.find("83 ± 1 above") != std::string::npos);
    CHECK(table.find("70.2 ± 0.8 too close") != std::string::npos);
    CHECK(table.find("2.2 : 1") != std::string::npos);
    CHECK(lesson_table(sample::lesson_without_swings()).find("No swing was found") != std::string::npos);
}

TEST_CASE("no more digits than the uncertainty bears") {
    CHECK(share_words({0.7432, 0.004, Verdict::inside}) == "74.3 ± 0.8 %");
    CHECK(share_words({0.7432, 0.0051, Verdict::inside}) == "74 ± 1 %");
    CHECK(share_words({0.7432, 0.024, Verdict::inside}) == "74 ± 5 %");
    CHECK(share_words({0.7432, 0.0001, Verdict::inside}) == "74.3 ± 0.1 %");
    CHECK(share_words({0.7432, 0.0, Verdict::inside}) == "74 %");
    CHECK(share_words({0.7432, std::nan(""), Verdict::inside}) == "74 %");
    CHECK(number_words(-0.04, 1) == "0.0");
    CHECK(number_words(-1.5, 1) == "−1.5");
    CHECK(duration_words(4.25) == "4.3 s");
    CHECK(duration_words(125) == "2 min 5 s");
    CHECK(duration_words(3700) == "1 h 1 min");
    CHECK(unbroken("70 to 80 %, 3 of 5") == "70\u00A0to\u00A080\u00A0%, 3 of 5");
    CHECK(unbroken("62 yd, 0.71 s back, 5 shots, 2 more") == "62\u00A0yd, 0.71\u00A0s back, 5 shots, 2 more");
    CHECK(unbroken("74 ± 1 % of 2.1 : 1") == "74\u00A0±\u00A01\u00A0% of 2.1\u00A0:\u00A01");
}

TEST_CASE("free text is made harmless for its place") {
    CHECK(csv_text("=1+1") == "'=1+1");
    CHECK(csv_text("+49") == "'+49");
    CHECK(csv_text("-x") == "'-x");
    CHECK(csv_text("@x") == "'@x");
    CHECK(csv_text("\t=x") == "\"' =x\"");
    CHECK(csv_text("plain") == "plain");
    CHECK(csv_text("a,\"b\"") == "\"a,\"\"b\"\"\"");
    CHECK(escaped("<a href=\"x\">&'") == "&lt;a href=&quot;x&quot;&gt;&amp;&#39;");
    CHECK(clean_text("a\xFF"
                     "b") ==
          "a\uFFFD"
          "b");
    CHECK(clean_text("\xC0\xAF") == "\uFFFD\uFFFD");            // overlong, RFC 3629 section 3
    CHECK(clean_text("\xED\xA0\x80") == "\uFFFD\uFFFD\uFFFD");  // surrogate
    CHECK(clean_text("a\u202E"
                     "b\n\x01") == "ab  ");
    CHECK(clean_text("äöüß", 3) == "äö…");
    CHECK(clean_text("äöü", 3) == "äöü");
    CHECK(clean_parts("Ada · 2026-11-25") == "Ada · 2026-11-25");
    CHECK(clean_parts("ليلى · 2026-11-25 · x") == "ليلى\u200E · 2026-11-25\u200E · x");
}

TEST_CASE("the CSV reads back in Python's csv module with every text and number as it was") {
    if (!have_python()) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    const test::ScratchFolder folder;
    for (const std::string& name : sample::hostile_names()) {
        const LessonResult lesson = sample::hostile_lesson(name);
        test::write_file(folder / "lesson.csv", csv_report(lesson));
        const auto read = test::run_program(
            {python, "-c",
             "import csv,json,sys\n"
             "rows=list(csv.DictReader(open(sys.argv[1],encoding='utf-8',newline=''),strict=True))\n"
             "assert all(None not in row and None not in row.values() for row in rows)\n"
             "print(json.dumps(rows))",
             folder / "lesson.csv"});
        CAPTURE(read.err);
        REQUIRE(read.exit_code == 0);
        const json rows = json::parse(read.out);
        REQUIRE(rows.size() == 2);
        const std::string student = rows[0]["student"];
        CHECK(student.substr(student.front() == '\'' ? 1 : 0) == clean_text(name));
        CHECK(std::string("=+-@\t").find(student.front()) == std::string::npos);
        constexpr double nine_digits = 5e-9;
        CHECK(std::stod(rows[0]["lead_share_impact"].get<std::string>()) ==
              doctest::Approx(lesson.swings[0].lead_share.impact->value).epsilon(nine_digits));
        CHECK(std::stod(rows[1]["impact_time_s"].get<std::string>()) ==
              doctest::Approx(lesson.swings[1].events.impact->time_s).epsilon(nine_digits));
        CHECK(rows[1]["impact_source"] == "measured");
    }
}

TEST_CASE("the CSV of the sample lesson is the golden one, each number within its tolerance") {
    const std::string path = std::string(FOOTING_SOURCE_DIR) + "/tests/golden/report_lesson.csv";
    std::ifstream file(path, std::ios::binary);
    REQUIRE_MESSAGE(file.good(), "the golden file is missing: " << path);
    std::stringstream golden_text;
    golden_text << file.rdbuf();
    const auto golden = test::table_rows(golden_text.str());
    const auto now = test::table_rows(csv_report(sample::lesson()));
    REQUIRE(golden.size() == now.size());
    REQUIRE(golden.size() == 8);
    for (std::size_t row = 0; row < golden.size(); ++row) {
        REQUIRE(golden[row].size() == now[row].size());
        for (const auto& [name, wanted] : golden[row]) {
            REQUIRE(now[row].count(name) == 1);
            const std::string& got = now[row].at(name);
            char* end = nullptr;
            const double number = std::strtod(wanted.c_str(), &end);
            CAPTURE(name);
            if (wanted.empty() || *end != '\0') {
                CHECK(got == wanted);
                continue;
            }
            CHECK(std::abs(std::stod(got) - number) <= tolerance_of(name));
        }
    }
}

TEST_CASE("the table's sidecar names each of its columns with type and unit, as Python reads both") {
    if (!have_python()) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    const test::ScratchFolder folder;
    for (const LessonResult& lesson : {sample::lesson(), sample::lesson_on_mat()}) {
        test::write_file(folder / "l.csv", csv_report(lesson));
        test::write_file(folder / "l.csv-metadata.json", csv_metadata(lesson, "l.csv"));
        // W3C, Metadata Vocabulary for Tabular Data (2015), 5.3 and 5.6: url, tableSchema, names, datatypes.
        const auto read = test::run_program(
            {python, "-c",
             "import csv,json,sys\n"
             "meta=json.load(open(sys.argv[1]+'-metadata.json',encoding='utf-8'))\n"
             "rows=list(csv.DictReader(open(sys.argv[1],newline='',encoding='utf-8')))\n"
             "assert meta['@context'][0]=='http://www.w3.org/ns/csvw' and meta['url']=='l.csv'\n"
             "columns=meta['tableSchema']['columns']\n"
             "assert [c['name'] for c in columns]==list(rows[0]), 'names'\n"
             "unit={c['name']:c.get('schema:unitText') for c in columns}\n"
             "assert unit['backswing_s']=='s' and unit['cop_address_x_m']=='m' and "
             "unit['vertical_max_bw']=='body weight'\n"
             "assert unit['lead_share_address']=='1' and unit['student'] is None\n"
             "for c in columns:\n"
             "    for row in rows:\n"
             "        assert c['dc:description'], c\n"
             "        if c['datatype']=={'base':'datetime','format':'yyyy-MM-dd HH:mm:ss'}:\n"
             "            assert c['name']=='started' and len(row['started'])==19, row['started']\n"
             "        elif c['datatype']!='string':\n"
             "            assert c['datatype']=={'base':'number','format':{'decimalChar':'.'}}, c\n"
             "            assert unit[c['name']] and c['dc:description'], c\n"
             "            if row[c['name']]: float(row[c['name']])\n",
             folder / "l.csv"});
        CAPTURE(read.err);
        CHECK(read.exit_code == 0);
    }
}

TEST_CASE("numbers in files have a point whatever the locale") {
    const LessonResult lesson = sample::lesson();
    const std::string csv = csv_report(lesson);
    const std::string json_text = lesson_json(lesson);
    const std::string html = html_report(lesson);
    const std::string table = lesson_table(lesson);
    const auto same = [&] {
        CHECK(csv_report(lesson) == csv);
        CHECK(lesson_json(lesson) == json_text);
        CHECK(html_report(lesson) == html);
        CHECK(lesson_table(lesson) == table);
    };
    const std::locale before;
    std::locale::global(std::locale(std::locale::classic(), new CommaForPoint));
    same();
    std::locale::global(before);
    for (const std::string name : {"de_DE.UTF-8", "tr_TR.UTF-8"}) {
        if (std::setlocale(LC_ALL, name.c_str()) == nullptr) {
            MESSAGE("not installed here: " << name);
            continue;
        }
        same();
        std::setlocale(LC_ALL, "C");
    }
}

TEST_CASE("the HTML is well-formed, has no script and fetches nothing") {
    const test::ScratchFolder folder;
    std::vector<LessonResult> lessons{sample::lesson_with_loss(), sample::lesson_without_swings(),
                                      sample::lesson_of_unknowns()};
    for (const std::string& name : sample::hostile_names()) lessons.push_back(sample::hostile_lesson(name));
    for (const LessonResult& lesson : lessons) {
        const std::string html = html_report(lesson);
        CHECK(html.find("<script") == std::string::npos);
        CHECK(html.find("<link") == std::string::npos);
        CHECK(html.find("<img") == std::string::npos);
        CHECK(html.find("src=") == std::string::npos);
        CHECK(html.find("url(") == std::string::npos);
        CHECK(html.find("@import") == std::string::npos);
        CHECK(html.find("Content-Security-Policy\" content=\"default-src 'none'") != std::string::npos);
        test::write_file(folder / "report.html", html);
        if (!have_python()) {
            MESSAGE("skipped: python3 is not here");
            continue;
        }
        const auto parsed = test::run_program({python, "-c",
                                               "import sys,xml.etree.ElementTree as E\n"
                                               "root=E.parse(sys.argv[1]).getroot()\n"
                                               "tags=[e.tag for e in root.iter()]\n"
                                               "assert tags.count('h1')==1\n"
                                               "for e in root.iter():\n"
                                               "    assert not any(k.lower().startswith('on') or k.lower() "
                                               "in ('src','href') for k in e.attrib), e.attrib\n"
                                               "    if e.tag=='svg': assert e.get('role')=='img' and "
                                               "e.find('title').text and e.find('desc').text\n"
                                               "    if e.tag=='th': assert e.get('scope')\n",
                                               folder / "report.html"});
        CAPTURE(parsed.err);
        CHECK(parsed.exit_code == 0);
    }
}

TEST_CASE("the report's start as ISO 8601 comes from the lesson, never from the clock") {
    LessonResult lesson = sample::lesson_without_swings();
    CHECK(iso_start(lesson) == "2026-05-14T10:20:44+02:00");
    lesson.facts.started = "2026-11-25 11:25:03 -0330 (America/St_Johns)";
    CHECK(iso_start(lesson) == "2026-11-25T11:25:03-03:30");
    lesson.facts.started = "2026-05-14 10:20:44 UTC";
    CHECK(iso_start(lesson) == "2026-05-14T10:20:44Z");
    for (const std::string odd : {"", "yesterday", "2026-05-1", "2026-05-14 10:20:44 +xx:yy Nowhere"}) {
        lesson.facts.started = odd;
        CHECK(iso_start(lesson) == (odd.size() > 30 ? "2026-05-14T10:20:44Z" : "1970-01-01T00:00:00Z"));
    }
}

TEST_CASE("places carry their uncertainty, and every report says how sure its verdicts are") {
    LessonResult lesson = sample::lesson();
    lesson.sure = 0.99;
    const json swing = json::parse(lesson_json(lesson))["swings"][0];
    CHECK(swing["cop_m"]["address"].size() == 2);  // the contract's shape
    CHECK(swing["cop_u_m"]["address"] == json::array({0.002, 0.0003}));
    CHECK(swing["lead_cop_u_m"]["impact"] == json::array({0.004, 0.005}));
    CHECK(json::parse(lesson_json(lesson))["sure"] == 0.99);
    CHECK(lesson_table(lesson).find("judged with 99 % certainty") != std::string::npos);
    CHECK(lesson_table(lesson).find("CoP at address") != std::string::npos);
    CHECK(html_report(lesson).find("99") != std::string::npos);
    CHECK(place_words({-0.0123, 0.0407}, PointM{0.002, 0.0003}) == "−12 ± 4, 40.7 ± 0.6 mm");
    CHECK(place_words({-0.0123, 0.0407}, std::nullopt) == "−12, 41 mm");
    CHECK(certainty_words(0.999) == "judged with 99.9 % certainty");
}

TEST_CASE("a scale that nobody vouches for is told in words and in the JSON (R17)") {
    LessonResult lesson = sample::lesson();
    const auto notes = [&] {
        std::string all;
        for (const std::string& note : plain_words(lesson).notes) all += note + "\n";
        return all;
    };
    lesson.facts.calibration_facts = {CalibrationState::valid, "2026-01-01", "2027-01-01", 0.003, 0.002,
                                      "known masses",          0.003,        0.002};
    CHECK(notes().find("calibrat") == std::string::npos);
    CHECK(json::parse(lesson_json(lesson))["calibration"]["state"] == "valid");
    lesson.facts.calibration_facts.state = CalibrationState::expired;
    CHECK(notes().find("had expired on 2027-01-01") != std::string::npos);
    CHECK(notes().find("0.4 %") != std::string::npos);
    lesson.facts.calibration_facts.state = CalibrationState::nominal;
    CHECK(notes().find("not calibrated") != std::string::npos);
    CHECK(json::parse(lesson_json(lesson))["calibration"]["ratio_relative_u"] == 0.002);
}

TEST_CASE("a device that restarted is told, though no frame is counted as lost") {
    LessonResult lesson = sample::lesson();
    lesson.facts.losses.lost = lesson.facts.losses.damaged = 0;
    lesson.facts.outcome = RecordingOutcome::clean;
    lesson.facts.cause.clear();
    lesson.facts.gaps.clear();
    const auto told = [&](const std::string& name) {
        for (const Fact& fact : lesson_facts(lesson)) {
            if (fact.name == name) return fact.value;
        }
        return std::string();
    };
    CHECK(told("Recording").ends_with("none lost or damaged"));
    lesson.facts.gaps = {{25.0, 29.6}};
    CHECK(told("Recording").ends_with("none lost or damaged; the device restarted once, away for 4.6 s"));
    CHECK(told("It ended") == "clean: stopped on purpose; the device restarted once, away for 4.6 s");
}

TEST_CASE(
    "loads that no body makes, and impacts that were estimated, are told in the table and in the JSON") {
    LessonResult made = sample::lesson_with_loss();
    for (Swing& swing : made.swings) swing.events.impact->source = EventSource::measured;
    const std::string measured = lesson_table(made, 200);
    CHECK(measured.find("no body makes") == std::string::npos);
    CHECK(measured.find('~') == std::string::npos);
    made.facts.impossible_frames = 2;
    made.swings[1].events.impact = Event{12.345, 0.06, EventSource::estimated};
    const std::string table = lesson_table(made, 200);
    CHECK(table.find("(2 with a load that no body makes, bridged)") != std::string::npos);
    CHECK(table.find("~12.3") != std::string::npos);
    CHECK(table.find("impact estimated from the load in 1 swing, to ± 0.12 s") != std::string::npos);
    CHECK(json::parse(lesson_json(made))["quality"]["impossible"] == 2);
}
