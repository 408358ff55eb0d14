#include "viewer/window/compare_keeper.h"

#include <chrono>
#include <utility>
#include <vector>

#include "viewer/panels/view_action.h"

namespace footing {

namespace {

template <typename Value>
bool is_there(const std::future<Value>& future) {
    return future.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

std::string group_words(const ViewState& state, std::size_t lesson) {
    if (state.compare->how == Picked::shot_and_practice)
        return lesson == 0 ? "its practice swings" : "the shot";
    if (lesson == 1) return other_lesson_words(state);
    return state.compare->other ? "the open lesson" : "these swings";
}

}  // namespace

Comparison compare_picked(const ViewState& state) {
    const CompareDesk& desk = *state.compare;
    Comparison comparison;
    comparison.revision = desk.revision;
    const auto lessons = compared_lessons(state);
    const bool shot_alone = desk.how == Picked::shot_and_practice;
    const std::vector<ComparedSwing> list = compared_list(state);
    std::vector<SwingToAlign> swings;
    for (const ComparedSwing& one : desk.picked) {
        const LessonResult* lesson = lessons[one.lesson];
        if (!lesson || one.place >= lesson->swings.size()) continue;
        const bool is_shot = shot_alone && desk.shot < list.size() && one == list[desk.shot];
        if (is_shot) comparison.names.looked_at = swings.size();
        swings.push_back({&lesson->trace, &lesson->swings[one.place], lesson->facts.hand,
                          shot_alone ? std::size_t{is_shot ? 1U : 0U} : one.lesson});
        comparison.names.swings.push_back(compared_name(state, one));
    }
    for (std::size_t group = 0; group < aligned_groups; ++group) {
        const bool there = group == 0 || shot_alone || desk.other;
        comparison.names.groups[group] = there ? group_words(state, group) : "";
    }
    comparison.names.event = named_events[desk.event].name;
    comparison.aligned = align_swings(swings, named_events[desk.event].member);
    return comparison;
}

bool CompareKeeper::step(ViewState& state) {
    if (!state.compare) return false;
    const bool read = read_other(state);
    return compare(state) || read;
}

bool CompareKeeper::read_other(ViewState& state) {
    const std::string& wanted = state.compare->other_file;
    if (!reading_.valid()) {
        const bool there = state.compare->other && file_ == wanted;
        if (wanted.empty() || there) return false;
        file_ = wanted;
        watch_ = std::make_unique<WorkWatch>();
        reading_ = std::async(std::launch::async,
                              [load = load_, file = file_, &watch = *watch_, changed = changed_] {
                                  Result<LessonResult> lesson = load(file, watch);
                                  if (changed) changed();
                                  return lesson;
                              });
        return true;
    }
    if (!is_there(reading_)) return false;
    Result<LessonResult> lesson = reading_.get();
    if (wanted != file_) return true;  // another one was taken meanwhile
    if (lesson) {
        const auto other = std::make_shared<const LessonResult>(std::move(lesson).value());
        state = carry_out(std::move(state), CompareAction{HearOther{other}});
    } else {
        state = carry_out(std::move(state), CompareAction{DropOther{}});
        state.problem = lesson.problem();
    }
    return true;
}

bool CompareKeeper::compare(ViewState& state) {
    const CompareDesk& desk = *state.compare;
    if (!comparing_.valid()) {
        const bool there = desk.comparison && desk.comparison->revision == desk.revision;
        if (there || state.front != Front::compare || desk.picked.empty()) return false;
        ViewState asked;  // no more than the work needs
        asked.lesson = state.lesson;
        asked.compare = state.compare;
        if (state.desk) {
            asked.desk.emplace();
            asked.desk->labels = state.desk->labels;
        }
        comparing_ = std::async(std::launch::async, [asked = std::move(asked), changed = changed_] {
            Comparison comparison = compare_picked(asked);
            if (changed) changed();
            return comparison;
        });
        return false;
    }
    if (!is_there(comparing_)) return false;
    auto comparison = std::make_shared<const Comparison>(comparing_.get());
    state = carry_out(std::move(state), CompareAction{HearComparison{std::move(comparison)}});
    return true;
}

}  // namespace footing
