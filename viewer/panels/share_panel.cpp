#include <fmt/format.h>

#include <algorithm>

#include "analysis/report/swing_figure.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/share_here.h"

namespace footing {

void draw_share(ScreenCanvas& canvas, const Box& box, const ViewState& state) {
    canvas.enter("share");
    const ShareHere here = share_here(state);
    if (!known(here.value)) {
        Box words = box;
        const bool feet = feet_known(state);
        canvas.text(words.cut_top(canvas.px(40)), "no lead share here", TextSize::heading, Ink::ink,
                    Align::left, TextWeight::bold);
        canvas.paragraph(
            words,
            feet ? "Nobody stands on the plates here."
                 : "One plate under both feet cannot tell them apart. The trace shows where the load is.",
            TextSize::text, Ink::quiet);
        return;
    }
    Box words = box;
    const std::string number = fmt::format("{:.0f}", here.value * 100.0);
    const float number_width = canvas.text_width("100", TextSize::figure, TextWeight::bold);
    const Box figure =
        words.cut_left(std::min(canvas.text_width(number, TextSize::figure, TextWeight::bold), number_width));
    canvas.text({figure.left, figure.top, figure.right + 1.0F, figure.bottom}, number, TextSize::figure,
                Ink::ink, Align::left, TextWeight::bold);
    words.cut_left(canvas.px(8));
    words = {words.left, box.middle_y() - canvas.px(36), words.right, box.middle_y() + canvas.px(36)};
    canvas.text(words.cut_top(canvas.px(24)), "% on the lead foot", TextSize::text, Ink::ink);
    Box meaning = words.cut_top(canvas.px(24));
    if (here.verdict) {
        const Box mark = meaning.cut_left(canvas.px(24));
        canvas.mark({mark.left + canvas.px(8), mark.middle_y()}, mark_of(*here.verdict), 6.0F, Ink::ink);
    }
    canvas.text(meaning, here.meaning, TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    canvas.text(words.cut_top(canvas.px(24)), here.moment, TextSize::small, Ink::quiet);
}

}  // namespace footing
