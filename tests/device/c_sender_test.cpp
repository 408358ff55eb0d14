#include <doctest/doctest.h>
#include <unistd.h>

#include <sstream>

#include "tests/device/streamed_trial.h"
#include "tests/support/child_process.h"
#include "tests/support/page_block.h"

using namespace footing;
using namespace footing::test;

namespace {

constexpr const char* compiler = "/usr/bin/cc";

/// The encoder for microcontrollers as it stands on the protocol's page, without the example below it.
std::string encoder_of_the_page() {
    const std::string text = block_of_page("docs/device_protocol.md", "c");
    const auto from = text.find("/* ---- The encoder");
    const auto to = text.find("/* ---- End of the encoder");
    REQUIRE(from != std::string::npos);
    REQUIRE(to != std::string::npos);
    return text.substr(from, to - from);
}

void compile(const std::vector<std::string>& more) {
    std::vector<std::string> words = {compiler, "-std=c99", "-Wall", "-Wextra", "-Werror", "-pedantic"};
    words.insert(words.end(), more.begin(), more.end());
    const ProgramOutput output = run_program(words);
    REQUIRE_MESSAGE(output.exit_code == 0, output.err);
}

}  // namespace

// Its packets, made by cc and read by our stream: no code is shared. The example below it is tried against
// `footing record` in tests/field.
TEST_CASE("The encoder in C on the protocol's page is read by our stream, on a serial line") {
    if (::access(compiler, X_OK) != 0) {
        MESSAGE("skipped: no C compiler here");
        return;
    }
    const ScratchFolder folder;
    // As check_streamed_trial() expects it. A description on the page is a C string and holds no zeros, so
    // its parts are put together here.
    write_file(folder / "trial.c", encoder_of_the_page() + R"(
#include <stdio.h>
static void write_line(const uint8_t *packet, size_t size) {
    static uint8_t line[MOST_LINE_BYTES];
    fwrite(line, 1, pack_line(line, packet, size), stdout);
}
int main(void) {
    static uint8_t packet[MOST_PACKET_BYTES];
    static int32_t counts[MOST_CELLS + 1];
    struct instant now = {4712, 0, 0, 0};
    static char json[MOST_DESCRIPTION_BYTES + 2];
    uint32_t n, i;
    for (n = 1; n <= MOST_CELLS; ++n) {
        for (i = 0; i < n; ++i) counts[i] = (int32_t)((i * 7919) % 65536 * (i % 3));
        now.counter = n;
        write_line(packet, pack_cells(packet, &now, counts, n));
    }
    for (n = 250; n < 512; ++n) {
        uint8_t *at;
        now.counter = n;
        at = put_head(packet, DESCRIPTION, &now, n + 3);
        at = put(at, 0, 1);
        for (i = 0; i < n; ++i) at = put(at, 'x', 1);
        at = put(put(at, 0, 1), 'y', 1);
        write_line(packet, closed(packet, at));
    }
    if (pack_cells(packet, &now, counts, 0) != 0 || pack_cells(packet, &now, counts, MOST_CELLS + 1) != 0) return 1;
    if (pack_description(packet, &now, json) != 0) return 2;
    for (i = 0; i < MOST_DESCRIPTION_BYTES; ++i) json[i] = 'j';
    if (pack_description(packet, &now, json) != MOST_PACKET_BYTES) return 3;
    json[MOST_DESCRIPTION_BYTES] = 'j';
    return pack_description(packet, &now, json) != 0 ? 4 : 0;
}
)");
    compile({"-g", "-fsanitize=address,undefined", folder / "trial.c", "-o", folder / "trial"});
    const ProgramOutput trial = run_program({folder / "trial"});
    CHECK_MESSAGE(trial.exit_code == 0, trial.err);
    Bytes bytes;
    for (const char letter : trial.out) bytes.push_back(static_cast<std::byte>(letter));
    check_streamed_trial(bytes);
}

TEST_CASE("The encoder in C on the protocol's page needs no C library") {
    if (::access(compiler, X_OK) != 0) {
        MESSAGE("skipped: no C compiler here");
        return;
    }
    const ScratchFolder folder;
    write_file(folder / "encoder.c", encoder_of_the_page());
    compile({"-Os", "-ffreestanding", "-c", folder / "encoder.c", "-o", folder / "encoder.o"});
    const ProgramOutput wanted =
        run_program({"/usr/bin/nm", "--undefined-only", "--just-symbols", folder / "encoder.o"});
    CHECK(wanted.exit_code == 0);
    std::istringstream names(wanted.out);
    // A compiler without a library may still call these four (GCC manual, "Standards", freestanding).
    for (std::string name; names >> name;)
        CHECK_MESSAGE((name == "memcpy" || name == "memset" || name == "memmove" || name == "memcmp"), name);
}
