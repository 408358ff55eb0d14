#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "acquisition/frame/result.h"
#include "viewer/book/book_records.h"
#include "viewer/book/database.h"
#include "viewer/book/shot_table_shape.h"

namespace footing {

enum class Namesakes { refused, allowed };

/// What was taken back, and of whom: "Robin Vale", "lesson 3 of Robin Vale (2026-11-25)".
struct Undone {
    UndoneChange change;
    std::vector<std::string> of;
};

/// The lesson book: one SQLite file (docs/lesson_book.md). Every change is on the disk when its function
/// returns; two programs may use one book at once, and a program may be killed at any instant: at most the
/// edit in hand is lost. Functions fail with command_line (no such student, wedge, lesson or swing; a name
/// that is taken), bad_input (not a book, damaged, too new) or disk_failed. One thread at a time.
class Book {
  public:
    /// Opens the book and brings an older one up to today's schema. One that may not be written to can be
    /// opened `to_read` while its owner does not write; then all that changes it fails with disk_failed.
    [[nodiscard]] static Result<Book> open(const std::filesystem::path& path, OpenAs how);

    [[nodiscard]] const std::filesystem::path& path() const { return database_.path(); }
    /// All that `work` changes is kept, or nothing of it. No other program changes anything meanwhile:
    /// whoever changes what it has read reads it in here. Functions of this class may be called within.
    [[nodiscard]] Outcome in_transaction(const std::function<Outcome()>& work) {
        return database_.in_transaction(work);
    }

    // Students. `who` is a name, whatever its case, or "#3" for a number.
    [[nodiscard]] Result<std::vector<StudentLine>> students(const std::string& part_of_name = "");
    [[nodiscard]] Result<Student> student(const std::string& who);
    [[nodiscard]] Result<Student> student(std::int64_t id);
    [[nodiscard]] Result<std::int64_t> add_student(const Student& student, Namesakes namesakes);
    [[nodiscard]] Outcome change_student(const Student& student, Namesakes namesakes);
    /// The student with all that is theirs; the recordings' files stay. For good: the change log is emptied.
    [[nodiscard]] Result<Removed> remove_student(std::int64_t id);

    // Wedges.
    [[nodiscard]] Result<std::vector<Wedge>> wedges(std::int64_t student);
    [[nodiscard]] Result<Wedge> wedge(std::int64_t student, const std::string& name);
    /// Its number; nothing where no name is given.
    [[nodiscard]] Result<std::optional<std::int64_t>> wedge_if_named(std::int64_t student,
                                                                     const std::string& name);
    [[nodiscard]] Result<std::int64_t> add_wedge(const Wedge& wedge);
    [[nodiscard]] Outcome change_wedge(const Wedge& wedge);
    /// Refused while swings are labelled with it.
    [[nodiscard]] Outcome remove_wedge(std::int64_t id);

    // Lessons, newest first.
    [[nodiscard]] Result<std::vector<LessonLine>> lessons(std::optional<std::int64_t> student);
    [[nodiscard]] Result<LessonLine> lesson(std::int64_t id);
    [[nodiscard]] Result<std::int64_t> add_lesson(const Lesson& lesson);
    [[nodiscard]] Outcome change_lesson(const Lesson& lesson);
    [[nodiscard]] Result<Removed> remove_lesson(std::int64_t id);

    // Swings, in order of their numbers.
    [[nodiscard]] Result<std::vector<BookSwing>> swings(std::int64_t lesson);
    [[nodiscard]] Result<BookSwing> swing(std::int64_t lesson, std::int64_t number);
    [[nodiscard]] Result<std::vector<BookSwing>> swings_of_student(std::int64_t student);
    [[nodiscard]] Result<std::int64_t> add_swing(const BookSwing& swing);
    /// Everything of the swing but its number, with its shot.
    [[nodiscard]] Outcome change_swing(const BookSwing& swing);
    [[nodiscard]] Outcome remove_swing(std::int64_t id);
    /// The swings that the analysis finds in a lesson's recording. Found before, they keep what the coach
    /// said of them (told apart by when they were); what is no longer found goes, unless the coach has said
    /// something of it or it has a shot. Found swings that all have numbers keep those, and the others come
    /// behind them; else numbers follow time.
    [[nodiscard]] Outcome put_found_swings(std::int64_t lesson, const std::vector<BookSwing>& found);
    /// Recorded lessons none of whose swings has a finish: they came in before the book kept it.
    [[nodiscard]] Result<std::vector<std::int64_t>> lessons_without_finish();
    /// How the swings of a lesson ended, of those found that are the same; all else of them stays. Of how
    /// many.
    [[nodiscard]] Result<std::size_t> put_finishes(std::int64_t lesson, const std::vector<BookSwing>& found);

    // Tables from distance devices.
    [[nodiscard]] Result<std::optional<ShotTableShape>> shape_of(const std::string& header);
    [[nodiscard]] Outcome remember_shape(const ShotTableShape& shape);
    /// The wedge that a device's word for a club means, once the coach has said so.
    [[nodiscard]] Result<std::optional<std::int64_t>> club_called(std::int64_t student,
                                                                  const std::string& word);
    [[nodiscard]] Outcome remember_club(std::int64_t student, const std::string& word, std::int64_t wedge);
    /// Where a line of a table went; nothing when it was never taken. A line without a date is known by its
    /// lesson too: the same words may come again in another.
    [[nodiscard]] Result<std::optional<ImportedLine>> imported_line(std::int64_t student,
                                                                    const std::string& line,
                                                                    std::int64_t copy,
                                                                    std::optional<std::int64_t> only_lesson);
    [[nodiscard]] Outcome note_imported(const ImportedLine& line);

    // Recordings.
    [[nodiscard]] Outcome put_recording(const IndexedRecording& recording);
    [[nodiscard]] Result<std::vector<IndexedRecording>> recordings();
    /// Replaces the whole index.
    [[nodiscard]] Outcome rebuild_index(const std::vector<IndexedRecording>& recordings);

    // Keeping.
    /// Takes the newest change back, whichever program made it; called again, the one before. Up to 20 of
    /// them, none from before a student was removed. Fails with command_line when there is none.
    [[nodiscard]] Result<Undone> undo();
    /// Makes a change again that undo() took back (its `changes`); undo() takes it back as any other. Fails
    /// with bad_input when its rows were changed meanwhile: then nothing is.
    [[nodiscard]] Result<Undone> make_again(const std::string& changes);
    /// Makes again what undo() took back last, whichever program did; called again, what it took back before.
    /// Fails with command_line when nothing was taken back since the newest change, else as make_again().
    [[nodiscard]] Result<Undone> redo();
    /// What is wrong with the file, one sentence each; empty when it is sound.
    [[nodiscard]] Result<std::vector<std::string>> check();
    /// A whole copy, for its owner only, checked before it gets its name; never replaces a file.
    [[nodiscard]] Outcome back_up_to(const std::filesystem::path& path);
    struct Table {
        std::string name;
        std::vector<std::string> columns;
        std::vector<Row> rows;
    };
    /// Everything, or everything of one student, as plain tables: students, wedges, lessons, bands, swings,
    /// shots.
    [[nodiscard]] Result<std::vector<Table>> tables(std::optional<std::int64_t> student);

  private:
    explicit Book(Database database) : database_(std::move(database)) {}
    [[nodiscard]] Outcome check_namesakes(const Student& student, Namesakes namesakes);
    [[nodiscard]] Outcome write_bands(const Lesson& lesson);
    [[nodiscard]] Outcome read_bands(std::vector<LessonLine>& lines, const std::string& condition,
                                     const std::vector<Cell>& values);
    [[nodiscard]] Outcome write_shot(const BookSwing& swing);
    [[nodiscard]] Result<std::vector<BookSwing>> swings_as_they_are(const std::string& condition,
                                                                    const std::vector<Cell>& values);
    /// Fails with bad_input too where one of them says what cannot be.
    [[nodiscard]] Result<std::vector<BookSwing>> swings_where(const std::string& column, std::int64_t value);
    [[nodiscard]] Result<std::vector<LessonLine>> lessons_where(const std::string& condition,
                                                                const std::vector<Cell>& values);
    [[nodiscard]] Result<std::vector<std::string>> files_where(const std::string& condition,
                                                               std::int64_t value);

    Database database_;
};

}  // namespace footing
