#include "acquisition/decode/description.h"

#include <doctest/doctest.h>

#include <random>
#include <string>

#include "acquisition/decode/wire_format.h"

using namespace footing;

namespace {

const std::string two_plates =
    R"({"name": "Two plates", "serial": 4294967295, "rate_hz": 1000, "full_scale_counts": 8388608,
 "newtons_per_count": 0.001, "plates": [
  {"name": "left", "centre_mm": [-160, 0], "cells": [{"x_mm": -120.5, "y_mm": 220}, {"x_mm": 120.1, "y_mm": -220.000001}]},
  {"name": "right", "centre_mm": [160.3, 0.7], "cells": [{"x_mm": 0.1, "y_mm": 0.2}]}]})";

std::string changed(std::string text, const std::string& from, const std::string& to) {
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

void check_refused(const std::string& json, const std::string& because) {
    const auto parsed = parse_description(json, "COM 7");
    CAPTURE(json);
    REQUIRE_FALSE(parsed.ok());
    CHECK(parsed.problem().kind == ProblemKind::bad_input);
    CHECK(parsed.problem().place == "COM 7");
    CHECK_FALSE(parsed.problem().remedy.empty());
    CAPTURE(parsed.problem().what);
    CHECK(parsed.problem().what.find(because) != std::string::npos);
}

}  // namespace

TEST_CASE("A description of two plates is read") {
    const auto parsed = parse_description(two_plates, "here");
    REQUIRE(parsed.ok());
    const DeviceDescription& device = parsed.value();
    CHECK(device.name == "Two plates");
    CHECK(device.serial == 4294967295U);
    CHECK(device.rate_hz == 1000.0);
    CHECK(device.full_scale_counts == 8388608.0);
    CHECK(device.newtons_per_count == 0.001);
    CHECK(device.layout.kind == FrameKind::cells);
    REQUIRE(device.layout.plates.size() == 2);
    CHECK(device.layout.plates[0].centre == PointM{-0.16, 0.0});
    CHECK(device.layout.plates[0].cells[0] == PointM{-0.1205, 0.22});
    CHECK(values_per_frame(device.layout) == 3);
}

TEST_CASE("Plates without cells report components; a mat has a grid") {
    const auto plates = parse_description(
        R"({"name": "P", "serial": 1, "rate_hz": 500.5, "plates": [{"name": "left", "centre_mm": [0, 0]}]})",
        "here");
    REQUIRE(plates.ok());
    CHECK(plates.value().layout.kind == FrameKind::components);
    CHECK(values_per_frame(plates.value().layout) == 6);
    CHECK_FALSE(plates.value().newtons_per_count.has_value());
    const auto mat = parse_description(
        R"({"name": "M", "serial": 1, "rate_hz": 100, "grid": {"rows": 48, "columns": 64, "pitch_mm": [10, 12.5], "centre_mm": [0, 5]}})",
        "here");
    REQUIRE(mat.ok());
    CHECK(mat.value().layout.kind == FrameKind::grid);
    CHECK(mat.value().layout.grid->rows == 48);
    CHECK(mat.value().layout.grid->pitch_y_m == 0.0125);
    CHECK(mat.value().layout.grid->centre == PointM{0.0, 0.005});
}

TEST_CASE("Written and read again, a description is the same to the last bit") {
    std::mt19937_64 chance(11);
    std::uniform_real_distribution<double> mm(-1000.0, 1000.0);
    for (int turn = 0; turn < 300; ++turn) {
        // Random text with full digits, as a device might send it.
        std::string json =
            R"({"name": "x", "serial": 5, "rate_hz": 1000, "plates": [{"name": "left", "centre_mm": [0, 0], "cells": [)";
        for (int i = 0; i < 8; ++i) {
            json += (i > 0 ? "," : "") + std::string("{\"x_mm\":") + std::to_string(mm(chance)) +
                    ",\"y_mm\":" +
                    (turn % 2 == 0 ? std::to_string(chance() % 1000 / 7.0)
                                   : std::to_string(1e-3 * (chance() % 1000000))) +
                    "}";
        }
        json += "]}]}";
        const auto first = parse_description(json, "here");
        REQUIRE(first.ok());
        const auto second = parse_description(description_json(first.value()), "here");
        REQUIRE(second.ok());
        REQUIRE(first.value().layout.plates[0].cells == second.value().layout.plates[0].cells);
    }
    const auto parsed = parse_description(two_plates, "here");
    const auto again = parse_description(description_json(parsed.value()), "here");
    REQUIRE(again.ok());
    CHECK(again.value().layout.plates[1].centre == parsed.value().layout.plates[1].centre);
    CHECK(again.value().newtons_per_count == parsed.value().newtons_per_count);
    CHECK(description_json(again.value()) == description_json(parsed.value()));
}

TEST_CASE("Sixteen cells fit into the one packet a description has") {
    DeviceDescription device;
    device.name = "Two plates of eight cells";
    device.serial = 4000000000U;
    device.rate_hz = 1000.0;
    for (const char* name : {"left", "right"}) {
        Plate plate{name, {-0.1605, 0.0}, {}};
        for (int i = 0; i < 8; ++i) plate.cells.push_back({-0.1205, 0.2205});
        device.layout.plates.push_back(plate);
    }
    CHECK(description_json(device).size() <= wire::most_description_bytes);
}

TEST_CASE("A bad description is refused, saying which field and why") {
    check_refused("", "not JSON");
    check_refused("{", "not JSON");
    check_refused("[]", "not a JSON object");
    check_refused("12", "not a JSON object");
    check_refused(changed(two_plates, "\"serial\": 4294967295,", ""), "no \"serial\"");
    check_refused(changed(two_plates, "4294967295", "4294967296"), "\"serial\"");
    check_refused(changed(two_plates, "4294967295", "1.5"), "not a whole number");
    check_refused(changed(two_plates, "4294967295", "\"7\""), "\"serial\"");
    check_refused(changed(two_plates, "\"rate_hz\": 1000", "\"rate_hz\": 0"), "\"rate_hz\"");
    check_refused(changed(two_plates, "\"rate_hz\": 1000", "\"rate_hz\": -5"), "\"rate_hz\"");
    check_refused(changed(two_plates, "\"rate_hz\": 1000", "\"rate_hz\": 1e999"), "not JSON");
    check_refused(changed(two_plates, "0.001", "0"), "zero");
    check_refused(changed(two_plates, "0.001", "-0.001"), "\"newtons_per_count\"");
    check_refused(changed(two_plates, "\"Two plates\"", "17"), "\"name\"");
    check_refused(changed(two_plates, "\"Two plates\"", "\"" + std::string(300, 'x') + "\""), "\"name\"");
    check_refused(changed(two_plates, "[-160, 0]", "[-160]"), "\"centre_mm\"");
    check_refused(changed(two_plates, "[-160, 0]", "[1e300, 0]"), "\"centre_mm\"");
    check_refused(changed(two_plates, "\"x_mm\": -120.5", "\"x_mm\": null"), "\"x_mm\"");
    check_refused(changed(two_plates, "\"x_mm\": -120.5, ", ""), "no \"x_mm\"");
    check_refused(changed(two_plates, "[{\"x_mm\": 0.1, \"y_mm\": 0.2}]", "[]"),
                  "plates with cells and plates without");
    check_refused(changed(two_plates, "[{\"x_mm\": 0.1, \"y_mm\": 0.2}]", "[4]"), "other than an object");
    check_refused(R"({"serial": 1, "rate_hz": 100})", "either \"plates\" or \"grid\"");
    check_refused(R"({"serial": 1, "rate_hz": 100, "plates": []})", "\"plates\"");
    check_refused(R"({"serial": 1, "rate_hz": 100, "plates": {}})", "\"plates\"");
    const std::string mat =
        R"({"serial": 1, "rate_hz": 100, "grid": {"rows": 8, "columns": 9, "pitch_mm": [1, 1]}})";
    REQUIRE(parse_description(mat, "here").ok());
    check_refused(changed(mat, "\"rows\": 8", "\"rows\": 0"), "\"rows\"");
    check_refused(changed(mat, "\"rows\": 8", "\"rows\": 4000"), "elements");
    check_refused(changed(mat, "\"rows\": 8", "\"rows\": 1e9"), "\"rows\"");
    check_refused(changed(mat, "[1, 1]", "[1, 0]"), "\"pitch_mm\"");
    check_refused(changed(mat, "{\"rows\"", "[1], \"x\": {\"rows\""), "other than an object");
}

TEST_CASE("A name cannot carry control characters to a terminal or into a file") {
    const auto named = [](const std::string& name) {
        const auto parsed =
            parse_description(changed(two_plates, "\"Two plates\"", "\"" + name + "\""), "here");
        REQUIRE(parsed.ok());
        return parsed.value().name;
    };
    CHECK(named("a\\u0000b\\u001b[2Jc\\u007fd\\u009b31me\\n") == "a b [2Jc d 31me ");
    CHECK(named("Plätze 力板 \\u00a0\\u00e9") == "Plätze 力板 \u00a0\u00e9");
}

TEST_CASE("A description cannot ask for more than any plate has") {
    std::string cells;
    for (int i = 0; i < 257; ++i) cells += std::string(i > 0 ? "," : "") + R"({"x_mm":0,"y_mm":0})";
    check_refused(
        R"({"serial":1,"rate_hz":1,"plates":[{"name":"","centre_mm":[0,0],"cells":[)" + cells + "]}]}",
        "at most 256");
    std::string plates;
    for (int i = 0; i < 17; ++i) plates += std::string(i > 0 ? "," : "") + R"({"name":"","centre_mm":[0,0]})";
    check_refused(R"({"serial":1,"rate_hz":1,"plates":[)" + plates + "]}", "1 to 16");
    // Nested as deep as a packet goes.
    const std::string deep = std::string(700, '[') + std::string(700, ']');
    check_refused(deep, "not a JSON object");
}
