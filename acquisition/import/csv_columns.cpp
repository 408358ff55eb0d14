#include "acquisition/import/csv_columns.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "acquisition/frame/count_words.h"

namespace footing {

namespace {

constexpr const char* see_forms = "docs/csv_import.md lists the columns";

/// The number of a column called cell_NUMBER.
std::optional<std::size_t> cell_number(std::string_view name) {
    constexpr std::string_view prefix = "cell_";
    if (!name.starts_with(prefix)) return std::nullopt;
    std::size_t number = 0;
    const char* const end = name.data() + name.size();
    const auto [stopped, failure] = std::from_chars(name.data() + prefix.size(), end, number);
    if (failure != std::errc() || stopped != end || number == 0 || name[prefix.size()] == '0')
        return std::nullopt;
    return number;
}

class Header {
  public:
    explicit Header(const CsvText& text) : text_(text), used_(text.fields().size(), false) {}

    [[nodiscard]] bool has(std::string_view name) const {
        return std::ranges::find(text_.fields(), name) != text_.fields().end();
    }

    /// Field of the column; remembers the first one that is missing.
    std::size_t take(std::string_view name) {
        const auto found = std::ranges::find(text_.fields(), name);
        if (found == text_.fields().end()) {
            if (missing_.empty()) missing_ = name;
            return 0;
        }
        const auto field = static_cast<std::size_t>(found - text_.fields().begin());
        used_[field] = true;
        return field;
    }

    std::optional<std::size_t> take_if_there(std::string_view name) {
        if (!has(name)) return std::nullopt;
        return take(name);
    }

    void take_value(CsvColumns& columns, std::string name) {
        columns.values.push_back(take(name));
        columns.names.push_back(std::move(name));
    }

    [[nodiscard]] const std::string& missing() const { return missing_; }

    [[nodiscard]] std::vector<std::string> unused() const {
        std::vector<std::string> names;
        for (std::size_t i = 0; i < used_.size(); ++i) {
            if (!used_[i]) names.emplace_back(text_.fields()[i]);
        }
        return names;
    }

  private:
    const CsvText& text_;
    std::vector<bool> used_;
    std::string missing_;
};

Result<CsvForm> form_of(const CsvText& text, const Header& header) {
    const auto has_any = [&](std::initializer_list<std::string_view> names) {
        return std::ranges::any_of(names, [&](std::string_view name) { return header.has(name); });
    };
    const bool cells = std::ranges::any_of(
        text.fields(), [](std::string_view name) { return cell_number(name).has_value(); });
    std::vector<std::pair<CsvForm, const char*>> found;
    if (has_any({"left_n", "right_n"})) found.emplace_back(CsvForm::two_feet, "left_n, right_n");
    if (header.has("total_n")) found.emplace_back(CsvForm::whole, "total_n");
    if (cells) found.emplace_back(CsvForm::cells, "cell_1 …");
    if (has_any({"row", "col", "value"})) found.emplace_back(CsvForm::grid, "frame,row,col,value");
    if (found.size() == 1) return found.front().first;
    if (found.size() > 1) {
        return text.problem(
            "", fmt::format("there are columns of two forms: {} and {}", found[0].second, found[1].second),
            "leave the columns of one form only");
    }
    const bool semicolons =
        text.fields().size() == 1 && text.fields().front().find(';') != std::string_view::npos;
    return text.problem("", "there is no column left_n, total_n, cell_1 or value",
                        semicolons ? "separate columns by commas, and use a decimal point"
                                   : std::string("name the columns in the first line; ") + see_forms);
}

/// Both columns of a foot's CoP, or neither.
Result<bool> take_cop(Header& header, CsvColumns& columns, const CsvText& text, const std::string& foot) {
    const std::string x = foot + "_cop_x_mm";
    const std::string y = foot + "_cop_y_mm";
    if (header.has(x) != header.has(y)) {
        return text.problem(header.has(x) ? y : x, "this column is missing, though its partner is there",
                            "give both, or neither");
    }
    if (!header.has(x)) return false;
    header.take_value(columns, x);
    header.take_value(columns, y);
    return true;
}

Outcome take_cells(Header& header, CsvColumns& columns, const CsvText& text,
                   const std::optional<DeviceDescription>& layout) {
    if (!layout || values_per_frame(layout->layout) == 0) {
        return text.problem("cell_1", "where the cells are is not known",
                            "give a layout with plates and cells, or with a grid, by --layout FILE.json");
    }
    const std::size_t cells = values_per_frame(layout->layout);
    for (const std::string_view name : text.fields()) {
        const auto number = cell_number(name);
        if (number && *number > cells) {
            return text.problem(name, "the layout has only " + count_words(cells, "cell", "cells"),
                                "give the layout of the plates that were used");
        }
    }
    for (std::size_t cell = 1; cell <= cells; ++cell)
        header.take_value(columns, fmt::format("cell_{}", cell));
    return Done{};
}

Outcome take_grid(Header& header, CsvColumns& columns, const CsvText& text,
                  const std::optional<DeviceDescription>& layout) {
    if (!layout || !layout->layout.grid) {
        return text.problem("row", "how large the grid is is not known",
                            "give a layout with a grid by --layout FILE.json");
    }
    for (const char* name : {"frame", "row", "col", "value"}) header.take_value(columns, name);
    return Done{};
}

}  // namespace

Result<CsvColumns> find_csv_columns(const CsvText& text, const std::optional<DeviceDescription>& layout) {
    const std::vector<std::string_view>& names = text.fields();
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (!names[i].empty() && std::find(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(i),
                                           names[i]) != names.begin() + static_cast<std::ptrdiff_t>(i)) {
            return text.problem(names[i], "this column is there twice", "leave one of them out");
        }
    }
    Header header(text);
    const auto form = form_of(text, header);
    if (!form) return form.problem();
    CsvColumns columns;
    columns.form = form.value();
    columns.fields_in_header = names.size();
    if (columns.form != CsvForm::grid) {
        columns.time = header.take("time_s");
        columns.trigger = header.take_if_there("trigger");
    }
    Outcome done = Done{};
    switch (columns.form) {
        case CsvForm::two_feet: {
            header.take_value(columns, "left_n");
            header.take_value(columns, "right_n");
            const auto left = take_cop(header, columns, text, "left");
            if (!left) return left.problem();
            const auto right = take_cop(header, columns, text, "right");
            if (!right) return right.problem();
            columns.has_left_cop = left.value();
            columns.has_right_cop = right.value();
            break;
        }
        case CsvForm::whole:
            for (const char* name : {"total_n", "cop_x_mm", "cop_y_mm"}) header.take_value(columns, name);
            break;
        case CsvForm::cells:
            done = take_cells(header, columns, text, layout);
            break;
        case CsvForm::grid:
            done = take_grid(header, columns, text, layout);
            break;
    }
    if (!done) return done.problem();
    if (!header.missing().empty()) {
        return text.problem(header.missing(), "this column is missing",
                            std::string("name it in the first line; ") + see_forms);
    }
    columns.unused = header.unused();
    return columns;
}

}  // namespace footing
