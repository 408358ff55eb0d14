#include "analysis/report/lesson_comparison.h"

#include "analysis/report/number_words.h"

namespace footing {

namespace {

LessonChange change_between(const std::vector<ComparedLesson>& lessons, std::size_t from, std::size_t to) {
    LessonChange change{from, to, {}};
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        const auto& first = lessons[from].set.numbers[i];
        const auto& second = lessons[to].set.numbers[i];
        change.numbers.push_back(first && second ? change_of_means(first->values, second->values,
                                                                   first->common_u, second->common_u)
                                                 : std::nullopt);
    }
    return change;
}

}  // namespace

ComparedLesson compared_lesson(const LessonResult& lesson, SetKind kind) {
    ComparedLesson compared;
    compared.file = lesson.facts.file;
    compared.set = swing_set(lesson.trace, lesson.facts.hand, lesson.swings, kind);
    for (const Swing& swing : lesson.swings) compared.all_indices.push_back(swing.index);
    for (const std::size_t place : compared.set.places)
        compared.swing_indices.push_back(lesson.swings[place].index);
    return compared;
}

std::string set_size_words(const ComparedLesson& lesson) {
    const std::size_t count = lesson.swing_indices.size();
    if (lesson.set.kind == SetKind::shots) return count_words(count, "shot", "shots");
    if (lesson.set.kind == SetKind::practice) return count_words(count, "practice swing", "practice swings");
    return count_words(count, "swing of any kind", "swings of any kind");
}

void LessonsToCompare::add(const LessonResult& lesson) {
    if (kind_ != SetKind::counted) {
        lessons_.push_back(compared_lesson(lesson, kind_));
        return;
    }
    lessons_.push_back(compared_lesson(lesson, SetKind::shots));
    all_instead_.push_back(compared_lesson(lesson, SetKind::all));
    shots_everywhere_ = shots_everywhere_ && lessons_.back().swing_indices.size() >= fewest_counted_shots;
}

const std::vector<ComparedLesson>& LessonsToCompare::lessons() const {
    return kind_ == SetKind::counted && !shots_everywhere_ ? all_instead_ : lessons_;
}

std::vector<LessonChange> lesson_changes(const std::vector<ComparedLesson>& lessons) {
    std::vector<LessonChange> changes;
    for (std::size_t i = 1; i < lessons.size(); ++i) changes.push_back(change_between(lessons, i - 1, i));
    if (lessons.size() > 2) changes.push_back(change_between(lessons, 0, lessons.size() - 1));
    return changes;
}

std::vector<std::optional<double>> lesson_correlations(const std::vector<ComparedLesson>& lessons) {
    std::vector<std::optional<double>> all;
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        std::vector<std::vector<double>> groups;
        for (const ComparedLesson& lesson : lessons) {
            if (lesson.set.numbers[i]) groups.push_back(lesson.set.numbers[i]->values);
        }
        all.push_back(intraclass_correlation_unequal(groups));
    }
    return all;
}

std::vector<std::optional<LimitsOfAgreement>> swing_agreements(const ComparedLesson& first,
                                                               const ComparedLesson& second) {
    std::vector<std::optional<LimitsOfAgreement>> all;
    for (std::size_t i = 0; i < compared_numbers().size(); ++i) {
        const auto& one = first.set.numbers[i];
        const auto& other = second.set.numbers[i];
        const bool paired = one && other && first.set.places.size() == second.set.places.size() &&
                            one->values.size() == first.set.places.size() &&
                            other->values.size() == second.set.places.size();
        all.push_back(paired ? agreement(one->values, other->values) : std::nullopt);
    }
    return all;
}

}  // namespace footing
