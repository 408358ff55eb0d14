#pragma once

#include <algorithm>
#include <array>
#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "analysis/distance/carry.h"
#include "viewer/book/book_records.h"
#include "viewer/lesson/live_view.h"
#include "viewer/lesson/swing_label.h"

namespace footing {

/// What a lesson under way has in front of the coach.
enum class Showing { set_up, replay };
/// Who decides when the replay makes way for the next set-up.
enum class Turning { by_itself, held_by_coach };
/// Whether the student has moved since the replay came up: only then is standing still a new set-up.
enum class SinceReplay { still_in_finish, moved };
/// What the window is to do about the lesson; it looks at this after each change.
enum class LessonWish { go_on, stop };

/// What the newest swing had not when it was caught, so that W and E still fill it in; no more once it has
/// what the distances need.
enum class Unsaid { no, yes };

/// Who hits the balls: somebody who is asked for consent, or nobody at all.
enum class Golfer { person, simulated };

/// Who says which wedges W goes through: nobody, the student's bag in the book, or the coach, who is heeded
/// first.
enum class ClubsFrom { nobody, book, coach };

/// What E goes through; the names are those of SwingLength, nothing said first.
inline constexpr std::array<const char*, 4> length_labels{"", "half", "three-quarter", "full"};

/// What W goes through unless somebody says otherwise.
inline constexpr std::array<const char*, 4> usual_clubs{"46°", "50°", "54°", "58°"};

/// The word after `now` in a list; after the last one, and where it is none of them, the first.
template <typename Words>
[[nodiscard]] std::string word_after(const Words& words, const std::string& now) {
    const auto found = std::find(words.begin(), words.end(), now);
    if (found == words.end() || std::next(found) == words.end()) return *words.begin();
    return *std::next(found);
}

struct BookDesk;

/// The lesson under way as the coach sees it. Plain data; changed by carry_out() only.
struct LessonDesk {
    std::shared_ptr<const LiveView> live;  ///< never absent once the lesson runs
    std::optional<Student> student;        ///< who is taught; absent: nobody of the book
    Showing showing = Showing::set_up;
    Turning turning = Turning::by_itself;
    SinceReplay since_replay = SinceReplay::still_in_finish;
    double replay_since_s = 0.0;  ///< by the recording's time
    std::size_t unseen = 0;       ///< swings caught while the coach was at another one

    std::vector<std::string> clubs{usual_clubs.begin(), usual_clubs.end()};
    ClubsFrom clubs_from = ClubsFrom::nobody;
    std::string club;    ///< of the swings to come; may be empty
    std::string length;  ///< one of length_labels
    DistanceUnit unit = DistanceUnit::metres;
    std::string entry;            ///< the carry while it is typed
    std::size_t entry_swing = 0;  ///< the swing it is typed for, whatever is caught meanwhile
    FarCarry entry_far =
        FarCarry::asked_about;  ///< taken: Enter was pressed once on a carry beyond any wedge's
    std::optional<std::size_t>
        asked;  ///< the swing whose carry is kept and whose wedge or length is asked for
    Unsaid club_unsaid = Unsaid::no;
    Unsaid length_unsaid = Unsaid::no;
    Golfer golfer = Golfer::person;

    std::vector<SwingLabel> labels;             ///< one a swing of the lesson
    std::vector<std::vector<SwingLabel>> undo;  ///< the labels before each change, newest last
    std::vector<std::vector<SwingLabel>> redo;
    LessonWish wish = LessonWish::go_on;
};

/// Whether frames come from the simulated golfer, chosen here or heard on a line: then none of the swings is
/// anybody's.
[[nodiscard]] bool is_simulated(const LessonDesk& desk);

/// What was typed as metres; nothing when it is no distance that a ball flies (more than 0, up to
/// longest_carry_m).
[[nodiscard]] std::optional<double> carry_of_entry(const std::string& entry, DistanceUnit unit);
/// "62 m", "68 yd".
[[nodiscard]] std::string carry_words(double carry_m, DistanceUnit unit);

/// The wedges that a student may have used: their own, and where the book knows no loft of any, so that they
/// came there by W alone, the usual ones too.
[[nodiscard]] std::vector<std::string> clubs_to_choose(const BookDesk& book, std::int64_t student);
/// The student's own wedges, once the book was read (clubs_to_choose), unless the coach said which.
void take_bag(LessonDesk& desk, const BookDesk& book);

/// One line of what must be right before swings count.
struct CheckLine {
    enum class About { plates, loss, zero, calibration, weight, disk, consent } about = About::plates;
    enum class State { good, missing, look_at_it } state = State::good;
    std::string words;
    std::string brief;  ///< the same for a line that has little room
};
/// Plates heard, frames lost, zero, calibration, weight, disk (R9, R18, R19), and whether the student may be recorded:
/// each in words.
[[nodiscard]] std::vector<CheckLine> checklist(const LessonDesk& desk);
/// Whether the student may be recorded, and what to press where that is not known.
[[nodiscard]] CheckLine consent_line(const Student& student);

/// What the set-up view says in one or two words, at most two lines.
struct SetUpWords {
    std::string first;
    std::string second;
    std::optional<Verdict> verdict;
};
[[nodiscard]] SetUpWords set_up_words(const LiveView& live);

}  // namespace footing
