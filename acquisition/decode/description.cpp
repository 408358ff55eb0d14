#include "acquisition/decode/description.h"

#include <cmath>
#include <cstdint>
#include <limits>
#include <nlohmann/json.hpp>
#include <optional>

#include "acquisition/frame/clean_text.h"

namespace footing {

namespace {

using nlohmann::json;

constexpr double furthest_mm = 100'000.0;
constexpr double highest_rate_hz = 1e6;
constexpr std::size_t longest_name = 200;

/// Reads fields and remembers the first thing that was wrong, so that the reading code stays a list of
/// fields.
class Reader {
  public:
    explicit Reader(std::string_view place) : place_(place) {}

    [[nodiscard]] const std::optional<Problem>& problem() const { return problem_; }

    void refuse(const std::string& what) {
        if (!problem_) {
            problem_ = Problem{ProblemKind::bad_input, place_, "the device description " + what,
                               "see docs/device_protocol.md for what it must hold"};
        }
    }

    [[nodiscard]] const json* field(const json& object, const char* key) {
        if (!object.is_object()) {
            refuse(std::string("has something other than an object around \"") + key + "\"");
            return nullptr;
        }
        const auto at = object.find(key);
        return at == object.end() ? nullptr : &*at;
    }

    [[nodiscard]] double number(const json& object, const char* key, double least, double most) {
        const json* value = field(object, key);
        if (value == nullptr) {
            refuse(std::string("has no \"") + key + "\"");
            return least;
        }
        return number_in(*value, key, least, most);
    }

    [[nodiscard]] std::optional<double> number_if_there(const json& object, const char* key, double least,
                                                        double most) {
        const json* value = field(object, key);
        if (value == nullptr || value->is_null()) return std::nullopt;
        return number_in(*value, key, least, most);
    }

    [[nodiscard]] std::uint32_t whole_number(const json& object, const char* key, double least, double most) {
        const double value = number(object, key, least, most);
        if (value != std::floor(value)) {
            refuse(std::string("has a \"") + key + "\" that is not a whole number");
            return 0;
        }
        return static_cast<std::uint32_t>(value);
    }

    [[nodiscard]] std::string text(const json& object, const char* key) {
        const json* value = field(object, key);
        if (value == nullptr) return {};
        if (!value->is_string() || value->get_ref<const std::string&>().size() > longest_name) {
            refuse(std::string("has a \"") + key + "\" that is not a text of at most 200 bytes");
            return {};
        }
        return clean_text(value->get_ref<const std::string&>());
    }

    [[nodiscard]] PointM pair_mm(const json& object, const char* key) {
        const json* value = field(object, key);
        if (value == nullptr || !value->is_array() || value->size() != 2) {
            refuse(std::string("has no \"") + key + "\" of two numbers");
            return {};
        }
        return {number_in((*value)[0], key, -furthest_mm, furthest_mm) / mm_per_metre,
                number_in((*value)[1], key, -furthest_mm, furthest_mm) / mm_per_metre};
    }

  private:
    double number_in(const json& value, const char* key, double least, double most) {
        const double number =
            value.is_number() ? value.get<double>() : std::numeric_limits<double>::quiet_NaN();
        if (!(number >= least && number <= most)) {
            refuse(std::string("has a \"") + key + "\" that is not a number from " + json(least).dump() +
                   " to " + json(most).dump());
            return least;
        }
        return number;
    }

    std::string place_;
    std::optional<Problem> problem_;
};

std::vector<PointM> read_cells(Reader& reader, const json& cells) {
    std::vector<PointM> positions;
    if (!cells.is_array() || cells.size() > most_cells) {
        reader.refuse("has \"cells\" that are not a list of at most " + std::to_string(most_cells));
        return positions;
    }
    for (const json& cell : cells) {
        positions.push_back({reader.number(cell, "x_mm", -furthest_mm, furthest_mm) / mm_per_metre,
                             reader.number(cell, "y_mm", -furthest_mm, furthest_mm) / mm_per_metre});
    }
    return positions;
}

void read_plates(Reader& reader, const json& plates, PlateLayout& layout) {
    if (!plates.is_array() || plates.empty() || plates.size() > most_plates) {
        reader.refuse("has \"plates\" that are not a list of 1 to " + std::to_string(most_plates));
        return;
    }
    std::size_t with_cells = 0;
    std::size_t cells = 0;
    for (const json& entry : plates) {
        Plate plate{reader.text(entry, "name"), reader.pair_mm(entry, "centre_mm"), {}};
        if (const json* list = reader.field(entry, "cells"); list != nullptr && !list->is_null()) {
            plate.cells = read_cells(reader, *list);
        }
        with_cells += plate.cells.empty() ? 0U : 1U;
        cells += plate.cells.size();
        layout.plates.push_back(std::move(plate));
    }
    if (with_cells != 0 && with_cells != layout.plates.size()) {
        reader.refuse("has plates with cells and plates without");
    }
    if (cells > most_cells) reader.refuse("has more than " + std::to_string(most_cells) + " cells");
    layout.kind = with_cells == 0 ? FrameKind::components : FrameKind::cells;
}

void read_grid(Reader& reader, const json& entry, PlateLayout& layout) {
    Grid grid;
    const auto most = static_cast<double>(most_grid_values);
    grid.rows = reader.whole_number(entry, "rows", 1, most);
    grid.columns = reader.whole_number(entry, "columns", 1, most);
    if (std::size_t{grid.rows} * grid.columns > most_grid_values) {
        reader.refuse("has a grid of more than " + std::to_string(most_grid_values) + " elements");
    }
    const PointM pitch = reader.pair_mm(entry, "pitch_mm");
    if (!(pitch.x_m > 0.0 && pitch.y_m > 0.0)) reader.refuse("has a \"pitch_mm\" that is not above zero");
    grid.pitch_x_m = pitch.x_m;
    grid.pitch_y_m = pitch.y_m;
    if (reader.field(entry, "centre_mm") != nullptr) grid.centre = reader.pair_mm(entry, "centre_mm");
    layout.kind = FrameKind::grid;
    layout.grid = grid;
}

/// The millimetres that give back exactly this length when read, with as few digits as that takes.
double text_mm(double length_m) {
    const double length_mm = length_m * mm_per_metre;
    const double rounded = std::round(length_mm * 1e6) / 1e6;
    const double candidates[] = {rounded, length_mm, std::nextafter(length_mm, -HUGE_VAL),
                                 std::nextafter(length_mm, HUGE_VAL)};
    for (const double candidate : candidates) {
        if (candidate / mm_per_metre == length_m) return candidate;
    }
    return length_mm;
}

/// Whole numbers without ".0": a description has to fit into one packet.
json short_number(double number) {
    if (number == std::floor(number) && std::abs(number) < 1e15) return static_cast<std::int64_t>(number);
    return number;
}

json pair_of(double x_m, double y_m) {
    return json::array({short_number(text_mm(x_m)), short_number(text_mm(y_m))});
}

}  // namespace

Result<DeviceDescription> parse_description(std::string_view text, std::string_view place) {
    Reader reader(place);
    const json document = json::parse(text.begin(), text.end(), nullptr, false);
    DeviceDescription description;
    if (document.is_discarded()) {
        reader.refuse("is not JSON");
        return *reader.problem();
    }
    if (!document.is_object()) {
        reader.refuse("is not a JSON object");
        return *reader.problem();
    }
    description.name = reader.text(document, "name");
    description.serial =
        reader.whole_number(document, "serial", 0, std::numeric_limits<std::uint32_t>::max());
    description.rate_hz = reader.number(document, "rate_hz", 0.01, highest_rate_hz);
    description.full_scale_counts =
        reader.number_if_there(document, "full_scale_counts", 1.0, 4'294'967'296.0);
    description.newtons_per_count = reader.number_if_there(document, "newtons_per_count", 0.0, 1e6);
    if (description.newtons_per_count == 0.0) reader.refuse("has a \"newtons_per_count\" of zero");
    const json* plates = reader.field(document, "plates");
    const json* grid = reader.field(document, "grid");
    if ((plates == nullptr) == (grid == nullptr)) {
        reader.refuse("must have either \"plates\" or \"grid\"");
    } else if (plates != nullptr) {
        read_plates(reader, *plates, description.layout);
    } else {
        read_grid(reader, *grid, description.layout);
    }
    if (reader.problem()) return *reader.problem();
    return description;
}

std::string description_json(const DeviceDescription& description) {
    nlohmann::ordered_json document;
    document["name"] = description.name;
    document["serial"] = description.serial;
    document["rate_hz"] = short_number(description.rate_hz);
    if (description.full_scale_counts)
        document["full_scale_counts"] = short_number(*description.full_scale_counts);
    if (description.newtons_per_count)
        document["newtons_per_count"] = short_number(*description.newtons_per_count);
    if (description.layout.grid) {
        const Grid& grid = *description.layout.grid;
        document["grid"] = {{"rows", grid.rows},
                            {"columns", grid.columns},
                            {"pitch_mm", pair_of(grid.pitch_x_m, grid.pitch_y_m)},
                            {"centre_mm", pair_of(grid.centre.x_m, grid.centre.y_m)}};
    } else {
        document["plates"] = json::array();
        for (const Plate& plate : description.layout.plates) {
            nlohmann::ordered_json entry = {{"name", plate.name},
                                            {"centre_mm", pair_of(plate.centre.x_m, plate.centre.y_m)}};
            for (const PointM& cell : plate.cells) {
                entry["cells"].push_back(
                    {{"x_mm", short_number(text_mm(cell.x_m))}, {"y_mm", short_number(text_mm(cell.y_m))}});
            }
            document["plates"].push_back(std::move(entry));
        }
    }
    return document.dump(-1, ' ', false, json::error_handler_t::replace);
}

}  // namespace footing
