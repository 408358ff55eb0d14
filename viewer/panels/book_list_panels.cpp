#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>

#include "acquisition/frame/count_words.h"
#include "acquisition/frame/simulated_golfer.h"
#include "viewer/panels/book_panels.h"
#include "viewer/panels/touch.h"

namespace footing {

namespace {

struct Step {
    const char* what;
    const char* how;
};

constexpr std::array<Step, 5> first_steps{{
    {"Type a name and press Enter",
     "It becomes your first student. Names stay in the book and name no file."},
    {"Lay the plates level on dry ground",
     "Clear the swing's radius; make the edges plain to see; nobody on them yet."},
    {"Choose the plates and press Enter",
     "They are zeroed while empty. No plates yet? A simulated golfer gives a whole demo lesson."},
    {"Let the student step on and swing",
     "The share stands there against the band; each swing is caught and replayed by itself."},
    {"Say what it was, in one key each",
     "S shot, P practice, X no swing, W wedge, E length, digits the carry; Ctrl Z undoes."},
}};

constexpr const char* demo_words = "Enter: a demo lesson, without student or plates";

std::string counted(std::int64_t number, const char* one, const char* many) {
    return count_words(static_cast<std::uint64_t>(number), one, many);
}

void draw_first_start(ScreenCanvas& canvas, Box box, const BookDesk& book, std::vector<ViewAction>& asked) {
    canvas.text(box.cut_top(canvas.px(40)), "The book is empty: five steps to the first lesson",
                TextSize::heading, Ink::ink, Align::left, TextWeight::bold);
    box.cut_top(canvas.px(8));
    for (std::size_t place = 0; place < first_steps.size(); ++place) {
        Box row = box.cut_top(canvas.px(60));
        const Box number = row.cut_left(canvas.px(40));
        const bool now = place == 0;
        canvas.text({number.left, number.top, number.right, number.top + canvas.px(28)},
                    fmt::format("{}", place + 1), TextSize::heading, now ? Ink::lead : Ink::quiet,
                    Align::left, TextWeight::bold);
        canvas.text(row.cut_top(canvas.px(28)), first_steps[place].what, TextSize::text, Ink::ink,
                    Align::left, TextWeight::bold);
        canvas.text(row.cut_top(canvas.px(24)), first_steps[place].how, TextSize::text, Ink::quiet);
    }
    box.cut_top(canvas.px(16));
    Box demo = box.cut_top(canvas.px(48));
    const float words = canvas.text_width(demo_words, TextSize::text, TextWeight::bold);
    demo.right = std::min(demo.right, demo.left + words + canvas.px(48));
    const Touch found = touch("demo", demo);
    if (found == Touch::pressed) asked.push_back(BookAction{Confirm{}});
    canvas.fill(demo, Ink::ink, found == Touch::hovered ? 0.85 : 1.0, 4.0F);
    canvas.text(demo, demo_words, TextSize::text, Ink::paper, Align::middle, TextWeight::bold);
    box.cut_top(canvas.px(8));
    canvas.text(box.cut_top(canvas.px(24)), "The book: " + book.facts->file, TextSize::small, Ink::quiet);
}

void draw_name_field(ScreenCanvas& canvas, const Box& box, const BookDesk& book) {
    const Box words{box.left, box.top, std::min(box.right, box.left + canvas.px(640)), box.bottom};
    canvas.line({words.left, words.bottom}, {words.right, words.bottom}, Ink::quiet);
    if (book.typed.empty()) {
        canvas.text(words, "type a name: to find a student, or for a new one", TextSize::text, Ink::quiet);
        return;
    }
    const Box drawn = canvas.text(words, book.typed, TextSize::heading, Ink::ink);
    canvas.line({drawn.right + canvas.px(3), words.top + canvas.px(6)},
                {drawn.right + canvas.px(3), words.bottom - canvas.px(6)}, Ink::ink, 1.5F);
}

void draw_bin(ScreenCanvas& canvas, const Box& box, const BookDesk& book) {
    const std::vector<BinItem> bin = bin_of(book);
    if (bin.empty()) return;
    const std::string more = bin.size() > 1 ? fmt::format(" and {} more", bin.size() - 1) : "";
    canvas.text(box,
                fmt::format("in the bin: {}{}  ·  goes when the window closes; Ctrl Z takes it out again",
                            bin.back().name, more),
                TextSize::small, Ink::ink);
}

std::string plays_words(const Student& student) {
    return fmt::format("{}, {}", student.hand == Hand::left ? "left-handed" : "right-handed",
                       student.unit == DistanceUnit::yards ? "yards" : "metres");
}

}  // namespace

void draw_students_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                        std::vector<ViewAction>& asked) {
    const BookDesk& book = *state.book;
    Box rest = box;
    draw_name_field(canvas, rest.cut_top(canvas.px(40)), book);
    rest.cut_top(canvas.px(16));
    draw_bin(canvas, rest.cut_bottom(canvas.px(24)), book);
    const std::vector<std::size_t> listed = listed_students(book);
    if (listed.empty() && !book.typed.empty()) {
        draw_purpose(canvas, rest, "Nobody of that name",
                     "Enter makes a new student of it; Esc clears what was typed.");
        return;
    }
    if (book.facts->students.empty()) return draw_first_start(canvas, rest, book, asked);
    draw_rows(
        canvas, rest, listed.size(), book.row,
        [&](Box row, std::size_t place) {
            const StudentLine& line = book.facts->students[listed[place]];
            const Box last = row.cut_right(canvas.px(184));
            const Box lessons = row.cut_right(canvas.px(200));
            const Box plays = row.cut_right(canvas.px(192));
            canvas.text(row, line.student.name, TextSize::text, Ink::ink, Align::left, TextWeight::bold);
            canvas.text(plays, plays_words(line.student), TextSize::text, Ink::quiet);
            canvas.text(
                lessons,
                counted(line.lessons, "lesson", "lessons") + ", " + counted(line.swings, "swing", "swings"),
                TextSize::text, Ink::ink, Align::right);
            canvas.text(last, line.last_lesson.empty() ? "no lesson yet" : line.last_lesson, TextSize::text,
                        line.last_lesson.empty() ? Ink::quiet : Ink::ink, Align::right);
        },
        asked);
}

void draw_lessons_page(ScreenCanvas& canvas, const Box& box, const ViewState& state,
                       std::vector<ViewAction>& asked) {
    const BookDesk& book = *state.book;
    Box rest = box;
    draw_bin(canvas, rest.cut_bottom(canvas.px(24)), book);
    const std::vector<std::size_t> listed = listed_lessons(book);
    if (listed.empty()) {
        return draw_purpose(
            canvas, rest, book.student ? "No lesson yet" : "Lessons of one student",
            book.student
                ? "Each lesson that ends stands here with its swings and carries, to be opened again. "
                  "The next one begins on the page before."
                : "Choose a student on the first page; then the lessons stand here, newest first, to be "
                  "opened again.");
    }
    draw_rows(
        canvas, rest, listed.size(), book.row,
        [&](Box row, std::size_t place) {
            const LessonLine& line = book.facts->lessons[listed[place]];
            const Box file = row.cut_right(canvas.px(176));
            const Box swings = row.cut_right(canvas.px(200));
            canvas.text(row.cut_left(canvas.px(120)), line.lesson.date, TextSize::text, Ink::ink, Align::left,
                        TextWeight::bold);
            canvas.text(row.cut_left(canvas.px(64)), begun_at(line), TextSize::text, Ink::ink);
            canvas.text(row.cut_left(canvas.px(112)), fmt::format("lesson {}", line.lesson.id),
                        TextSize::text, Ink::quiet);
            if (is_simulated_golfer(line.device)) {
                const std::string words =
                    line.lesson.note.empty() ? "simulated golfer" : "simulated golfer  ·  ";
                const Box drawn =
                    canvas.text(row, words, TextSize::text, Ink::ink, Align::left, TextWeight::bold);
                row.left = drawn.right;
            }
            canvas.text(row, line.lesson.note, TextSize::text, Ink::quiet);
            canvas.text(swings,
                        line.swings == 0 ? "no swing"
                                         : counted(line.swings, "swing", "swings") + ", " +
                                               counted(line.carries, "carry", "carries"),
                        TextSize::text, line.swings == 0 ? Ink::quiet : Ink::ink, Align::right);
            const bool there = !line.recording_file.empty();
            canvas.text(file, there ? "recorded" : "no recording known", TextSize::text,
                        there ? Ink::ink : Ink::quiet, Align::right);
        },
        asked);
}

}  // namespace footing
