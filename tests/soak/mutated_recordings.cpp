// Mutated recordings and journals: see mutations.h.
#include "tests/record/journal_samples.h"
#include "tests/soak/mutations.h"

int main(int count, char** words) {
    using namespace footing;
    const samples::ScratchFolder folder;
    const auto file_seed = [](std::uint8_t read_as, const std::vector<char>& bytes) {
        return seed_of(read_as, std::as_bytes(std::span(bytes)));
    };
    if (!samples::write_recording(folder / "good.h5", samples::info_for(samples::two_plates()),
                                  samples::cell_frames(0, 40))
             .ok())
        return 1;
    // The door's own good recording, changed at places that the mutated bytes say; files as they are.
    return survive_mutations(
        "recordings and journals",
        {seed_of(2, std::string("\x10\x00\x01\x20\x03\x07\x90\x11\x00", 9)),
         seed_of(3, std::string("\x40\x04\xFF", 3)), file_seed(0, samples::bytes_of(folder / "good.h5")),
         file_seed(1, samples::closed_journal(60))},
        count, words);
}
