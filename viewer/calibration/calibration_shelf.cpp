#include "viewer/calibration/calibration_shelf.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <system_error>
#include <tuple>

namespace footing {

namespace {

constexpr int most_a_day = 99;
constexpr std::uintmax_t largest_record = 64U << 20U;  // bytes; with all readings a record has some thousands

std::string text_of(const std::filesystem::path& file) {
    std::error_code failure;
    const std::uintmax_t size = std::filesystem::file_size(file, failure);
    if (failure || size > largest_record) return "";
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

}  // namespace

Result<std::filesystem::path> CalibrationShelf::new_file(std::uint32_t serial,
                                                         const std::string& made) const {
    std::error_code failure;
    std::filesystem::create_directories(folder_, failure);
    if (failure) {
        return Problem{ProblemKind::disk_failed, folder_.string(),
                       "the folder for calibrations cannot be made (" + failure.message() + ")",
                       "see whether the disk is full or the folder may be written to"};
    }
    for (int number = 1; number <= most_a_day; ++number) {
        const std::string again = number > 1 ? fmt::format("_{}", number) : "";
        const std::filesystem::path file = folder_ / fmt::format("{}_{}{}.json", serial, made, again);
        if (!std::filesystem::exists(std::filesystem::symlink_status(file, failure))) return file;
    }
    return Problem{ProblemKind::disk_failed, folder_.string(),
                   fmt::format("holds {} calibrations of {} already", most_a_day, made),
                   "put those that are not needed elsewhere"};
}

std::string CalibrationShelf::newest(const DeviceDescription& device) const {
    const std::string begins = fmt::format("{}_", device.serial);
    std::string newest;
    std::tuple<std::string, std::size_t, std::string> newest_key;  // day, then the later name of that day
    std::error_code failure;
    std::filesystem::directory_iterator at(folder_, failure);
    for (; !failure && at != std::filesystem::directory_iterator(); at.increment(failure)) {
        const std::string name = at->path().filename().string();
        if (name.rfind(begins, 0) != 0 || at->path().extension() != ".json") continue;
        std::string text = text_of(at->path());
        const auto record = parse_calibration(text, name);
        if (!record || !check_calibration(record.value(), device, name)) continue;
        const std::tuple key{record.value().made, name.size(), name};
        if (!newest.empty() && key <= newest_key) continue;
        newest = std::move(text);
        newest_key = key;
    }
    return newest;
}

CalibrationShelf shelf_beside(const std::filesystem::path& book) {
    return CalibrationShelf(book.parent_path() / "calibrations");
}

}  // namespace footing
