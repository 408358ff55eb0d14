#include "viewer/book/club_name.h"

#include <algorithm>
#include <string_view>

#include "viewer/book/book_place.h"

namespace footing {

namespace {

constexpr std::string_view degree_sign = "°";

bool is_digit(char letter) {
    return letter >= '0' && letter <= '9';
}

void skip_blanks(std::string_view& rest) {
    while (!rest.empty() && (rest.front() == ' ' || rest.front() == '-')) rest.remove_prefix(1);
}

bool take(std::string_view& rest, std::string_view word) {
    if (rest.substr(0, word.size()) != word) return false;
    rest.remove_prefix(word.size());
    return true;
}

/// What some keyboards have in the place of the degree sign. Before the key is made, which knows them as
/// letters.
std::string with_degree_signs(std::string name) {
    for (const std::string_view other : {std::string_view("º"), std::string_view("˚")}) {
        for (std::size_t at = name.find(other); at != std::string::npos; at = name.find(other, at))
            name.replace(at, other.size(), degree_sign);
    }
    return name;
}

/// The number that the text begins with, without zeros that say nothing; empty: none.
std::string take_number(std::string_view& rest) {
    std::string number;
    while (!rest.empty() && is_digit(rest.front())) {
        number += rest.front();
        rest.remove_prefix(1);
    }
    const bool point = rest.size() > 1 && (rest[0] == '.' || rest[0] == ',') && is_digit(rest[1]);
    if (number.empty() || !point) return number;
    rest.remove_prefix(1);
    number += '.';
    while (!rest.empty() && is_digit(rest.front())) {
        number += rest.front();
        rest.remove_prefix(1);
    }
    number.erase(number.find_last_not_of('0') + 1);
    if (number.back() == '.') number.pop_back();
    return number;
}

}  // namespace

std::string club_key(const std::string& name) {
    const std::string key = name_key(with_degree_signs(name));
    std::string_view rest = key;
    const std::string number = take_number(rest);
    if (number.empty()) return key;
    skip_blanks(rest);
    // The longest first.
    for (const std::string_view degrees : {std::string_view("degrees"), std::string_view("degree"),
                                           std::string_view("deg."), std::string_view("deg"), degree_sign}) {
        if (take(rest, degrees)) break;
    }
    skip_blanks(rest);
    static_cast<void>(take(rest, "wedge"));
    return rest.empty() ? number : key;
}

const Wedge* find_club(const std::vector<Wedge>& wedges, const std::string& name) {
    const auto by = [&](std::string (*key_of)(const std::string&)) -> const Wedge* {
        const std::string key = key_of(name);
        const auto found =
            std::ranges::find_if(wedges, [&](const Wedge& wedge) { return key_of(wedge.name) == key; });
        return found == wedges.end() ? nullptr : &*found;
    };
    const Wedge* written_so = by(name_key);
    return written_so ? written_so : by(club_key);
}

}  // namespace footing
