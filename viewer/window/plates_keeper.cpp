#include "viewer/window/plates_keeper.h"

#include <utility>

#include "viewer/panels/view_action.h"

namespace footing {

namespace {

/// Whether plates that are only listened to are still looked at.
bool is_looked_at(const ViewState& state) {
    return state.front == Front::book && state.book->page == BookPage::plates;
}

CheckPlates check_for(const BookDesk& book) {
    const auto typed = typed_masses(book.bench.typed);
    if (typed && typed->size() == 1) return {typed->front()};
    const Student* student = chosen_student(book);
    return {student ? student->weight_kg : std::nullopt};
}

}  // namespace

bool PlatesKeeper::step(ViewState& state) {
    if (!state.book || !start_) return false;
    carry_out_wish(state);
    if (!run_) return false;
    const bool lesson = state.desk || state.book->wish == BookWish::begin_lesson;
    const bool working = seen_ && seen_->task != PlatesTask::listening;
    if (lesson || (!working && !is_looked_at(state)) || state.life == WindowLife::closing)
        run_->ask_to_stop();
    std::shared_ptr<const PlatesView> view = run_->view();
    const bool changed = view != seen_;
    seen_ = view;
    if (run_->is_over()) {
        if (seen_->problem && !lesson) state.problem = seen_->problem;
        run_.reset();
        seen_.reset();
        state = carry_out(std::move(state), BookAction{HearPlates{nullptr}});
        return true;
    }
    if (changed) state = carry_out(std::move(state), BookAction{HearPlates{std::move(view)}});
    return changed;
}

void PlatesKeeper::carry_out_wish(ViewState& state) {
    PlatesDesk& bench = state.book->bench;
    switch (std::exchange(bench.wish, PlatesWish::none)) {
        case PlatesWish::none:
            return;
        case PlatesWish::listen: {
            const BookDesk& book = *state.book;
            if (run_ || !book.facts || book.plates >= book.facts->plates.size()) return;
            run_ = std::make_unique<PlatesRun>(start_(book.facts->plates[book.plates]), clock_, changed_);
            return;
        }
        case PlatesWish::stop:
            if (run_) run_->ask_to_stop();
            return;
        case PlatesWish::only_listen:
            if (run_) run_->order(OnlyListen{});
            return;
        case PlatesWish::accept:
            if (run_) run_->order(AcceptReading{});
            return;
        case PlatesWish::check:
            if (run_) run_->order(check_for(*state.book));
            bench.typed.clear();
            return;
        case PlatesWish::calibrate: {
            const auto masses = typed_masses(bench.typed);
            if (masses && !masses->empty()) {
                if (run_) run_->order(CalibratePlates{*masses, bench.method});
                bench.typed.clear();
            } else {
                state.notice =
                    "Type the masses first, in kg, as they stand on the plate step by step: 10, 20, 30. Then "
                    "C.";
            }
            return;
        }
    }
}

}  // namespace footing
