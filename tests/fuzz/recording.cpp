// libFuzzer: any bytes as a recording and as a journal, read to the end as the program would.
#include <unistd.h>

#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>

#include "acquisition/record/journal_reader.h"
#include "acquisition/record/journal_writer.h"
#include "acquisition/record/recording_reader.h"
#include "tests/record/samples.h"

namespace {

using namespace footing;

/// One file in memory, written anew for each input.
std::string scratch_file() {
    const char* memory = std::filesystem::exists("/dev/shm") ? "/dev/shm" : "/tmp";
    return std::string(memory) + "/footing-fuzz-" + std::to_string(::getpid());
}

void put(const std::string& path, const std::uint8_t* data, std::size_t size) {
    std::ofstream file(path, std::ios::binary | std::ios::trunc);
    file.write(reinterpret_cast<const char*>(data), static_cast<std::streamsize>(size));
}

void read_recording(const std::string& path) {
    Result<RecordingReader> reader = RecordingReader::open(path);
    if (!reader.ok()) return;
    std::uint64_t first = 0;
    while (first < reader.value().frame_count()) {
        const Result<FrameBlock> block = reader.value().read(first, 1024);
        if (!block.ok() || block.value().size() == 0) break;
        first += block.value().size();
    }
    static_cast<void>(reader.value().check());
}

void read_journal(const std::string& path) {
    Result<JournalReader> reader = JournalReader::open(path);
    if (!reader.ok()) return;
    while (reader.value().next()) {
    }
}

/// Mutations of a good recording find more than random bytes do.
const std::vector<char>& good_recording() {
    static const std::vector<char> bytes = [] {
        const samples::ScratchFolder folder;
        static_cast<void>(samples::write_recording(folder / "good.h5",
                                                   samples::info_for(samples::two_plates()),
                                                   samples::cell_frames(0, 100))
                              .ok());
        return samples::bytes_of(folder / "good.h5");
    }();
    return bytes;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::string path = scratch_file();
    if (size < 1) return 0;
    if (data[0] == 0) {
        put(path, data + 1, size - 1);
        read_recording(path);
        return 0;
    }
    if (data[0] == 1) {
        put(path, data + 1, size - 1);
        read_journal(path);
        return 0;
    }
    // The rest is a list of changes to a good recording: u16 place, u8 value.
    std::vector<char> bytes = good_recording();
    for (std::size_t i = 1; i + 3 <= size; i += 3) {
        const std::size_t place = (data[i] | static_cast<std::size_t>(data[i + 1]) << 8U) % bytes.size();
        bytes[place] = static_cast<char>(data[i + 2]);
    }
    put(path, reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    read_recording(path);
    return 0;
}
