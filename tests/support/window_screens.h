#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "tests/support/live_sample.h"
#include "viewer/book/student_progress.h"
#include "viewer/panels/view_action.h"

/// Every screen of the window, with invented data, with long names, and with none.
namespace footing::sample {

struct NamedScreen {
    std::string name;
    ViewState state;
};

enum class Names { usual, very_long };

inline ViewState open_sample() {
    return show_lesson(std::make_shared<const LessonResult>(lesson()));
}

inline std::string person(Names names) {
    return names == Names::usual
               ? "Robin Sample"
               : "Wolfeschlegelsteinhausenbergerdorff-Featherstonehaugh, Maximiliane Theodora von und zu";
}

/// Six lessons' worth of shots that come nearer to the band.
inline std::shared_ptr<const StudentProgress> student_progress() {
    auto progress = std::make_shared<StudentProgress>();
    std::vector<ProgressShot> shots;
    for (std::size_t lesson = 0; lesson < 8; ++lesson) {
        LessonLine line;
        line.lesson.id = static_cast<std::int64_t>(lesson) + 1;
        line.lesson.date = date_of_day(20'520 + 7 * static_cast<std::int64_t>(lesson));
        progress->lessons.push_back(line);
        for (std::size_t i = 0; i < 6; ++i) {
            ProgressShot shot;
            shot.lesson = lesson;
            shot.address_share = 0.64 + 0.012 * static_cast<double>(lesson) + 0.003 * static_cast<double>(i);
            shot.tempo_ratio = 2.8 - 0.04 * static_cast<double>(lesson) + 0.03 * static_cast<double>(i);
            shots.push_back(shot);
        }
    }
    progress->series = progress_of_lessons(shots);
    progress->advice = {{PracticeRule::weight_outside, "Weight: more onto the lead foot at address."}};
    return progress;
}

/// A book of some students, the second one chosen, with lessons and carries.
inline BookFacts book_facts(Names names) {
    BookFacts facts;
    facts.file =
        names == Names::usual
            ? "/home/coach/.local/share/footing/lessons.book"
            : "/media/coach/a very long name of a folder on a stick/and another one in it/lessons.book";
    facts.revision = 1;
    const std::vector<std::string> people{"Alex Example", person(names), "Kim Muster", "Jo Prøve"};
    for (std::size_t i = 0; i < people.size(); ++i) {
        StudentLine line;
        line.student.id = static_cast<std::int64_t>(i) + 1;
        line.student.name = people[i];
        line.student.hand = i == 2 ? Hand::left : Hand::right;
        line.student.weight_kg = 75.0;
        line.student.unit = DistanceUnit::metres;
        line.student.consent = Consent::given;
        line.student.consent_date = "2026-05-14";
        line.lessons = static_cast<std::int64_t>(3 * i);
        line.swings = static_cast<std::int64_t>(61 * i);
        if (i > 0) line.last_lesson = "2026-05-14";
        facts.students.push_back(line);
    }
    facts.student = facts.students[1].student;
    std::vector<ChartWedge> bag;
    std::vector<ChartShot> shots;
    for (std::size_t wedge = 0; wedge < 4; ++wedge) {
        const double loft = 46.0 + 4.0 * static_cast<double>(wedge);
        Wedge one;
        one.id = static_cast<std::int64_t>(wedge) + 1;
        one.student = 2;
        one.name = std::to_string(static_cast<int>(loft)) + "°";
        one.loft_deg = loft;
        facts.wedges.push_back(one);
        bag.push_back({one.name, loft, Bag::in});
        for (int length = 0; length < 3; ++length) {
            for (int shot = 0; shot < 6; ++shot) {
                ChartShot one_shot{wedge, static_cast<SwingLength>(length), {}};
                one_shot.carry.carry_m = 84.0 - 11.0 * static_cast<double>(wedge) - 16.0 * (2 - length) +
                                         1.7 * ((shot * 5 + length) % 4) - 2.0;
                one_shot.carry.day = 20'580;
                shots.push_back(one_shot);
            }
        }
    }
    DistanceOptions on_day;
    on_day.today = 20'587;
    facts.chart = make_distance_chart(std::move(bag), shots, on_day);
    for (int i = 0; i < 9; ++i) {
        LessonLine line;
        line.lesson.id = 9 - i;
        line.lesson.student = 2;
        line.lesson.date = "2026-0" + std::to_string(5 - i / 3) + "-" + std::to_string(24 - i);
        line.lesson.note = i % 3 == 0 ? "weight on the lead foot through impact" : "";
        line.student_name = facts.students[1].student.name;
        line.recording_file = i == 4 ? "" : "/home/coach/lessons/2026-05-14.h5";
        line.swings = 20 + i;
        line.carries = 11;
        if (i != 4) line.zone = "Europe/Berlin";
        line.start_utc_ns = 1'779'612'000'000'000'000 - 90'000'000'000'000 * i;  // 25 hours apart
        if (i == 1) line.lesson.date = facts.lessons[0].lesson.date;             // two of one day
        facts.lessons.push_back(line);
    }
    facts.progress = student_progress();
    facts.plates = {{PlatesChoice::Kind::network, "0.0.0.0:9750", "plates on the network, UDP 0.0.0.0:9750"},
                    {PlatesChoice::Kind::simulated, "", "no plates: a simulated golfer, for a demo lesson"}};
    return facts;
}

/// All swings of the open lesson laid over each other, as a worker would do it.
inline ViewState all_compared(ViewState state) {
    state = carry_out(std::move(state), CompareAction{ShowCompare{}});
    state = carry_out(std::move(state), CompareAction{PickKind{Picked::all}});
    auto comparison = std::make_shared<Comparison>();
    comparison->revision = state.compare->revision;
    std::vector<SwingToAlign> swings;
    const auto lessons = compared_lessons(state);
    for (const ComparedSwing& one : state.compare->picked) {
        const LessonResult& from = *lessons[one.lesson];
        swings.push_back({&from.trace, &from.swings[one.place], from.facts.hand, one.lesson});
        comparison->names.swings.push_back(compared_name(state, one));
    }
    comparison->names.groups = {"these swings", "the other lesson"};
    comparison->names.event = "impact";
    comparison->aligned = align_swings(swings, &SwingEvents::impact);
    return carry_out(std::move(state), CompareAction{HearComparison{std::move(comparison)}});
}

inline ViewState at_book(BookFacts facts, BookPage page) {
    ViewState state;
    state.front = Front::book;
    state.book.emplace();
    if (facts.student) state.book->student = facts.student->id;
    state = carry_out(std::move(state),
                      BookAction{HearBook{std::make_shared<const BookFacts>(std::move(facts))}});
    return carry_out(std::move(state), BookAction{TurnToPage{page}});
}

inline BookFacts empty_book() {
    BookFacts facts = book_facts(Names::usual);
    facts.students.clear();
    facts.student.reset();
    facts.wedges.clear();
    facts.lessons.clear();
    facts.chart.reset();
    facts.progress.reset();
    return facts;
}

inline LiveView named(LiveView live, Names names) {
    auto so_far = std::make_shared<LessonResult>(*live.lesson);
    so_far->facts.student = person(names);
    live.lesson = std::move(so_far);
    return live;
}

/// A lesson under way after five swings, labelled.
inline ViewState in_lesson(Names names) {
    ViewState state = hear(hear({}, named(running(1.0), names)), named(caught(20.0, 5), names));
    for (const LessonAction& action :
         {LessonAction{ChangeClub{}}, LessonAction{ChangeLength{}}, LessonAction{SayWord{CoachWord::shot}},
          LessonAction{TypeCarry{'6'}}, LessonAction{TypeCarry{'2'}}, LessonAction{Enter{}}})
        state = carry_out(std::move(state), action);
    return state;
}

inline std::vector<NamedScreen> lesson_screens(Names names) {
    const auto set_up = [&](Stance stance, double share) {
        return hear(hear({}, named(running(1.0), names)), named(standing(10.0, stance, share), names));
    };
    LiveView looking = named(running(0.0), names);
    looking.stage = LessonStage::looking_for_plates;
    looking.source = "UDP 0.0.0.0:9750";
    looking.waited_s = 12.0;
    looking.hint = "switch the plates on, and look whether both are on the same network";
    LiveView unready = named(running(4.0), names);
    unready.zero_age_s.reset();
    unready.zero_advice = ZeroAdvice::none_yet;
    unready.weight_n.reset();
    unready.calibration_state = CalibrationState::nominal;
    LiveView stalled = named(standing(10.0, Stance::still, 0.75), names);
    stalled.progress.newest_age_s = 2.4;
    LiveView lossy = named(standing(10.0, Stance::moving, 0.7), names);
    lossy.recent_loss = 0.043;
    LiveView simulated = named(standing(10.0, Stance::still, 0.75), names);
    simulated.device = "simulated golfer, two plates (serial number 100001)";
    LiveView simulated_empty = named(running(5.0), names);
    simulated_empty.device = simulated.device;
    const auto of_simulated = [](ViewState state) {
        state.desk->golfer = Golfer::simulated;
        return state;
    };
    ViewState typing =
        carry_out(carry_out(in_lesson(names), LessonAction{TypeCarry{'5'}}), LessonAction{TypeCarry{'8'}});
    ViewState asked = hear(hear({}, named(running(1.0), names)), named(caught(20.0, 5), names));
    for (const char digit : {'6', '2'}) asked = carry_out(std::move(asked), LessonAction{TypeCarry{digit}});
    asked = carry_out(std::move(asked), LessonAction{Enter{}});
    ViewState left = carry_out(asked, CloseOverlay{});
    left.notice.clear();
    ViewState held = hear(carry_out(asked, CloseOverlay{}), named(caught(60.0, 6), names));
    held.notice.clear();
    held = hear(carry_out(held, ChooseSwing{2}), named(caught(80.0, 7), names));
    ViewState older = hear(carry_out(asked, CloseOverlay{}), named(caught(60.0, 6), names));
    older.notice.clear();
    ViewState compared = carry_out(in_lesson(names), CompareAction{ShowCompare{}});
    LiveView silent = named(caught(30.0, 5), names);
    silent.progress.newest_age_s = 2.4;
    return {
        {"lesson_asked", asked},
        {"lesson_asked_set_up", hear(hear(asked, named(standing(40.0, Stance::moving, 0.6), names)),
                                     named(standing(50.0, Stance::still, 0.72), names))},
        {"lesson_left_unsaid", left},
        {"lesson_older_unsaid", older},
        {"lesson_held", held},
        {"lesson_carry_left_out", carry_out(in_lesson(names), LessonAction{SayWord{CoachWord::practice}})},
        {"lesson_notice", carry_out(in_lesson(names), ToggleSounds{})},
        {"lesson_keys", carry_out(in_lesson(names), ToggleKeys{})},
        {"lesson_stalled_compared", hear(std::move(compared), std::move(silent))},
        {"lesson_looking", hear({}, looking)},
        {"lesson_not_ready", hear({}, unready)},
        {"lesson_stalled", hear({}, stalled)},
        {"set_up_inside", set_up(Stance::still, 0.75)},
        {"set_up_below", set_up(Stance::still, 0.58)},
        {"set_up_above", set_up(Stance::still, 1.00)},
        {"set_up_moving", set_up(Stance::moving, 0.66)},
        {"set_up_lossy", hear({}, lossy)},
        {"set_up_simulated", hear({}, simulated)},
        {"lesson_simulated_replay", of_simulated(in_lesson(names))},
        {"lesson_simulated_ready", hear({}, simulated_empty)},
        {"lesson_replay", in_lesson(names)},
        {"lesson_typing", typing},
        {"lesson_closing_asks", carry_out(in_lesson(names), CloseWindow{})}};
}

/// The page of plates while they are listened to, checked and calibrated.
inline std::vector<NamedScreen> plates_screens(Names names) {
    const ViewState at_plates = at_book(book_facts(names), BookPage::plates);
    PlatesView view = heard_plates();
    if (names == Names::very_long) {
        view.device.name = std::string(60, 'd');
        view.calibration = "calibrated 2026-04-30 with known masses on each cell, " + std::string(80, 'c');
    }
    const auto working = [&](PlatesTask task, std::size_t steps, const std::string& instruction,
                             const std::string& remark) {
        PlatesView now = view;
        now.task = task;
        now.step = 1;
        now.steps = steps;
        now.instruction = instruction;
        now.remark = remark;
        return hear_plates(at_plates, now);
    };
    const ViewState calibrating =
        working(PlatesTask::calibrating, 12, "Put 20 kg over cell 1 of the left plate.",
                "At rest with 10.0 kg, but 20 kg belong there: put that mass there, or press Enter to take "
                "it as it is.");
    return {{"plates_heard", hear_plates(at_plates, view)},
            {"plates_checking", working(PlatesTask::checking, 4, "Stand on both plates and hold still.",
                                        "The reading shakes by 6.2 N: hold still.")},
            {"plates_calibrating", calibrating},
            {"plates_closing_asks", carry_out(calibrating, CloseWindow{})}};
}

/// The book while somebody is taught, whose plates fell silent; and after that student said no.
inline std::vector<NamedScreen> book_in_lesson_screens(Names names) {
    const BookFacts facts = book_facts(names);
    ViewState taught = in_lesson(names);
    taught.desk->student = facts.student;
    taught.book.emplace();
    taught.book->student = facts.student->id;
    taught = carry_out(std::move(taught), BookAction{HearBook{std::make_shared<const BookFacts>(facts)}});
    taught = carry_out(std::move(taught), BookAction{OpenPage{BookPage::begin}});
    LiveView silent = named(caught(30.0, 5), names);
    silent.progress.newest_age_s = 2.4;
    const ViewState said_no = carry_out(taught, BookAction{SayConsent{Consent::refused}});
    ViewState refused = at_book(facts, BookPage::begin);
    refused.book->refusal = said_no.book->refusal;
    refused.book->to_write = said_no.book->to_write;
    refused.book->refusal->recording = "/home/coach/.local/share/footing/lessons/2026-05-14 10.20.44.h5";
    BookFacts with_carries = facts;
    with_carries.lacking = {{9, 3, "2026-05-24", 62.0, {"", "half"}}, {9, 7, "2026-05-24", 71.5, {}}};
    BookFacts not_asked = facts;
    not_asked.student->consent = Consent::not_asked;
    BookFacts nobody = facts;
    nobody.student.reset();
    return {{"book_stalled", hear(taught, silent)},
            {"book_consent_asked", carry_out(at_book(not_asked, BookPage::begin), BookAction{Confirm{}})},
            {"book_consent_nobody", at_book(nobody, BookPage::begin)},
            {"book_refused_closing", said_no},
            {"book_refused", refused},
            {"book_keys", carry_out(taught, ToggleKeys{})},
            {"book_distances_left_out", at_book(with_carries, BookPage::distances)}};
}

inline std::vector<NamedScreen> book_screens(Names names) {
    std::vector<NamedScreen> screens = plates_screens(names);
    for (auto&& more : book_in_lesson_screens(names)) screens.push_back(more);
    for (const BookPage page : book_pages) {
        screens.push_back({std::string("book_") + page_name(page), at_book(book_facts(names), page)});
        screens.push_back({std::string("book_empty_") + page_name(page), at_book(empty_book(), page)});
    }
    return screens;
}

inline std::vector<NamedScreen> recording_screens(Names names) {
    LessonResult named_lesson = lesson();
    named_lesson.facts.student = person(names);
    if (names == Names::very_long) {
        named_lesson.facts.file = "/media/coach/folder/" + std::string(90, 'w') + ".h5";
        named_lesson.facts.device = std::string(120, 'd');
    }
    const ViewState open = show_lesson(std::make_shared<const LessonResult>(named_lesson));
    ViewState compared = carry_out(carry_out(open, KeepForComparison{}), ChooseSwing{6});
    ViewState dragged = carry_out(open, MarkAction{DragEvent{3, open.head_s - 0.42}});
    ViewState troubled = open;
    troubled.problem = Problem{ProblemKind::bad_input, "lesson.csv, line 12, column time_s",
                               "time runs back from 3.2 to 1.1", "sort the lines by time"};
    ViewState reading = carry_out(open, OpenFile{"/home/coach/tables/a table of the lesson before.csv"});
    reading.opening_part = 0.37;
    ViewState reading_first = carry_out(ViewState{}, OpenFile{"/home/coach/tables/the first table.csv"});
    ViewState said = open;
    said.notice =
        "The report is written: 2026-05-14_102044.pdf, and the student's: 2026-05-14_102044.student.pdf. In "
        "the "
        "folder " +
        std::string(names == Names::usual
                        ? "/home/coach/.local/share/footing/lessons"
                        : "/media/coach/a very long name of a folder on a stick/and another one "
                          "in it, for lessons of the first half of the year");
    ViewState recent = open;
    for (int day = 10; day < 19; ++day)
        recent.recent.push_back("/home/coach/lessons/2026-05-" + std::to_string(day) + " 10.20.44.h5");
    return {{"nothing_open", ViewState{}},
            {"recording", open},
            {"recording_compared", compared},
            {"compared_all", all_compared(open)},
            {"recording_dragged", dragged},
            {"recording_problem", troubled},
            {"recording_reading", reading},
            {"reading_first", reading_first},
            {"recording_notice", said},
            {"recording_numbers", carry_out(open, ToggleNumbers{})},
            {"keys", carry_out(open, ToggleKeys{})},
            {"recent", carry_out(recent, ToggleRecent{})},
            {"recent_none", carry_out(open, ToggleRecent{})},
            {"recording_without_swings",
             show_lesson(std::make_shared<const LessonResult>(lesson_without_swings()))},
            {"recording_one_plate", show_lesson(std::make_shared<const LessonResult>(lesson_of_unknowns()))},
            {"recording_with_loss", show_lesson(std::make_shared<const LessonResult>(lesson_with_loss()))}};
}

inline std::vector<NamedScreen> all_screens(Names names) {
    std::vector<NamedScreen> all = lesson_screens(names);
    for (auto&& more : {book_screens(names), recording_screens(names)})
        all.insert(all.end(), more.begin(), more.end());
    return all;
}

}  // namespace footing::sample
