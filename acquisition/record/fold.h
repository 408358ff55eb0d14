#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "acquisition/frame/result.h"
#include "acquisition/frame/work_watch.h"
#include "acquisition/record/journal_reader.h"
#include "acquisition/record/recording.h"
#include "acquisition/record/recording_reader.h"

namespace footing {

/// What became of a journal or a damaged recording when a new recording was made of it.
struct SalvageReport {
    RecordingInfo info;            ///< as the new recording has it
    JournalDamage journal_damage;  ///< of a journal
    std::uint64_t frames_lost =
        0;  ///< frames that were recorded and could not be read back, by the device's counter
    double seconds_lost = 0.0;  ///< the same as time, at the mean rate of what is left
    double duration_s = 0.0;    ///< of what is left, by the device's clock
};

/// Makes a recording of a journal: up to its end, over what is damaged (R10, R12). The journal is left as it
/// is. The outcome is that of the journal's end record; without one it is `truncated`, and damage in the
/// middle makes a clean one `lossy`. What the damage swallowed becomes gaps. Fails with bad_input when there
/// is no journal in the file, and as RecordingWriter does.
[[nodiscard]] Result<SalvageReport> fold_journal(const std::filesystem::path& journal,
                                                 const std::filesystem::path& recording,
                                                 WorkWatch* watch = nullptr);

/// The same, then removes the journal: the ordinary end of recording. `closing` is what the end record should
/// say, for a journal on whose disk there was no room left for it. After a failure the journal is still
/// there.
[[nodiscard]] Result<SalvageReport> fold_and_remove_journal(const std::filesystem::path& journal,
                                                            const std::filesystem::path& recording,
                                                            const RecordingInfo& closing);

/// Makes a new recording of what is left of a damaged one; the input is never touched. Fails with bad_input
/// when not a single frame is left.
[[nodiscard]] Result<SalvageReport> salvage_recording(const std::filesystem::path& damaged,
                                                      const std::filesystem::path& recording,
                                                      WorkWatch* watch = nullptr);

/// Either of the two, by what the file is; then opens the result with the ordinary reader. `watch` may be
/// absent; once it is given up, each of the three ends with given_up(), and no part of a recording is left.
[[nodiscard]] Result<SalvageReport> recover(const std::filesystem::path& input,
                                            const std::filesystem::path& recording,
                                            WorkWatch* watch = nullptr);

}  // namespace footing
