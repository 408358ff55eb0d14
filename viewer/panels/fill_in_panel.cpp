#include <fmt/format.h>

#include <array>
#include <string>

#include "acquisition/frame/count_words.h"
#include "viewer/panels/book_panels.h"
#include "viewer/panels/lacking_carry.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

constexpr float line_px = 28.0F;
constexpr float bar_px = 32.0F;

struct Button {
    const char* name;
    const char* key;
    std::string words;
    BookAction action;
};

/// How many are left out, and where those are mended that the lesson under way has in hand.
std::string left_out_words(std::size_t here, std::size_t in_lesson) {
    const auto carries = [](std::size_t count) { return count_words(count, "carry is", "carries are"); };
    if (in_lesson == 0)
        return carries(here) + " not in the chart, since wedge or length was not said. Say it here:";
    const std::string theirs =
        carries(in_lesson) + " left out in the lesson under way: Esc, ↑ ↓ to it, then W and E";
    return here == 0 ? theirs : fmt::format("{}; {} of lessons before. Say it here:", theirs, here);
}

}  // namespace

float fill_in_height(const ScreenCanvas& canvas, const ViewState& state) {
    const bool here = !listed_lacking(state).empty();
    if (!here && lacking_in_lesson(state) == 0) return 0.0F;
    return canvas.px(here ? line_px + bar_px + 8.0F : line_px);
}

void draw_fill_in(ScreenCanvas& canvas, Box box, const ViewState& state, std::vector<ViewAction>& asked) {
    const std::vector<LackingCarry> listed = listed_lacking(state);
    const std::size_t in_lesson = lacking_in_lesson(state);
    if (listed.empty() && in_lesson == 0) return;
    canvas.text(box.cut_top(canvas.px(line_px)), left_out_words(listed.size(), in_lesson), TextSize::text,
                Ink::alarm, Align::left, TextWeight::bold);
    const auto carry = lacking_in_hand(state);
    const Student* student = chosen_student(*state.book);
    if (!carry || !student) return;
    Box bar = box.cut_top(canvas.px(bar_px));
    canvas.fill(bar, Ink::ink, 1.0, 4.0F);
    bar = bar.inset(canvas.px(12), 0.0F);
    if (listed.size() > 1) {
        canvas.text(bar.cut_right(canvas.px(112)),
                    fmt::format("{} of {}  ↑ ↓", state.book->row + 1, listed.size()), TextSize::small,
                    Ink::paper, Align::right);
    }
    const std::string which = fmt::format("lesson {}, {}, swing {}: {}", carry->lesson, carry->date,
                                          carry->swing, carry_words(carry->carry_m, student->unit));
    const float width = canvas.text_width(which, TextSize::text, TextWeight::bold);
    canvas.text(bar.cut_left(width + 1.0F), which, TextSize::text, Ink::paper, Align::left, TextWeight::bold);
    const SwingSaid& said = carry->said;
    for (const Button& button :
         {Button{"fill wedge", "W", said.club.empty() ? "which wedge?" : said.club, FillWedge{}},
          Button{"fill length", "E", said.length.empty() ? "what length?" : said.length, FillLength{}},
          Button{"fill in", "Enter", "into the chart", Confirm{}}}) {
        bar.cut_left(canvas.px(24));
        const float key = canvas.text_width(button.key, TextSize::text, TextWeight::bold) + canvas.px(8);
        Box place = bar.cut_left(key + canvas.text_width(button.words, TextSize::text) + 1.0F);
        if (touch(button.name, place) == Touch::pressed) asked.push_back(button.action);
        canvas.text(place.cut_left(key), button.key, TextSize::text, Ink::paper, Align::left,
                    TextWeight::bold);
        canvas.text(place, button.words, TextSize::text, Ink::paper);
    }
}

}  // namespace footing
