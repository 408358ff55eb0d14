#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "viewer/panels/book_panels.h"
#include "viewer/panels/consent.h"
#include "viewer/panels/panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

constexpr const char* cautions_before =
    "Before anyone swings: clear the swing's radius; plates level and dry, their edges plain to see. Stop on "
    "pain. Minors only with consent.";

enum class Ready { yes, missing };
struct Line {
    Ready ready = Ready::yes;
    std::string words;
    const char* key = "";  ///< that changes it
};

std::string wedge_names(const std::vector<Wedge>& wedges) {
    std::string names;
    for (const Wedge& wedge : wedges) {
        if (wedge.bag == Bag::in) names += (names.empty() ? "" : ", ") + wedge.name;
    }
    return names;
}

/// Of somebody who has no name here.
Line consent_words(Consent consent) {
    switch (consent) {
        case Consent::given:
            return {Ready::yes, "may be recorded in this lesson"};
        case Consent::refused:
            return {Ready::missing, "does not want to be recorded"};
        case Consent::not_asked:
            break;
    }
    return {Ready::missing, "not asked yet whether the lesson may be recorded"};
}

/// What can be known before the plates are heard; the rest stands on the lesson's own screen.
std::vector<Line> lines_of(const ViewState& state) {
    const BookDesk& book = *state.book;
    std::vector<Line> lines;
    const std::optional<Student> student = student_as_said(book);
    if (!state.desk && simulated_is_chosen(book))
        lines.push_back({Ready::missing, "simulated golfer, not plates: nobody's swings are recorded"});
    if (!student && (book.student || !book.new_student.empty())) {
        lines.push_back({Ready::missing, "being looked up in the book"});
        return lines;
    }
    if (!student) {
        lines.push_back({Ready::missing, "no student chosen: this lesson will not be in the book"});
        if (consent_is_asked(state)) lines.push_back(consent_words(consent_said(state)));
        return lines;
    }
    const bool can_change = !state.desk;
    lines.push_back({Ready::yes,
                     student->hand == Hand::left ? "left-handed: the right foot leads"
                                                 : "right-handed: the left foot leads",
                     can_change ? "H  the other way" : ""});
    lines.push_back({Ready::yes,
                     student->unit == DistanceUnit::yards ? "carries in yards" : "carries in metres",
                     can_change ? "U  the other unit" : ""});
    if (consent_is_asked(state)) {
        const CheckLine consent = consent_line(*student);
        lines.push_back(
            {consent.state == CheckLine::State::good ? Ready::yes : Ready::missing, consent.words});
    } else {
        lines.push_back({Ready::yes, "nobody has to be asked whether they may be recorded"});
    }
    const std::string names = wedge_names(book.facts->wedges);
    if (names.empty()) {
        lines.push_back({Ready::yes, "no wedges in the book yet: those that are used are put there"});
    } else {
        lines.push_back({Ready::yes, "wedges " + names});
    }
    if (student->weight_kg) {
        lines.push_back({Ready::yes, fmt::format("weighs {:.0f} kg: the plates are compared with it",
                                                 *student->weight_kg)});
    } else {
        lines.push_back({Ready::yes, "weight not in the book: the first quiet stance tells it"});
    }
    return lines;
}

/// Who said no while being recorded: that it stopped, what is kept, how to be rid of it, how to go on.
void draw_refusal(ScreenCanvas& canvas, Box box, const ViewState& state) {
    const Refusal& refusal = *state.book->refusal;
    draw_lesson_alarm(canvas, box.cut_top(canvas.px(48)),
                      "Recording has stopped: " + one_line(refusal.name) + " said no");
    canvas.enter("book");
    box.cut_top(canvas.px(8));
    const auto line = [&](const std::string& words) {
        canvas.text(box.cut_top(canvas.px(26)), words, TextSize::text, Ink::ink);
    };
    line(refusal.recording.empty() ? "Nothing was recorded."
                                   : "What was recorded until then is kept: " + refusal.recording);
    if (!refusal.recording.empty())
        line(
            "To be rid of it: Ctrl 3 and Del take the lesson out of the book; then delete that file, and "
            "those whose names begin as its.");
    line("Another answer: Y, then Enter begins a new lesson. Somebody else: Ctrl 1.");
}

void draw_line(ScreenCanvas& canvas, Box row, const Line& line) {
    const Box mark = row.cut_left(canvas.px(32));
    const ImVec2 at{mark.left + canvas.px(8), mark.middle_y()};
    const bool missing = line.ready == Ready::missing;
    const float half = canvas.px(5);
    if (missing) {
        canvas.fill({at.x - half, at.y - half, at.x + half, at.y + half}, Ink::alarm);
    } else {
        canvas.mark(at, MarkShape::dot, 5.0F, Ink::ink);
    }
    const std::string key = line.key;
    if (!key.empty())
        canvas.text(row.cut_right(canvas.text_width(key, TextSize::small) + canvas.px(8)), key,
                    TextSize::small, Ink::quiet, Align::right);
    canvas.text(row, line.words, TextSize::text, missing ? Ink::alarm : Ink::ink, Align::left,
                missing ? TextWeight::bold : TextWeight::regular);
}

/// Two answers to choose from; the one that holds is marked.
void draw_consent(ScreenCanvas& canvas, Box row, Consent said, std::vector<ViewAction>& asked) {
    row.cut_left(canvas.px(32));
    row.cut_top(canvas.px(4));
    struct Answer {
        const char* name;
        const char* words;
        Consent consent;
    };
    for (const Answer& answer : {Answer{"consents", "Y  may be recorded", Consent::given},
                                 Answer{"refuses", "N  may not", Consent::refused}}) {
        const Box place =
            row.cut_left(canvas.text_width(answer.words, TextSize::text, TextWeight::bold) + canvas.px(24));
        row.cut_left(canvas.px(16));
        const bool holds = said == answer.consent;
        const Touch found = touch(answer.name, place);
        if (found == Touch::pressed) asked.push_back(BookAction{SayConsent{answer.consent}});
        if (holds || found == Touch::hovered) canvas.fill(place, Ink::band, holds ? 1.0 : 0.5, 4.0F);
        const bool open = said == Consent::not_asked;
        if (open) canvas.frame(place, Ink::ink, 1.5F, 4.0F);  // to be answered before anything else
        canvas.text(place, answer.words, TextSize::text, holds || open ? Ink::ink : Ink::quiet, Align::middle,
                    open ? TextWeight::bold : TextWeight::regular);
    }
}

}  // namespace

void draw_begin_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                     std::vector<ViewAction>& asked) {
    const BookDesk& book = *state.book;
    Box rest = box;
    if (book.refusal && !state.desk) {  // while it is being closed the lesson's own bar says so
        draw_refusal(canvas, rest.cut_top(canvas.px(144)), state);
        rest.cut_top(canvas.px(8));
    }
    Box who = rest.cut_left((rest.width() - canvas.px(48)) * 0.5F);
    rest.cut_left(canvas.px(48));
    const std::optional<Student> student = student_as_said(book);
    const std::string name = student                    ? one_line(student->name)
                             : book.new_student.empty() ? "Nobody chosen"
                                                        : one_line(book.new_student);
    const Box head = who.cut_top(canvas.px(80));
    if (canvas.text_width(name, TextSize::heading, TextWeight::bold) < 0.8F * head.width()) {
        canvas.large_text(head, name, ScreenCanvas::LargeFace::words, Ink::ink);
    } else {  // not smaller than a heading, however long
        canvas.paragraph(head, name, TextSize::heading, Ink::ink, TextWeight::bold);
    }
    who.cut_top(canvas.px(16));
    const std::vector<Line> lines = lines_of(state);
    const float consent = consent_is_asked(state) ? canvas.px(40) : 0.0F;
    // Lines stand closer where there are many, so that the cautions below have their room.
    const float cautions_height =
        canvas.px(12) +
        std::ceil(canvas.text_height(TextSize::text) * 1.5F) *
            static_cast<float>(canvas.lines_of(cautions_before, who.width(), TextSize::text).size());
    const float for_each = (who.height() - consent - cautions_height) / static_cast<float>(lines.size());
    for (const Line& line : lines)
        draw_line(canvas, who.cut_top(std::min(canvas.px(36), std::floor(for_each))), line);
    if (consent > 0.0F) draw_consent(canvas, who.cut_top(consent), consent_said(state), asked);
    who.cut_top(std::clamp(who.height() - cautions_height, 0.0F, canvas.px(24)));
    canvas.paragraph(who, cautions_before, TextSize::text, Ink::quiet);

    const std::size_t joined = book.joined.size();
    canvas.text(rest.cut_top(canvas.px(32)),
                joined > 1 ? fmt::format("on these {} devices, taken as one", joined) : "on these plates",
                TextSize::text, Ink::ink, Align::left, TextWeight::bold);
    canvas.line({rest.left, rest.top}, {rest.right, rest.top}, Ink::grid);
    Box begin = rest.cut_bottom(canvas.px(72));
    rest.cut_top(canvas.px(4));
    draw_rows(
        canvas, rest, book.facts->plates.size(), book.plates,
        [&](Box row, std::size_t place) {
            if (joined > 0) {
                const Box mark = row.cut_left(canvas.px(24));
                const bool taken = std::ranges::find(book.joined, place) != book.joined.end();
                if (taken)
                    canvas.mark({mark.left + canvas.px(6), mark.middle_y()}, MarkShape::dot, 5.0F, Ink::ink);
            }
            canvas.text(row, book.facts->plates[place].words, TextSize::text, Ink::ink);
        },
        asked);
    if (state.desk) {
        canvas.text(
            begin,
            book.refusal ? "the recording is being closed" : "a lesson is under way; Esc goes back to it",
            TextSize::heading, Ink::quiet);
        return;
    }
    if (consent_said(state) == Consent::refused) {
        canvas.text(begin, "no lesson without consent", TextSize::heading, Ink::quiet);
        return;
    }
    begin = begin.inset(0.0F, canvas.px(8));
    if (consent_is_asked(state) && consent_said(state) == Consent::not_asked) {
        canvas.frame(begin, Ink::ink, 1.5F, 4.0F);
        canvas.text(begin, "first: may they be recorded?  Y  or  N", TextSize::heading, Ink::ink,
                    Align::middle, TextWeight::bold);
        return;
    }
    const Touch found = touch("begin", begin);
    if (found == Touch::pressed) asked.push_back(BookAction{Confirm{}});
    canvas.fill(begin, Ink::ink, found == Touch::hovered ? 0.85 : 1.0, 4.0F);
    canvas.text(begin,
                simulated_is_chosen(book) ? "Enter begins a simulated lesson" : "Enter begins the lesson",
                TextSize::heading, Ink::paper, Align::middle, TextWeight::bold);
}

}  // namespace footing
