// Mutated C3D files: changes to good files of each byte order, and bytes of no file at all; see mutations.h.
#include "tests/import/c3d_stand.h"
#include "tests/soak/mutations.h"

int main(int count, char** words) {
    using namespace footing;
    std::vector<Input> seeds;
    // Made by the door itself, to be changed at places that the mutated bytes say.
    for (std::uint8_t choice = 0; choice < 32; ++choice) {
        if ((choice & 3U) != 3U)
            seeds.push_back(seed_of(choice, std::string("\x05\x00\x02\x10\x01\x07\x00\x02\x03", 9)));
    }
    // A file as it is, cut off, shifted and doubled.
    test::C3dSample file;
    const test::C3dStand stand;
    stand.record(file, stand.plate(2, 0, {1, 0, 0}), 0, 20);
    file.scale.assign(file.channels.size(), 50.0);
    for (const std::uint8_t choice : {3, 7, 11}) seeds.push_back(seed_of(choice, file.bytes()));
    return survive_mutations("C3D files", seeds, count, words);
}
