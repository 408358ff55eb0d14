#include "viewer/command_line/calibration_option.h"

#include <filesystem>
#include <utility>

#include "viewer/book/book_place.h"
#include "viewer/command_line/read_text.h"

namespace footing {

std::string GivenCalibrations::record_for(const DeviceDescription& device,
                                          const CalibrationShelf& shelf) const {
    for (const std::string& text : texts) {
        const auto record = parse_calibration(text, "the calibration");
        if (record && check_calibration(record.value(), device, "the calibration")) return text;
    }
    return kept ? shelf.newest(device) : "";
}

Result<GivenCalibrations> given_calibrations(const std::vector<std::string>& words) {
    GivenCalibrations given;
    for (const std::string& word : words) {
        if (word == "kept") {
            given.kept = true;
            continue;
        }
        Result<std::string> text = read_text(word);
        if (!text) return text.problem();
        const Result<Calibration> calibration = parse_calibration(text.value(), word);
        if (!calibration) return calibration.problem();
        given.texts.push_back(std::move(text).value());
    }
    return given;
}

Result<CalibrationShelf> usual_shelf() {
    const Result<std::filesystem::path> book = usual_book_place();
    if (!book) return book.problem();
    return shelf_beside(book.value());
}

}  // namespace footing
