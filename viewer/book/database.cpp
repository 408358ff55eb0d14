#include "viewer/book/database.h"

#include <fcntl.h>
#include <glib.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

namespace footing {

namespace {

constexpr int patience_ms = 5000;

struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
};
using Statement = std::unique_ptr<sqlite3_stmt, Finalize>;

int bind(sqlite3_stmt* statement, int place, const Cell& cell) {
    if (const auto* whole = std::get_if<std::int64_t>(&cell))
        return sqlite3_bind_int64(statement, place, *whole);
    if (const auto* real = std::get_if<double>(&cell)) return sqlite3_bind_double(statement, place, *real);
    if (const auto* text = std::get_if<std::string>(&cell)) {
        return sqlite3_bind_text(statement, place, text->data(), static_cast<int>(text->size()),
                                 SQLITE_TRANSIENT);
    }
    return sqlite3_bind_null(statement, place);
}

Cell read(sqlite3_stmt* statement, int column) {
    switch (sqlite3_column_type(statement, column)) {
        case SQLITE_INTEGER:
            return std::int64_t{sqlite3_column_int64(statement, column)};
        case SQLITE_FLOAT:
            return sqlite3_column_double(statement, column);
        case SQLITE_NULL:
            return std::monostate{};
        default:
            break;
    }
    const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement, column));
    const int length = sqlite3_column_bytes(statement, column);
    return bytes ? std::string(bytes, static_cast<std::size_t>(length)) : std::string();
}

/// SQLite's own files beside a book do not say why they could not grow.
bool is_full(const std::filesystem::path& path) {
    constexpr std::uintmax_t least_bytes = 65536;
    std::error_code failure;
    const auto space = std::filesystem::space(path.has_parent_path() ? path.parent_path() : ".", failure);
    return !failure && space.available < least_bytes;
}

Problem problem_of(int code, const std::string& words, const std::filesystem::path& path) {
    const std::string place = path.string();
    switch (code & 0xFF) {
        case SQLITE_NOTADB:
            return {ProblemKind::bad_input, place, "is no lesson book", "name another file with --book"};
        case SQLITE_CORRUPT:
            return {ProblemKind::bad_input, place, "the lesson book is damaged (" + words + ")",
                    "take the newest backup, or save what can be read with \"sqlite3 FILE .recover\""};
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return {ProblemKind::disk_failed, place,
                    "another program has been writing to the lesson book for too long",
                    "close it there and try again"};
        case SQLITE_FULL:
            return {ProblemKind::disk_failed, place, "the disk is full", "free some space"};
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return {ProblemKind::disk_failed, place, "may not be written to",
                    "check who owns it and its folder, or copy it to a folder of yours"};
        case SQLITE_CANTOPEN:
            return {ProblemKind::disk_failed, place, "cannot be opened",
                    "check the name and who may read it"};
        case SQLITE_ERROR:
            // Our own statements are sound: what they ask for is not there.
            return {ProblemKind::bad_input, place, "the lesson book is damaged (" + words + ")",
                    "take the newest backup"};
        case SQLITE_IOERR:
            if (is_full(path))
                return {ProblemKind::disk_failed, place, "the disk is full", "free some space"};
            return {ProblemKind::disk_failed, place, "the disk refused (" + words + ")", "check the disk"};
        case SQLITE_CONSTRAINT:
            return {ProblemKind::bad_input, place, "the lesson book does not take this (" + words + ")", ""};
        default:
            return {ProblemKind::disk_failed, place, words, ""};
    }
}

/// The book holds people's data: whoever makes the file is the only one who may read it.
Outcome create_private(const std::filesystem::path& path) {
    const int file = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (file < 0) {
        return Problem{ProblemKind::disk_failed, path.string(),
                       std::string("cannot be made: ") + std::strerror(errno), "check the folder"};
    }
    // An empty file that was there already may be open to others.
    const bool is_private = ::fchmod(file, 0600) == 0;
    const int failure = errno;
    ::close(file);
    if (is_private) return Done{};
    return Problem{ProblemKind::disk_failed, path.string(),
                   std::string("cannot be made private: ") + std::strerror(failure), "name another file"};
}

bool has_content(const std::filesystem::path& path) {
    std::error_code failure;
    const auto bytes = std::filesystem::file_size(path, failure);
    return !failure && bytes > 0;
}

bool may_be_changed(const std::filesystem::path& path) {
    const std::filesystem::path folder = path.has_parent_path() ? path.parent_path() : ".";
    return ::access(path.c_str(), W_OK) == 0 && ::access(folder.c_str(), W_OK) == 0;
}

/// The file's name for SQLite where it may only be read. It is taken as immutable, since the log that is kept
/// beside a book cannot be made here; unless such a log is there, whose edits must not be overlooked.
std::string name_to_read(const std::filesystem::path& path) {
    for (const char* log : {"-wal", "-journal"}) {
        if (has_content(path.string() + log)) return path.string();
    }
    std::error_code ignored;
    const std::unique_ptr<char, decltype(&g_free)> uri(
        g_filename_to_uri(std::filesystem::absolute(path, ignored).c_str(), nullptr, nullptr), &g_free);
    return uri ? std::string(uri.get()) + "?immutable=1" : path.string();
}

}  // namespace

std::int64_t Row::integer(std::size_t column) const {
    return maybe_integer(column).value_or(0);
}

std::optional<std::int64_t> Row::maybe_integer(std::size_t column) const {
    const auto* value = std::get_if<std::int64_t>(&cells_[column]);
    return value ? std::optional(*value) : std::nullopt;
}

std::optional<double> Row::maybe_real(std::size_t column) const {
    if (const auto* value = std::get_if<double>(&cells_[column])) return *value;
    if (const auto whole = maybe_integer(column)) return static_cast<double>(*whole);
    return std::nullopt;
}

std::string Row::text(std::size_t column) const {
    const auto* value = std::get_if<std::string>(&cells_[column]);
    return value ? *value : "";
}

Cell cell_of(const std::optional<double>& value) {
    return value ? Cell(*value) : Cell();
}

Cell cell_of(const std::optional<std::int64_t>& value) {
    return value ? Cell(*value) : Cell();
}

void Database::Close::operator()(sqlite3* connection) const {
    sqlite3_close_v2(connection);
}

Result<Database> Database::open(const std::filesystem::path& path, OpenAs how) {
    std::error_code ignored;
    if (std::filesystem::is_directory(path, ignored)) {
        return Problem{ProblemKind::bad_input, path.string(), "is a folder", "name the lesson book's file"};
    }
    if (how != OpenAs::create_if_absent && !std::filesystem::exists(path, ignored)) {
        return Problem{ProblemKind::bad_input, path.string(), "there is no lesson book here",
                       "\"footing students add NAME\" begins one"};
    }
    if (!has_content(path) && how == OpenAs::create_if_absent) {
        if (Outcome done = create_private(path); !done) return done.problem();
    }
    // SQLite takes a file shorter than a page's head for an empty one, and would write over it.
    constexpr std::uintmax_t shortest_database = 512;
    if (const auto bytes = std::filesystem::file_size(path, ignored);
        bytes > 0 && bytes < shortest_database) {
        return problem_of(SQLITE_NOTADB, "", path);
    }
    if (may_be_changed(path)) {
        if (how == OpenAs::to_read && is_full(path)) return connect_on_full_disk(path);
        return connect(path.string(), path, Access::writing, Sharing::with_others);
    }
    if (how == OpenAs::to_read)
        return connect(name_to_read(path), path, Access::reading, Sharing::with_others);
    return problem_of(SQLITE_READONLY, "", path);
}

/// The memory that programs share beside the file may find no room; then one program alone can still read.
Result<Database> Database::connect_on_full_disk(const std::filesystem::path& path) {
    if (auto shared = connect(path.string(), path, Access::writing, Sharing::with_others);
        shared && shared.value().number("SELECT count(*) FROM sqlite_master"))
        return shared;
    return connect(path.string(), path, Access::writing, Sharing::alone);
}

Result<Database> Database::in_memory() {
    return connect(":memory:", ":memory:", Access::writing, Sharing::with_others);
}

Result<Database> Database::connect(const std::string& name, const std::filesystem::path& path, Access access,
                                   Sharing sharing) {
    sqlite3* raw = nullptr;
    const int code = sqlite3_open_v2(
        name.c_str(), &raw,
        SQLITE_OPEN_NOMUTEX |
            (access == Access::writing ? SQLITE_OPEN_READWRITE : SQLITE_OPEN_READONLY | SQLITE_OPEN_URI),
        nullptr);
    std::unique_ptr<sqlite3, Close> connection(raw);
    if (code != SQLITE_OK) return problem_of(code, raw ? sqlite3_errmsg(raw) : "no memory", path);
    sqlite3_extended_result_codes(raw, 1);
    sqlite3_busy_timeout(raw, patience_ms);
    sqlite3_limit(raw, SQLITE_LIMIT_LENGTH, 64 << 20);
    // A book may come from a stranger: nothing in its schema may run anything.
    sqlite3_db_config(raw, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(raw, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    Database database(std::move(connection), path, access);
    if (sharing == Sharing::alone) {
        if (Outcome done = database.run_script("PRAGMA locking_mode=EXCLUSIVE"); !done) return done.problem();
    }
    if (Outcome done = database.run_script("PRAGMA synchronous=FULL; PRAGMA foreign_keys=ON; "
                                           "PRAGMA secure_delete=ON;");
        !done)
        return done.problem();
    return database;
}

Outcome Database::keep_write_ahead_log() {
    // Changing the mode does not wait for other programs as other statements do.
    for (int tries = 0;; ++tries) {
        const auto mode = rows("PRAGMA journal_mode=WAL");
        if (mode) return Done{};
        if (tries == 100) return mode.problem();
        sqlite3_sleep(patience_ms / 100);
    }
}

Problem Database::problem() const {
    return problem_of(sqlite3_extended_errcode(connection_.get()), sqlite3_errmsg(connection_.get()), path_);
}

Outcome Database::each_row(std::string_view sql, const std::vector<Cell>& values,
                           const std::function<void(Row)>& take) {
    sqlite3_stmt* raw = nullptr;
    if (sqlite3_prepare_v2(connection_.get(), sql.data(), static_cast<int>(sql.size()), &raw, nullptr) !=
        SQLITE_OK)
        return problem();
    const Statement statement(raw);
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (bind(raw, static_cast<int>(i) + 1, values[i]) != SQLITE_OK) return problem();
    }
    while (true) {
        const int code = sqlite3_step(raw);
        if (code == SQLITE_DONE) return Done{};
        if (code != SQLITE_ROW) return problem();
        std::vector<Cell> cells;
        const int columns = sqlite3_column_count(raw);
        cells.reserve(static_cast<std::size_t>(columns));
        for (int column = 0; column < columns; ++column) cells.push_back(read(raw, column));
        take(Row(std::move(cells)));
    }
}

Outcome Database::run(std::string_view sql, const std::vector<Cell>& values) {
    return in_transaction([&] { return each_row(sql, values, [](const Row&) {}); });
}

Outcome Database::run_script(const std::string& sql) {
    if (sqlite3_exec(connection_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
        return problem();
    return Done{};
}

Result<std::vector<Row>> Database::rows(std::string_view sql, const std::vector<Cell>& values) {
    std::vector<Row> all;
    if (Outcome done = each_row(sql, values, [&](Row row) { all.push_back(std::move(row)); }); !done)
        return done.problem();
    return all;
}

Result<std::int64_t> Database::number(std::string_view sql, const std::vector<Cell>& values) {
    const auto all = rows(sql, values);
    if (!all) return all.problem();
    return all.value().empty() ? 0 : all.value().front().integer(0);
}

std::vector<std::string> Database::columns_of(std::string_view sql) {
    sqlite3_stmt* raw = nullptr;
    sqlite3_prepare_v2(connection_.get(), sql.data(), static_cast<int>(sql.size()), &raw, nullptr);
    const Statement statement(raw);
    std::vector<std::string> names;
    for (int column = 0; raw && column < sqlite3_column_count(raw); ++column) {
        names.emplace_back(sqlite3_column_name(raw, column));
    }
    return names;
}

std::int64_t Database::last_id() const {
    return sqlite3_last_insert_rowid(connection_.get());
}

Outcome Database::in_transaction(const std::function<Outcome()>& work) {
    if (sqlite3_get_autocommit(connection_.get()) == 0) return work();
    if (Outcome begun = run_script("BEGIN IMMEDIATE"); !begun) return begun;
    Outcome done = Done{};
    if (changes_ != Changes::not_logged) {
        const ChangeRecord record(connection_.get());
        done = work();
        if (done) done = log_changes(record);
    } else {
        done = work();
    }
    if (done) done = run_script("COMMIT");
    if (!done && sqlite3_get_autocommit(connection_.get()) == 0) {
        // What went wrong is told already; a failed rollback leaves the same file, since nothing was
        // committed.
        sqlite3_exec(connection_.get(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
    return done;
}

Outcome Database::in_transaction_for_good(const std::function<Outcome()>& work) {
    const Changes before = std::exchange(changes_, Changes::not_logged);
    Outcome done = in_transaction([&]() -> Outcome {
        if (Outcome all = work(); !all) return all;
        return run("DELETE FROM change_log");
    });
    changes_ = before;
    return done;
}

Outcome Database::copy_to(const std::filesystem::path& path) {
    return each_row("VACUUM INTO ?", {path.string()}, [](const Row&) {});
}

}  // namespace footing
