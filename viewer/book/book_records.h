#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "acquisition/frame/calendar_day.h"
#include "acquisition/frame/units.h"
#include "analysis/distance/carry.h"
#include "analysis/distance/distance_chart.h"
#include "analysis/swing/swing.h"
#include "analysis/swing/verdict.h"

/// What the lesson book holds (docs/lesson_book.md). Metres, seconds, kilograms, shares as fractions; `id` is
/// 0 for what is not in the book yet.
namespace footing {

enum class Consent { not_asked, given, refused };

struct Student {
    std::int64_t id = 0;
    std::string name;  ///< as the coach likes it; only data, never part of a path
    Hand hand = Hand::right;
    std::optional<double> weight_kg;
    DistanceUnit unit = DistanceUnit::yards;
    Consent consent = Consent::not_asked;  ///< to be recorded
    std::string consent_date;              ///< 2026-05-14; empty when not asked
    std::string notes;
};

struct StudentLine {
    Student student;
    std::int64_t lessons = 0;
    std::int64_t swings = 0;
    std::string last_lesson;  ///< date; empty when there was none
};

struct Wedge {
    std::int64_t id = 0;
    std::int64_t student = 0;
    std::string name;
    std::optional<double> loft_deg;
    Bag bag = Bag::in;
};

/// A recording as the index knows it.
struct IndexedRecording {
    std::string uuid;
    std::string file;
    std::int64_t start_utc_ns = 0;
    std::string zone;
    double duration_s = 0.0;
    Hand hand = Hand::right;
    std::string outcome;
    std::string device;  ///< the name that it gave itself; empty: not known
};

struct Lesson {
    std::int64_t id = 0;
    std::int64_t student = 0;
    std::string date;            ///< local, 2026-05-14
    std::string recording_uuid;  ///< empty: without plates
    std::string setup;
    std::string note;
    std::array<std::optional<TargetBand>, 3> bands;  ///< by length; absent: the usual band
    std::optional<Hand>
        hand;  ///< of the golfer in the recording, where the coach said so; else the student's
};

struct LessonLine {
    Lesson lesson;
    std::string student_name;
    std::string recording_file;     ///< as the index knows it; empty when it does not
    std::int64_t start_utc_ns = 0;  ///< of the recording; with an empty zone: not known
    std::string zone;
    std::string device;  ///< of the recording
    std::int64_t swings = 0;
    std::int64_t carries = 0;
};

enum class Strike { ball_first, ground_first, thin };

struct Shot {
    std::optional<double> carry_m;
    std::optional<double> side_m;  ///< to the right of the line to the target
    std::optional<Strike> strike;
};

enum class SwingOrigin { recording, typed };

/// How a swing ended (docs/formulas.md, F26 and F40).
struct BookFinish {
    bool came_to_rest = false;
    std::optional<double> share;  ///< lead share
    std::optional<double> u;
    std::optional<double> held_s;
    std::optional<HoldEnd> held_end;  ///< not_seen: held at least so long
    std::optional<double> sway_m;     ///< of the centre of pressure over up to a second of it
};

/// A swing: what was measured, what the coach says of it, and where the ball went.
struct BookSwing {
    std::int64_t id = 0;
    std::int64_t lesson = 0;
    std::int64_t number = 0;  ///< 1-based within the lesson
    SwingOrigin origin = SwingOrigin::typed;
    SwingKind found_kind = SwingKind::unknown;
    std::optional<double> from_s;
    std::optional<double> to_s;
    std::optional<double> strike_s;  ///< impact, from the first frame
    std::optional<double> address_share;
    std::optional<double> address_u;
    std::optional<double> lowest_share;
    std::optional<double> lowest_u;
    std::optional<double> impact_share;
    std::optional<double> impact_u;
    std::optional<double> backswing_s;
    std::optional<double> downswing_s;
    std::optional<double> below_floor_s;
    std::optional<double> rhythm_percent;
    /// Absent: typed, or put into the book before it kept the finish.
    std::optional<BookFinish> finish;
    std::optional<std::int64_t> wedge;
    std::optional<SwingLength> length;
    std::optional<SwingKind> coach_kind;  ///< shot or practice; stands above what was found
    CoachSays coach = CoachSays::nothing;
    std::string reason;
    std::string note;
    std::optional<Shot> shot;

    /// The coach's word, else whether there is a ball flight, else what was found.
    [[nodiscard]] SwingKind kind() const {
        return coach_kind ? *coach_kind : shot ? SwingKind::shot : found_kind;
    }
};

/// Whether traces of what was removed may still be in the write-ahead log.
enum class RemovedLog { emptied, in_use };

/// A line of a distance device's table that was taken.
struct ImportedLine {
    std::int64_t student = 0;
    std::string line;       ///< all of its fields …
    std::int64_t copy = 0;  ///< … and how many of the same stood before it
    std::int64_t swing = 0;
    std::optional<double> carry_m;  ///< as it was read then
    std::optional<double> side_m;
};

/// What went with a student or a lesson.
struct Removed {
    std::string name;
    std::int64_t wedges = 0;
    std::int64_t lessons = 0;
    std::int64_t swings = 0;
    std::int64_t shots = 0;
    std::vector<std::string> recordings;  ///< files that are still on the disk
    RemovedLog log = RemovedLog::emptied;
};

[[nodiscard]] std::string consent_name(Consent consent);  ///< unknown, yes, no
[[nodiscard]] std::string strike_name(Strike strike);     ///< ball_first, ground_first, thin
[[nodiscard]] std::string strike_words(Strike strike);    ///< ball first, ground first, thin
[[nodiscard]] std::optional<Consent> consent_called(const std::string& name);
[[nodiscard]] std::optional<Strike> strike_called(const std::string& name);
[[nodiscard]] std::optional<Hand> hand_called(const std::string& name);
[[nodiscard]] std::optional<SwingKind> kind_called(const std::string& name);
[[nodiscard]] std::string hand_name(Hand hand);             ///< right, left
[[nodiscard]] std::string coach_says_name(CoachSays says);  ///< nothing, keep, set_aside
[[nodiscard]] std::optional<CoachSays> coach_says_called(const std::string& name);

/// The band that a lesson asks for at this length of swing; the usual one where the coach set none, or where
/// the length is not known and the lengths have different bands.
[[nodiscard]] TargetBand band_for(const Lesson& lesson, std::optional<SwingLength> length);

/// The name of the wedge that a swing was made with; empty where that is not known.
[[nodiscard]] std::string wedge_name_of(const std::vector<Wedge>& wedges, const BookSwing& swing);

/// The date that is so many days after 1970-01-01 (the way back: day_of_date).
[[nodiscard]] std::string date_of_day(std::int64_t day);

}  // namespace footing
