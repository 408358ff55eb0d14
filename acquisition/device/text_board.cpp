#include "acquisition/device/text_board.h"

#include <cmath>

namespace footing {

namespace {

constexpr std::size_t lines_to_believe = 10;
constexpr double corner_x_m = 0.12;
constexpr double corner_y_m = 0.22;
constexpr double plate_distance_m = 0.32;
constexpr double rate_when_unknown_hz = 100.0;

std::vector<PointM> four_corners() {
    return {{-corner_x_m, corner_y_m},
            {corner_x_m, corner_y_m},
            {-corner_x_m, -corner_y_m},
            {corner_x_m, -corner_y_m}};
}

std::vector<PointM> in_a_line(std::size_t cells) {
    std::vector<PointM> positions;
    for (std::size_t i = 0; i < cells; ++i) {
        const double along = cells == 1 ? 0.5 : static_cast<double>(i) / static_cast<double>(cells - 1);
        positions.push_back({(2.0 * along - 1.0) * corner_x_m, 0.0});
    }
    return positions;
}

}  // namespace

void TextBoardObserver::take(const TextFrame& frame) {
    const bool goes_on = lines_ > 0 && frame.count == cells_ && frame.counter > newest_.counter;
    if (!goes_on) {
        first_ = frame;
        lines_ = 0;
    }
    cells_ = frame.count;
    newest_ = frame;
    ++lines_;
}

std::optional<std::size_t> TextBoardObserver::cells() const {
    if (lines_ < lines_to_believe) return std::nullopt;
    return cells_;
}

double TextBoardObserver::rate_hz() const {
    if (!cells()) return 0.0;
    const auto elapsed_us = static_cast<std::uint32_t>(newest_.microseconds - first_.microseconds);
    if (elapsed_us == 0) return 0.0;
    const double rate = static_cast<double>(newest_.counter - first_.counter) * 1e6 / elapsed_us;
    return std::round(rate * 10.0) / 10.0;
}

DeviceDescription assumed_text_board(std::size_t cells, double rate_hz) {
    DeviceDescription board;
    board.name = "text board";
    board.rate_hz = rate_hz > 0.0 ? rate_hz : rate_when_unknown_hz;
    const PointM left{-0.5 * plate_distance_m, 0.0};
    const PointM right{0.5 * plate_distance_m, 0.0};
    std::vector<Plate>& plates = board.layout.plates;
    switch (cells) {
        case 2:
            plates = {{"left", left, {{}}}, {"right", right, {{}}}};
            break;
        case 4:
            plates = {{"plate", {}, four_corners()}};
            break;
        case 8:
            plates = {{"left", left, four_corners()}, {"right", right, four_corners()}};
            break;
        default:
            plates = {{"plate", {}, in_a_line(cells)}};
            break;
    }
    return board;
}

}  // namespace footing
