// What Database keeps of its transactions, to take them back.

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
    // A change that cannot be logged ends the row: what came before it could not be taken back past it.
    if (!changes || changes->size() > most_bytes) {
        if (Outcome done = run("DELETE FROM change_log"); !done) return done;
    } else {
        if (Outcome done =
                run("INSERT INTO change_log(made_at, changes) VALUES(datetime('now'), CAST(? AS BLOB))",
                    {*changes});
            !done)
            return done;
        if (Outcome done =
                run("DELETE FROM change_log WHERE id <= (SELECT max(id) FROM change_log) - ?", {kept});
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
        const auto newest = rows("SELECT id, changes, made_at FROM change_log ORDER BY id DESC LIMIT 1");
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
        return run("DELETE FROM change_log WHERE id = ?", {row.integer(0)});
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

}  // namespace footing
