#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "acquisition/frame/count_words.h"
#include "viewer/book/book.h"
#include "viewer/book/book_place.h"
#include "viewer/book/club_name.h"

namespace footing {

namespace {

Wedge wedge_from(const Row& row) {
    return {row.integer(0), row.integer(1), row.text(2), row.maybe_real(3),
            row.text(4) == "out" ? Bag::out : Bag::in};
}

constexpr const char* wedge_columns = "id, student_id, name, loft_deg, bag";

Problem taken_name(const std::string& name, const Wedge& known, const char* remedy) {
    const std::string written = known.name == name ? "" : fmt::format(", as \"{}\"", known.name);
    return {ProblemKind::command_line, name, "the student has a wedge of this name already" + written,
            remedy};
}

std::string bag_name(Bag bag) {
    return bag == Bag::in ? "in" : "out";
}

}  // namespace

Result<std::vector<Wedge>> Book::wedges(std::int64_t student) {
    // By loft, the highest first: the shortest club first, as in a chart.
    const auto rows = database_.rows(fmt::format("SELECT {} FROM wedge WHERE student_id = ? "
                                                 "ORDER BY loft_deg IS NULL, loft_deg DESC, name_key",
                                                 wedge_columns),
                                     {student});
    if (!rows) return rows.problem();
    std::vector<Wedge> wedges;
    for (const Row& row : rows.value()) wedges.push_back(wedge_from(row));
    return wedges;
}

Result<Wedge> Book::wedge(std::int64_t student, const std::string& name) {
    const auto all = wedges(student);
    if (!all) return all.problem();
    if (const Wedge* known = find_club(all.value(), name)) return *known;
    std::string names;
    for (const Wedge& wedge : all.value()) names += (names.empty() ? "" : ", ") + wedge.name;
    return Problem{ProblemKind::command_line, name, "the student has no wedge of this name",
                   names.empty()
                       ? fmt::format("\"footing wedges add '{}' --student '#{}'\" adds it", name, student)
                       : "there are: " + names};
}

Result<std::optional<std::int64_t>> Book::wedge_if_named(std::int64_t student, const std::string& name) {
    if (name.empty()) return std::optional<std::int64_t>();
    const auto found = wedge(student, name);
    if (!found) return found.problem();
    return std::optional(found.value().id);
}

Result<std::int64_t> Book::add_wedge(const Wedge& wedge) {
    const Outcome done = database_.in_transaction([&]() -> Outcome {
        const auto all = wedges(wedge.student);
        if (!all) return all.problem();
        if (const Wedge* known = find_club(all.value(), wedge.name))
            return taken_name(wedge.name, *known, "write another name, or \"footing wedges change\"");
        return database_.run(
            "INSERT INTO wedge(student_id, name, name_key, loft_deg, bag) VALUES(?, ?, ?, ?, ?)",
            {wedge.student, wedge.name, name_key(wedge.name), cell_of(wedge.loft_deg), bag_name(wedge.bag)});
    });
    if (!done) return done.problem();
    return database_.last_id();
}

Outcome Book::change_wedge(const Wedge& wedge) {
    return database_.in_transaction([&]() -> Outcome {
        auto all = wedges(wedge.student);
        if (!all) return all.problem();
        std::vector<Wedge>& others = all.value();
        const auto as_it_was = std::ranges::find(others, wedge.id, &Wedge::id);
        const bool renamed = as_it_was == others.end() || name_key(as_it_was->name) != name_key(wedge.name);
        std::erase_if(others, [&](const Wedge& other) { return other.id == wedge.id; });
        // Two of one club in an older book stay as they are.
        const Wedge* known = renamed ? find_club(others, wedge.name) : nullptr;
        if (known) return taken_name(wedge.name, *known, "write another name");
        return database_.run(
            "UPDATE wedge SET name=?, name_key=?, loft_deg=?, bag=? WHERE id=?",
            {wedge.name, name_key(wedge.name), cell_of(wedge.loft_deg), bag_name(wedge.bag), wedge.id});
    });
}

Outcome Book::remove_wedge(std::int64_t id) {
    return database_.in_transaction([&]() -> Outcome {
        const auto used = database_.number("SELECT count(*) FROM swing WHERE wedge_id = ?", {id});
        if (!used) return used.problem();
        if (used.value() > 0) {
            return Problem{ProblemKind::command_line, "",
                           count_words(static_cast<std::uint64_t>(used.value()), "swing was", "swings were") +
                               " made with this wedge",
                           "take it out of the bag instead, with \"footing wedges change\" and --bag out"};
        }
        return database_.run("DELETE FROM wedge WHERE id = ?", {id});
    });
}

}  // namespace footing
