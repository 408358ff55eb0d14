#include "acquisition/device/endpoint.h"

#include <doctest/doctest.h>

#include <string>

using namespace footing;

TEST_CASE("HOST:PORT is read, for names and both kinds of addresses") {
    CHECK(parse_host_port("127.0.0.1:9750").value().host == "127.0.0.1");
    CHECK(parse_host_port("127.0.0.1:9750").value().port == 9750);
    CHECK(parse_host_port("localhost:1").value().port == 1);
    CHECK(parse_host_port("[::1]:65535").value().host == "::1");
    for (const std::string bad : {"", ":", "9750", "host", "host:", ":9750", "host:port", "host:65536",
                                  "host:-1", "::1:9750", "[]:1", "host:1 "}) {
        CAPTURE(bad);
        const auto parsed = parse_host_port(bad);
        REQUIRE_FALSE(parsed.ok());
        CHECK(parsed.problem().kind == ProblemKind::command_line);
    }
}

TEST_CASE("port 0 is refused: the system would choose one that no sender knows") {
    const auto parsed = parse_host_port("0.0.0.0:0");
    REQUIRE_FALSE(parsed.ok());
    CHECK(parsed.problem().kind == ProblemKind::command_line);
    CHECK(parsed.problem().place == "0.0.0.0:0");
    CHECK(parsed.problem().what == "port 0 is no port that plates can send to");
    CHECK(parsed.problem().remedy.find("9750") != std::string::npos);
}

TEST_CASE("PATH:BAUD is read; a path may hold colons itself") {
    CHECK(parse_serial_port("/dev/ttyUSB0").value().path == "/dev/ttyUSB0");
    CHECK(parse_serial_port("/dev/ttyUSB0").value().baud == 115'200);
    CHECK(parse_serial_port("/dev/ttyUSB0:921600").value().baud == 921'600);
    CHECK(parse_serial_port("/dev/a:b:9600").value().path == "/dev/a:b");
    CHECK(parse_serial_port("/dev/null").value().path == "/dev/null");
    for (const std::string bad :
         {"", ":9600", "/dev/ttyUSB0:", "/dev/ttyUSB0:fast", "/dev/ttyUSB0:0", "/dev/ttyUSB0:99999999999"}) {
        CAPTURE(bad);
        CHECK_FALSE(parse_serial_port(bad).ok());
    }
}
