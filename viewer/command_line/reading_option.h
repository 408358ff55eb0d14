#pragma once

#include <string>

#include "acquisition/frame/result.h"
#include "viewer/lesson/analyse_recording.h"

namespace footing {

class Arguments;

/// How a recording is read and judged: --band, --sure and --hand of a verb.
struct ReadingOptions {
    std::string band = "70:80";
    double sure_percent = 100.0 * usual_certainty;
    std::string hand;

    /// What is asked of the analysis; `student`: the name to show. Fails with command_line.
    [[nodiscard]] Result<AnalysisRequest> request(const std::string& student) const;
};

/// `of_what` stands behind the band's help: ", in a recording".
void add_reading_options(Arguments& verb, ReadingOptions& options, const std::string& of_what = "");

}  // namespace footing
