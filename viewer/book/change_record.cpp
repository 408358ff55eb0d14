#include "viewer/book/change_record.h"

// The header tells of the session extension only to who says that the library has it; Debian's has.
#define SQLITE_ENABLE_SESSION
#define SQLITE_ENABLE_PREUPDATE_HOOK
#include <sqlite3.h>

#include <algorithm>
#include <cstring>

namespace footing {

namespace {

struct Free {
    void operator()(void* bytes) const { sqlite3_free(bytes); }
};
using Bytes = std::unique_ptr<void, Free>;

int is_watched(void* /*unused*/, const char* table) {
    return std::strcmp(table, change_log_table) != 0;
}

/// A row that went along with another one (a swing with its lesson) is gone already; any other surprise means
/// that the rows are not as the change left them.
int on_conflict(void* /*unused*/, int conflict, sqlite3_changeset_iter* /*unused*/) {
    return conflict == SQLITE_CHANGESET_NOTFOUND ? SQLITE_CHANGESET_OMIT : SQLITE_CHANGESET_ABORT;
}

/// Made again, a change must find every row that it changed; what it removes may have gone along with another
/// one (same_rows() tells whether it did).
int on_conflict_again(void* /*unused*/, int conflict, sqlite3_changeset_iter* at) {
    const char* table = nullptr;
    int columns = 0;
    int kind = 0;
    int is_indirect = 0;
    if (conflict != SQLITE_CHANGESET_NOTFOUND ||
        sqlite3changeset_op(at, &table, &columns, &kind, &is_indirect) != SQLITE_OK)
        return SQLITE_CHANGESET_ABORT;
    return kind == SQLITE_DELETE ? SQLITE_CHANGESET_OMIT : SQLITE_CHANGESET_ABORT;
}

std::vector<UndoneRows> count_rows(int length, void* changes) {
    std::vector<UndoneRows> tables;
    sqlite3_changeset_iter* at = nullptr;
    if (sqlite3changeset_start(&at, length, changes) != SQLITE_OK) return tables;
    while (sqlite3changeset_next(at) == SQLITE_ROW) {
        const char* table = nullptr;
        int columns = 0;
        int kind = 0;
        int is_indirect = 0;
        sqlite3changeset_op(at, &table, &columns, &kind, &is_indirect);
        auto place = std::find_if(tables.begin(), tables.end(),
                                  [&](const UndoneRows& one) { return one.table == table; });
        if (place == tables.end()) place = tables.insert(tables.end(), {table, 0, 0, 0, {}});
        ++(kind == SQLITE_INSERT ? place->returned : kind == SQLITE_DELETE ? place->removed : place->changed);
        sqlite3_value* first = nullptr;
        (kind == SQLITE_INSERT ? sqlite3changeset_new : sqlite3changeset_old)(at, 0, &first);
        if (first && sqlite3_value_type(first) == SQLITE_INTEGER)
            place->ids.push_back(sqlite3_value_int64(first));
    }
    sqlite3changeset_finalize(at);
    return tables;
}

/// As many rows of each table came, changed and went.
bool same_rows(const std::vector<UndoneRows>& a, const std::vector<UndoneRows>& b) {
    return a.size() == b.size() && std::ranges::all_of(a, [&](const UndoneRows& one) {
               return std::ranges::any_of(b, [&](const UndoneRows& other) {
                   return one.table == other.table && one.returned == other.returned &&
                          one.changed == other.changed && one.removed == other.removed;
               });
           });
}

struct Changeset {
    Bytes bytes;  ///< nothing where there is none
    int length = 0;
};

Changeset inverted(std::string changes) {
    Changeset inverse;
    void* raw = nullptr;
    if (sqlite3changeset_invert(static_cast<int>(changes.size()), changes.data(), &inverse.length, &raw) ==
        SQLITE_OK)
        inverse.bytes.reset(raw);
    return inverse;
}

}  // namespace

void ChangeRecord::End::operator()(sqlite3_session* session) const {
    sqlite3session_delete(session);
}

ChangeRecord::ChangeRecord(sqlite3* connection) {
    sqlite3_session* session = nullptr;
    if (sqlite3session_create(connection, "main", &session) != SQLITE_OK) return;
    session_.reset(session);
    sqlite3session_table_filter(session, &is_watched, nullptr);
    if (sqlite3session_attach(session, nullptr) != SQLITE_OK) session_.reset();
}

std::optional<std::string> ChangeRecord::changes() const {
    int length = 0;
    void* raw = nullptr;
    if (!session_ || sqlite3session_changeset(session_.get(), &length, &raw) != SQLITE_OK)
        return std::nullopt;
    const Bytes bytes(raw);
    return std::string(static_cast<const char*>(raw), static_cast<std::size_t>(length));
}

std::vector<UndoneRows> rows_to_undo(std::string changes) {
    const Changeset inverse = inverted(std::move(changes));
    return inverse.bytes ? count_rows(inverse.length, inverse.bytes.get()) : std::vector<UndoneRows>();
}

std::optional<std::vector<UndoneRows>> take_back(sqlite3* connection, std::string changes) {
    const Changeset inverse = inverted(std::move(changes));
    if (!inverse.bytes || sqlite3changeset_apply(connection, inverse.length, inverse.bytes.get(), nullptr,
                                                 &on_conflict, nullptr) != SQLITE_OK)
        return std::nullopt;
    return count_rows(inverse.length, inverse.bytes.get());
}

std::optional<std::vector<UndoneRows>> make_again(sqlite3* connection, std::string changes) {
    const int length = static_cast<int>(changes.size());
    std::vector<UndoneRows> wanted = count_rows(length, changes.data());
    const ChangeRecord record(connection);
    if (wanted.empty() || sqlite3changeset_apply(connection, length, changes.data(), nullptr,
                                                 &on_conflict_again, nullptr) != SQLITE_OK)
        return std::nullopt;
    std::optional<std::string> made = record.changes();
    if (!made || !same_rows(wanted, count_rows(static_cast<int>(made->size()), made->data())))
        return std::nullopt;
    return wanted;
}

}  // namespace footing
