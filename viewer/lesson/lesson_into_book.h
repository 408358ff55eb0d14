#pragma once

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/book.h"

namespace footing {

/// A recording's facts as the index of the book holds them; its place is made absolute. Fails with bad_input
/// when it is no recording.
[[nodiscard]] Result<IndexedRecording> index_entry(const std::filesystem::path& recording);

/// What the analysis found of a swing, as the book keeps it.
[[nodiscard]] BookSwing book_swing(const Swing& swing);

/// The local date at which a recording began.
[[nodiscard]] std::string local_date(const IndexedRecording& recording);

/// Analyses a recording and puts it into the book as a lesson: index, lesson, swings. Returns the lesson's
/// number. `lesson` brings the student and what the coach wrote; an empty date becomes that of the recording.
/// Fails as analyse_recording and Book do, and with bad_input when the recording is of the other hand than
/// the student plays and the lesson does not say which; then nothing of it is in the book.
[[nodiscard]] Result<std::int64_t> put_lesson_into_book(Book& book, Lesson lesson,
                                                        const std::filesystem::path& recording);

/// The swings that the analysis finds in a lesson's recording, read with the hand that the coach said, says
/// now
/// (`said`), or else the student's. Fails as put_lesson_into_book does, and with command_line or bad_input
/// where the recording is not there or another one is.
[[nodiscard]] Result<std::vector<BookSwing>> swings_of_lesson(Book& book, std::int64_t lesson,
                                                              std::optional<Hand> said);

/// Analyses a lesson's recording again; what the coach said of its swings stays. A hand that the coach says
/// is kept with the lesson. Fails as put_lesson_into_book does.
[[nodiscard]] Outcome analyse_lesson_again(Book& book, std::int64_t lesson, std::optional<Hand> said);

/// What was found on the disk when the index was rebuilt.
struct IndexRebuilt {
    std::size_t recordings = 0;
    std::vector<std::string> not_read;  ///< files that are no sound recording, with the reason
    std::vector<std::string> twice;     ///< copies of a recording that is there already
    std::size_t elsewhere = 0;          ///< of `recordings`: outside the folders, where they were before
    std::vector<std::int64_t> lessons_without;  ///< lessons whose recording was not found
};

/// Rebuilds the index of recordings from the .h5 files in and below `folders`, and from those that are still
/// where the index has them. Lessons find their recordings by UUID, wherever the files have gone. Fails with
/// bad_input when a folder cannot be looked into; then the index is as it was.
[[nodiscard]] Result<IndexRebuilt> rebuild_index_of(Book& book,
                                                    const std::vector<std::filesystem::path>& folders);

}  // namespace footing
