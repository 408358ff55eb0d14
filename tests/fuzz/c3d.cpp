// Fuzzes the reading of C3D files. The first byte chooses: the rest is the file as it is, or changes (two
// bytes of place, one of value) made to a good file of one byte order, so that the fuzzer gets past the
// header.

#include <cstddef>
#include <cstdint>
#include <vector>

#include "acquisition/import/c3d_loads.h"
#include "tests/import/c3d_stand.h"

namespace {

using namespace footing;
using namespace footing::test;

std::vector<std::byte> good_file(C3dByteOrder order, C3dSample::Storage storage) {
    C3dSample file;
    file.order = order;
    file.storage = storage;
    file.events = {{0.1, "Impact", "General"}};
    const C3dStand stand;
    stand.record(file, stand.plate(2, 0, {1, 0, 0}), 0, 20);
    stand.record(file, stand.plate(4, 1, {0, 1, 0}), 1, 20);
    file.scale.assign(file.channels.size(), 50.0);
    return file.bytes();
}

void read_it(const std::vector<std::byte>& bytes, const C3dImportOptions& options) {
    const auto file = C3dFile::open(in_memory(bytes), "fuzz");
    if (!file) return;
    (void)file.value().events();
    const auto loads = C3dLoads::open(file.value(), options);
    if (loads) (void)loads.value().read(0, 256);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const std::vector<std::byte> good[] = {
        good_file(C3dByteOrder::intel, C3dSample::Storage::reals),
        good_file(C3dByteOrder::dec, C3dSample::Storage::reals),
        good_file(C3dByteOrder::mips, C3dSample::Storage::words),
    };
    if (size == 0) return 0;
    const std::uint8_t choice = data[0];
    C3dImportOptions options;
    if ((choice & 4U) != 0) options.baseline = C3dImportOptions::Baseline::subtracted;
    if ((choice & 8U) != 0) options.plates = {{C3dPlateUse::Foot::right, 1}, {C3dPlateUse::Foot::left, 2}};
    if ((choice & 16U) != 0) options.ahead = C3dAxis::plus_y;
    std::vector<std::byte> bytes;
    if ((choice & 3U) == 3U) {
        for (std::size_t i = 1; i < size; ++i) bytes.push_back(static_cast<std::byte>(data[i]));
    } else {
        bytes = good[choice & 3U];
        for (std::size_t i = 1; i + 2 < size; i += 3) {
            const std::size_t place = data[i] | static_cast<std::size_t>(data[i + 1]) << 8U;
            bytes[place % bytes.size()] = static_cast<std::byte>(data[i + 2]);
        }
    }
    read_it(bytes, options);
    return 0;
}
