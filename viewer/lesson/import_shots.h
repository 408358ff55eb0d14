#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/book.h"

namespace footing {

/// What to do with shots of a lesson that has no recording of them.
enum class UnrecordedShots { refuse, add };

/// What to do with a line that was taken before and is read otherwise now: other columns, another unit.
enum class OtherReading { refuse, replace };

struct ShotImport {
    std::string place;  ///< the file's name, for problems
    std::int64_t lesson = 0;
    ShotTableShape shape;
    std::vector<std::pair<std::string, std::string>> clubs;  ///< the device's word, the student's wedge
    std::string one_club;               ///< the wedge of all rows, where the table does not say; may be empty
    std::optional<SwingLength> length;  ///< for swings that have none yet
    std::vector<std::int64_t> swings;   ///< only these of the lesson, by number; empty: all that may be shots
    UnrecordedShots unrecorded = UnrecordedShots::refuse;
    OtherReading other_reading = OtherReading::refuse;
    FarCarry far = FarCarry::asked_about;
};

/// How rows found their swings. `order_of_times`: as many rows as swings, the earliest row to the first
/// swing; `order_of_lines`: the same by the lines of the table, which tells no times.
enum class MatchedBy { nothing, time, order_of_times, order_of_lines };

struct ShotImportReport {
    std::size_t taken = 0;
    std::size_t known_already = 0;  ///< imported before
    std::size_t replaced = 0;       ///< of these, read otherwise now
    std::size_t of_other_days = 0;
    std::vector<std::string> not_matched;  ///< "line 7: …", with the reason; nothing of these is in the book
    std::size_t without_length = 0;  ///< taken, but the swing has no length yet, so that no chart holds them
    MatchedBy matched_by = MatchedBy::nothing;
    std::optional<double> clock_offset_s;  ///< how far the device's clock was found to be off
};

/// Puts a distance device's table into a lesson: each row to the swing it belongs to, by time where the table
/// tells times and the lesson has a recording, else by order when there are as many rows as swings. Nothing
/// is guessed: what does not match is told and left out. The same row is never taken twice (a row without a
/// date: never twice into one lesson), and rows taken before say how far the device's clock is off. The shape
/// and the club names are remembered. Fails as read_shot_table and Book do, and with bad_input when no line
/// is a shot, when a row taken before is read otherwise now, and when rows and swings cannot be matched at
/// all; then nothing has changed.
[[nodiscard]] Result<ShotImportReport> import_shots(Book& book, std::string_view text,
                                                    const ShotImport& request);

}  // namespace footing
