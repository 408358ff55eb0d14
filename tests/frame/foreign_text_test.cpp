#include "acquisition/frame/foreign_text.h"

#include <doctest/doctest.h>

#include <string>

#include "tests/support/child_process.h"

using namespace footing;

TEST_CASE("text that is UTF-8 stays as it is, all other is taken for code page 1252") {
    CHECK(as_utf8("") == "");
    CHECK(as_utf8("carry") == "carry");
    CHECK(as_utf8("Schl\xC3\xA4ger") == "Schl\xC3\xA4ger");
    CHECK(as_utf8("Schl\xE4ger") == "Schl\xC3\xA4ger");
    CHECK(as_utf8("\x80 \x96") == "\xE2\x82\xAC \xE2\x80\x93");  // euro, en dash
    // One damaged byte in UTF-8: nothing is lost, though it reads strangely.
    CHECK(as_utf8("\xC3\xA4\xFF") == "\xC3\x83\xC2\xA4\xC3\xBF");
}

TEST_CASE("every byte is what Python's code page 1252 makes of it") {
    std::string bytes;
    for (int byte = 0x20; byte <= 0xFF; ++byte) bytes += static_cast<char>(byte);
    const auto said = test::run_program(
        {"/usr/bin/python3", "-c",
         "import sys\n"
         "text=''.join(bytes([b]).decode('cp1252') if b not in (0x81,0x8d,0x8f,0x90,0x9d) else chr(b)"
         " for b in range(0x20,0x100))\n"
         "sys.stdout.buffer.write(text.encode('utf-8'))\n"});
    if (said.exit_code == 127) {
        MESSAGE("skipped: python3 is not here");
        return;
    }
    CHECK(as_utf8(bytes) == said.out);
}
