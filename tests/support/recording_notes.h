#pragma once

#include <algorithm>
#include <string>

#include "acquisition/record/recording.h"

namespace footing::test {

/// Whether a note of the recording has these words in it.
inline bool is_noted(const RecordingInfo& info, const std::string& words) {
    return std::any_of(info.notes.begin(), info.notes.end(),
                       [&](const RecordingNote& note) { return note.text.find(words) != std::string::npos; });
}

}  // namespace footing::test
