#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "acquisition/frame/units.h"
#include "viewer/calibration/calibration_plan.h"
#include "viewer/panels/book_panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

/// "42.1 kg", "−0.3 kg", no "−0.0": in the unit of the masses that are put on.
std::string load_words(double force_n, int decimals = 1) {
    const double unit = std::pow(10.0, -decimals);
    const double shown = unit * std::round(force_n / standard_gravity_m_s2 / unit);
    return fmt::format("{}{:.{}f} kg", shown < 0.0 ? "−" : "", std::abs(shown), decimals);
}

/// Plates as they lie, seen from above, toes up: what stands on each, and on each of its cells.
class Ground {
  public:
    Ground(ScreenCanvas& canvas, const Box& box, const PlatesView& view)
        : canvas_(canvas), box_(box), view_(view) {
        for (const Plate& plate : view.device.layout.plates) {
            hold(plate.centre);
            for (std::size_t cell = 0; cell < plate.cells.size(); ++cell) hold(cell_position(plate, cell));
        }
        if (const auto& grid = view.device.layout.grid) {
            const double half_x = 0.5 * grid->columns * grid->pitch_x_m;
            const double half_y = 0.5 * grid->rows * grid->pitch_y_m;
            hold({grid->centre.x_m - half_x, grid->centre.y_m - half_y});
            hold({grid->centre.x_m + half_x, grid->centre.y_m + half_y});
        }
        low_.x_m -= rim_m;
        low_.y_m -= rim_m;
        high_.x_m += rim_m;
        high_.y_m += rim_m;
        px_a_m_ = std::min(box.width() / static_cast<float>(high_.x_m - low_.x_m),
                           box.height() / static_cast<float>(high_.y_m - low_.y_m));
    }

    void draw() {
        const PlateLayout& layout = view_.device.layout;
        if (layout.grid) return draw_plate({low_, high_}, view_.total_n, 0, 0);
        const std::vector<PlateSide> sides = plate_sides(layout);
        std::size_t first = 0;
        for (std::size_t plate = 0; plate < layout.plates.size(); ++plate) {
            const std::size_t cells = layout.plates[plate].cells.size();
            double load_n = view_.total_n;
            if (sides[plate] == PlateSide::left) load_n = view_.left_n.value_or(0.0);
            if (sides[plate] == PlateSide::right) load_n = view_.right_n.value_or(0.0);
            draw_plate(outline_of(layout.plates[plate]), load_n, plate, first);
            first += cells;
        }
    }

  private:
    struct Rectangle {
        PointM low;
        PointM high;
    };
    static constexpr double rim_m = 0.06;
    static constexpr double half_plate_m = 0.15;  // of one that does not say how large it is

    void hold(const PointM& point) {
        low_ = {std::min(low_.x_m, point.x_m), std::min(low_.y_m, point.y_m)};
        high_ = {std::max(high_.x_m, point.x_m), std::max(high_.y_m, point.y_m)};
    }
    [[nodiscard]] static Rectangle outline_of(const Plate& plate) {
        if (plate.cells.empty()) {
            return {{plate.centre.x_m - half_plate_m, plate.centre.y_m - half_plate_m},
                    {plate.centre.x_m + half_plate_m, plate.centre.y_m + half_plate_m}};
        }
        Rectangle around{cell_position(plate, 0), cell_position(plate, 0)};
        for (std::size_t cell = 0; cell < plate.cells.size(); ++cell) {
            const PointM at = cell_position(plate, cell);
            around.low = {std::min(around.low.x_m, at.x_m), std::min(around.low.y_m, at.y_m)};
            around.high = {std::max(around.high.x_m, at.x_m), std::max(around.high.y_m, at.y_m)};
        }
        constexpr double edge_m = 0.04;
        return {{around.low.x_m - edge_m, around.low.y_m - edge_m},
                {around.high.x_m + edge_m, around.high.y_m + edge_m}};
    }
    [[nodiscard]] ImVec2 place(const PointM& at) const {
        const auto x = static_cast<float>(at.x_m - 0.5 * (low_.x_m + high_.x_m));
        const auto y = static_cast<float>(at.y_m - 0.5 * (low_.y_m + high_.y_m));
        return {box_.middle_x() + x * px_a_m_, box_.middle_y() - y * px_a_m_};
    }

    void draw_plate(const Rectangle& plate, double load_n, std::size_t number, std::size_t first_cell) {
        const ImVec2 corner = place({plate.low.x_m, plate.high.y_m});
        const ImVec2 opposite = place({plate.high.x_m, plate.low.y_m});
        const Box outline{corner.x, corner.y, opposite.x, opposite.y};
        canvas_.frame(outline, Ink::quiet, 1.5F, 6.0F);
        const Box middle{outline.left, outline.middle_y() - canvas_.px(24), outline.right,
                         outline.middle_y() + canvas_.px(24)};
        canvas_.text(middle, load_words(load_n), TextSize::heading, Ink::ink, Align::middle,
                     TextWeight::bold);
        const std::vector<Plate>& plates = view_.device.layout.plates;
        if (number >= plates.size()) return;
        const Box name{outline.left, middle.bottom, outline.right, middle.bottom + canvas_.px(24)};
        canvas_.text(name, plates[number].name, TextSize::small, Ink::quiet, Align::middle);
        for (std::size_t cell = 0; cell < plates[number].cells.size(); ++cell) {
            if (first_cell + cell >= view_.cell_n.size()) return;
            const ImVec2 at = place(cell_position(plates[number], cell));
            draw_number(at, number, cell);
            // The number stands towards the middle, where there is room.
            const bool left = at.x < outline.middle_x();
            const float off = canvas_.px(cell_radius + 4.0F);
            const float half = canvas_.px(9);
            const Box words{left ? at.x + off : outline.middle_x(), at.y - half,
                            left ? outline.middle_x() : at.x - off, at.y + half};
            std::string load = load_words(view_.cell_n[first_cell + cell]);
            if (canvas_.text_width(load, TextSize::small) >
                words.width() - canvas_.px(6))  // it has a neighbour
                load = load_words(view_.cell_n[first_cell + cell], 0);
            canvas_.text(words, load, TextSize::small, Ink::quiet, left ? Align::left : Align::right);
        }
    }

    /// The cell's number, as the words of a calibration name it; full where they name this one.
    void draw_number(const ImVec2& at, std::size_t plate, std::size_t cell) {
        const bool meant =
            view_.instruction.find(cell_words(view_.device.layout, plate, cell)) != std::string::npos;
        canvas_.mark(at, meant ? MarkShape::dot : MarkShape::ring, cell_radius,
                     meant ? Ink::ink : Ink::quiet);
        const float half = canvas_.px(cell_radius);
        canvas_.text({at.x - half, at.y - half, at.x + half, at.y + half}, std::to_string(cell + 1),
                     TextSize::small, meant ? Ink::paper : Ink::ink, Align::middle, TextWeight::bold);
    }

    static constexpr float cell_radius = 10.0F;

    ScreenCanvas& canvas_;
    Box box_;
    const PlatesView& view_;
    PointM low_{1e9, 1e9};
    PointM high_{-1e9, -1e9};
    float px_a_m_ = 1.0F;
};

void draw_mark(ScreenCanvas& canvas, Box& row, MarkShape shape) {
    const Box mark = row.cut_left(canvas.px(28));
    canvas.mark({mark.left + canvas.px(8), mark.top + canvas.px(14)}, shape, 5.0F, Ink::ink);
}

void draw_health(ScreenCanvas& canvas, Box& box, const PlatesView& view) {
    for (const HealthLine& line : plates_health(view)) {
        Box row = box;
        const bool good = line.state == HealthLine::State::good;
        draw_mark(canvas, row, good ? MarkShape::dot : MarkShape::ring);
        const TextWeight weight = good ? TextWeight::regular : TextWeight::bold;
        if (canvas.text_width(line.words, TextSize::text, weight) < row.width()) {
            canvas.text(row.cut_top(canvas.px(28)), line.words, TextSize::text, Ink::ink, Align::left,
                        weight);
        } else {
            row.top = canvas.paragraph(row, line.words, TextSize::text, Ink::ink);
        }
        box.top = std::max(row.top, box.top + canvas.px(28));
    }
}

MarkShape mark_of(Agreement agreement) {
    switch (agreement) {
        case Agreement::agrees:
            return MarkShape::diamond;
        case Agreement::differs:
            return MarkShape::triangle_right;
        case Agreement::too_close:
            break;
    }
    return MarkShape::diamond_hollow;
}

const char* words_of(Agreement agreement) {
    switch (agreement) {
        case Agreement::agrees:
            return "agrees";
        case Agreement::differs:
            return "differs";
        case Agreement::too_close:
            break;
    }
    return "too close to call";
}

void draw_checked(ScreenCanvas& canvas, Box box, const CheckResult& result) {
    canvas.text(box.cut_top(canvas.px(40)), fmt::format("The quick check {}", words_of(result.overall())),
                TextSize::heading, Ink::ink, Align::left, TextWeight::bold);
    for (const CheckComparison& one : result.comparisons) {
        Box row = box.cut_top(canvas.px(28));
        draw_mark(canvas, row, mark_of(one.agreement));
        canvas.text(row,
                    fmt::format("{}: {} by {:.1f} ± {:.1f} %", one.what, words_of(one.agreement),
                                100.0 * std::abs(one.difference), 200.0 * one.u),
                    TextSize::text, Ink::ink);
    }
    for (const std::string& advice : result.advice)
        box.top = canvas.paragraph(box, advice, TextSize::text, Ink::ink) + canvas.px(8);
}

void draw_kept(ScreenCanvas& canvas, Box box, const KeptCalibration& kept) {
    canvas.text(box.cut_top(canvas.px(40)), "Calibrated; lessons use it from now on", TextSize::heading,
                Ink::ink, Align::left, TextWeight::bold);
    box.top = canvas.paragraph(box,
                               fmt::format("A lead share of 75 % is known to ± {:.2f} %, as far as the "
                                           "calibration goes. Kept in {}",
                                           100.0 * kept.share_u2, kept.file),
                               TextSize::text, Ink::ink) +
              canvas.px(8);
    for (const std::string& remark : kept.remarks) {
        if (box.height() < canvas.px(48)) return;
        box.top = canvas.paragraph(box, remark, TextSize::text, Ink::quiet) + canvas.px(8);
    }
}

/// What to do now, readable from the plates: the first words large, what they add below; then what is waited
/// for.
void draw_task(ScreenCanvas& canvas, Box box, const PlatesView& view) {
    canvas.text(
        box.cut_top(canvas.px(28)),
        fmt::format("{}, step {} of {}", view.task == PlatesTask::checking ? "quick check" : "calibration",
                    std::min(view.step + 1, view.steps), view.steps),
        TextSize::text, Ink::quiet);
    const std::size_t comma = view.instruction.find(", ");
    const std::string first = view.instruction.substr(0, comma);
    const std::string rest = comma == std::string::npos ? "" : view.instruction.substr(comma + 2);
    canvas.large_text(box.cut_top(canvas.px(96)), first, ScreenCanvas::LargeFace::words, Ink::ink);
    if (!rest.empty()) box.top = canvas.paragraph(box, rest, TextSize::text, Ink::ink) + canvas.px(4);
    canvas.text(box.cut_top(canvas.px(32)), view.remark.empty() ? "reading" : view.remark, TextSize::heading,
                Ink::quiet);
    canvas.text(box.cut_top(canvas.px(28)), "Enter takes the reading as it is; Esc gives up", TextSize::text,
                Ink::quiet);
}

struct Button {
    const char* name;
    std::string words;
    const char* key;
    BookAction action;
};

void draw_what_next(ScreenCanvas& canvas, Box box, const BookDesk& book, std::vector<ViewAction>& asked) {
    const PlatesDesk& bench = book.bench;
    const PlatesView& view = *bench.view;
    if (view.checked) {
        draw_checked(canvas, box.cut_top(box.height() - canvas.px(152)), *view.checked);
    } else if (view.kept) {
        draw_kept(canvas, box.cut_top(box.height() - canvas.px(152)), *view.kept);
    } else if (view.problem) {
        Box trouble = box.cut_top(canvas.px(96));
        canvas.paragraph(trouble, sentence(*view.problem), TextSize::text, Ink::ink);
    }
    const Student* student = chosen_student(book);
    const auto typed = typed_masses(bench.typed);
    std::string weight = "plates with each other only";
    if (typed && typed->size() == 1) {
        weight = fmt::format("against {:g} kg", typed->front());
    } else if (student && student->weight_kg) {
        weight = fmt::format("against {:g} kg, {}", *student->weight_kg, student->name);
    }
    const bool mat = view.device.layout.kind == FrameKind::grid;
    const char* how = mat                                        ? "walked over, then a known weight"
                      : bench.method == CalibrationMethod::cells ? "masses over each cell"
                                                                 : "a known weight on each plate";
    const Box field = box.cut_top(canvas.px(40));
    const std::string shown =
        bench.typed.empty() ? "type kg: masses as 10, 20, 30, or one weight" : bench.typed;
    canvas.text(field, shown, bench.typed.empty() ? TextSize::text : TextSize::heading,
                bench.typed.empty() ? Ink::quiet : Ink::ink);
    canvas.line({field.left, field.bottom}, {field.right, field.bottom}, Ink::quiet);
    box.cut_top(canvas.px(8));
    const std::array<Button, 3> buttons{
        {{"check", "quick check, " + weight, "K", AskPlates{PlatesWish::check}},
         {"calibrate",
          typed && !typed->empty() ? "calibrate with " + bench.typed + " kg"
                                   : "calibrate, once masses are typed",
          "C", AskPlates{PlatesWish::calibrate}},
         {"method", std::string("how: ") + how, "H", ChangeMethod{}}}};
    for (const Button& button : buttons) {
        Box row = box.cut_top(canvas.px(32));
        const Touch found = touch(button.name, row);
        if (found == Touch::pressed) asked.push_back(button.action);
        if (found == Touch::hovered) canvas.fill(row, Ink::band, 1.0, 4.0F);
        canvas.text(row.cut_left(canvas.px(32)), button.key, TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        canvas.text(row, button.words, TextSize::text, Ink::ink);
    }
}

void draw_purpose_of_plates(ScreenCanvas& canvas, Box box, const ViewState& state) {
    const bool lesson = state.desk.has_value();
    canvas.large_text(box.cut_top(canvas.px(88)), lesson ? "A lesson has them" : "Are they right?",
                      ScreenCanvas::LargeFace::words, Ink::ink);
    const char* words =
        lesson
            ? "Its own screen says how the plates are. Between lessons they can be listened to here, checked "
              "and calibrated."
            : "Listen to the plates: what they send stands here live, with rate, loss, noise and zero. A "
              "quick "
              "check compares them with a known weight and with each other, in a minute. A calibration with "
              "masses leads step by step, and lessons use it from then on.";
    box.cut_top(canvas.px(16));
    box.top = canvas.paragraph(box, words, TextSize::text, Ink::ink) + canvas.px(16);
    if (lesson) return;
    canvas.paragraph(box, "Lift with straight back, and keep fingers and feet from under the masses.",
                     TextSize::text, Ink::quiet);
}

void draw_listen(ScreenCanvas& canvas, Box box, std::vector<ViewAction>& asked) {
    const Touch found = touch("listen", box);
    if (found == Touch::pressed) asked.push_back(BookAction{AskPlates{PlatesWish::listen}});
    canvas.fill(box, Ink::ink, found == Touch::hovered ? 0.85 : 1.0, 4.0F);
    canvas.text(box, "Enter listens to these plates", TextSize::heading, Ink::paper, Align::middle,
                TextWeight::bold);
}

}  // namespace

void draw_plates_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                      std::vector<ViewAction>& asked) {
    const BookDesk& book = *state.book;
    const PlatesView* view = book.bench.view.get();
    Box rest = box;
    if (state.desk || !view) {
        const float room = std::min(canvas.px(460), box.width() * 0.42F);
        Box list = rest.cut_right(room);
        rest.cut_right(canvas.px(48));
        draw_purpose_of_plates(canvas, rest, state);
        if (state.desk) return;
        draw_listen(canvas, list.cut_bottom(canvas.px(72)).inset(0.0F, canvas.px(8)), asked);
        canvas.text(list.cut_top(canvas.px(40)), "these plates", TextSize::text, Ink::ink, Align::left,
                    TextWeight::bold);
        draw_rows(
            canvas, list, book.facts->plates.size(), book.plates,
            [&](const Box& row, std::size_t place) {
                canvas.text(row, book.facts->plates[place].words, TextSize::text, Ink::ink);
            },
            asked);
        return;
    }
    if (view->stage != PlatesView::Stage::heard) {
        canvas.large_text(rest.cut_top(canvas.px(96)), "Looking for the plates",
                          ScreenCanvas::LargeFace::words, Ink::ink);
        canvas.paragraph(
            rest,
            view->hint.empty() ? view->source : fmt::format("{:.0f} s  ·  {}", view->waited_s, view->hint),
            TextSize::heading, Ink::quiet);
        return;
    }
    const bool working = view->task != PlatesTask::listening;
    if (working) {
        draw_task(canvas, rest.cut_top(canvas.px(232)), *view);
        rest.cut_top(canvas.px(8));
    }
    Box right = rest.cut_right(std::min(canvas.px(480), box.width() * 0.42F));
    rest.cut_right(canvas.px(48));
    Box head = rest.cut_top(canvas.px(32));
    canvas.text(head.cut_right(canvas.px(144)), load_words(view->total_n), TextSize::heading, Ink::ink,
                Align::right, TextWeight::bold);
    canvas.text(head, fmt::format("{} (serial number {})", view->device.name, view->device.serial),
                TextSize::text, Ink::ink);
    rest.cut_top(canvas.px(8));
    Ground(canvas, rest, *view).draw();
    draw_health(canvas, right, *view);
    if (working) return;
    right.cut_top(canvas.px(16));
    draw_what_next(canvas, right, book, asked);
}

}  // namespace footing
