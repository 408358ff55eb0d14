#include "viewer/command_line/reading_option.h"

#include "viewer/command_line/arguments.h"
#include "viewer/command_line/band_option.h"
#include "viewer/command_line/hand_option.h"
#include "viewer/command_line/sure_option.h"

namespace footing {

Result<AnalysisRequest> ReadingOptions::request(const std::string& student) const {
    const auto target = parse_band(band);
    if (!target) return target.problem();
    const auto sure = parse_sure(sure_percent);
    if (!sure) return sure.problem();
    return AnalysisRequest{target.value(), parse_hand(hand), student, sure.value()};
}

void add_reading_options(Arguments& verb, ReadingOptions& options, const std::string& of_what) {
    verb.add_option("--band", options.band, "lead share to aim at, in per cent" + of_what)
        ->capture_default_str();
    add_sure_option(verb, options.sure_percent);
    add_hand_option(verb, options.hand, "take the golfer as playing this way, whatever the recording says");
}

}  // namespace footing
