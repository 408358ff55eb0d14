// What Database keeps of its transactions, to take them back, and to make them again. A change that was taken
// back keeps its number with a minus before it until the next change is made.

#include <utility>

#include "viewer/book/change_record.h"
#include "viewer/book/database.h"

#include <sqlite3.h>

namespace footing {

Outcome Database::log_changes(const ChangeRecord& record) {
    constexpr std::size_t most_bytes = std::size_t{16} << 20;
    constexpr std::int64_t kept = 20;
    const auto changes = record.changes();
    if (changes && changes->empty()) return Done{};
    // What the caller added last keeps its number.
    const std::int64_t added = last_id();
    if (changes_ != Changes::made_again) {
        if (Outcome done = run("DELETE FROM change_log WHERE id < 0"); !done) return done;
    }
    // A change that cannot be logged ends the row: what came before it could not be taken back past it.
    if (!changes || changes->size() > most_bytes) {
        if (Outcome done = run("DELETE FROM change_log"); !done) return done;
    } else {
        if (Outcome done = run("INSERT INTO change_log(id, made_at, changes) VALUES((SELECT max(0, "
                               "coalesce(max(id), 0)) + 1 "
                               "FROM change_log), datetime('now'), CAST(? AS BLOB))",
                               {*changes});
            !done)
            return done;
        if (Outcome done = run(
                "DELETE FROM change_log WHERE id > 0 AND id <= (SELECT max(id) FROM change_log) - ?", {kept});
            !done)
            return done;
    }
    sqlite3_set_last_insert_rowid(connection_.get(), added);
    return Done{};
}

Result<UndoneChange> Database::take_back_newest(const LookAtRows& look) {
    UndoneChange undone;
    const Changes before = std::exchange(changes_, Changes::not_logged);
    const Outcome done = in_transaction([&]() -> Outcome {
        const auto newest =
            rows("SELECT id, changes, made_at FROM change_log WHERE id > 0 ORDER BY id DESC LIMIT 1");
        if (!newest) return newest.problem();
        if (newest.value().empty()) {
            return Problem{ProblemKind::command_line, path_.string(), "there is nothing to take back",
                           "the last 20 changes since the newest removal of a student are kept"};
        }
        const Row& row = newest.value().front();
        look(rows_to_undo(row.text(1)));
        auto rows_undone = take_back(connection_.get(), row.text(1));
        if (!rows_undone) {
            return Problem{
                ProblemKind::bad_input, path_.string(),
                "the newest change cannot be taken back, since its rows are no longer as it left them",
                "change it by hand"};
        }
        look(*rows_undone);
        undone = {row.text(2), row.text(1), std::move(*rows_undone)};
        return run("UPDATE change_log SET id = -id WHERE id = ?", {row.integer(0)});
    });
    changes_ = before;
    if (!done) return done.problem();
    return undone;
}

Result<std::vector<UndoneRows>> Database::make_again(const std::string& changes) {
    std::vector<UndoneRows> made;
    const Outcome done = in_transaction([&]() -> Outcome {
        auto rows_made = footing::make_again(connection_.get(), changes);
        if (!rows_made) {
            return Problem{ProblemKind::bad_input, path_.string(),
                           "the change cannot be made again, since its rows were changed meanwhile",
                           "make it by hand"};
        }
        made = std::move(*rows_made);
        return Done{};
    });
    if (!done) return done.problem();
    return made;
}

Result<UndoneChange> Database::make_newest_again() {
    UndoneChange made;
    const Changes before = std::exchange(changes_, Changes::made_again);
    const Outcome done = in_transaction([&]() -> Outcome {
        const auto newest =
            rows("SELECT id, changes, made_at FROM change_log WHERE id < 0 ORDER BY id DESC LIMIT 1");
        if (!newest) return newest.problem();
        if (newest.value().empty()) {
            return Problem{ProblemKind::command_line, path_.string(), "there is nothing to make again",
                           "what \"footing book undo\" took back can be, until something else is changed"};
        }
        const Row& row = newest.value().front();
        auto rows_made = make_again(row.text(1));
        if (!rows_made) return rows_made.problem();
        made = {row.text(2), row.text(1), std::move(rows_made).value()};
        return run("DELETE FROM change_log WHERE id = ?", {row.integer(0)});
    });
    changes_ = before;
    if (!done) return done.problem();
    return made;
}

}  // namespace footing
