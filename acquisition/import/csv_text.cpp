#include "acquisition/import/csv_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>
#include <utility>

#include "acquisition/frame/clean_text.h"
#include "acquisition/frame/foreign_text.h"

namespace footing {

namespace {

std::string_view trimmed(std::string_view text) {
    const std::size_t first = text.find_first_not_of(" \t");
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

/// A field as it can be shown in a sentence.
std::string shown(std::string_view field) {
    constexpr std::size_t most_characters = 30;
    return clean_text(as_utf8(field), most_characters);
}

}  // namespace

CsvText::CsvText(std::string_view text, std::string place, char separator)
    : text_(text), place_(std::move(place)), separator_(separator) {
    if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
}

bool CsvText::is_blank(char letter) const {
    return letter == ' ' || (letter == '\t' && separator_ != '\t');
}

Problem CsvText::problem(std::string_view column, std::string what, std::string remedy) const {
    std::string place = fmt::format("{}, line {}", place_, line_);
    if (!column.empty()) place += ", column " + as_utf8(column);
    return {ProblemKind::bad_input, std::move(place), std::move(what), std::move(remedy)};
}

Result<CsvText::Next> CsvText::next() {
    while (at_ < text_.size()) {
        const auto read = read_line();
        if (!read) return read;
        const bool blank = fields_.size() == 1 && fields_.front().empty();
        if (!blank) return Next::line;
    }
    return Next::end;
}

Result<CsvText::Next> CsvText::read_line() {
    fields_.clear();
    unquoted_.clear();
    line_ = ++lines_ended_;
    const std::size_t limit = std::min(text_.size(), at_ + most_csv_line_bytes);
    while (true) {
        while (at_ < limit && is_blank(text_[at_])) ++at_;
        if (at_ < limit && text_[at_] == '"') {
            if (Outcome done = read_quoted(limit); !done) return done.problem();
        } else {
            const std::size_t from = at_;
            while (at_ < limit && text_[at_] != separator_ && text_[at_] != '\n' && text_[at_] != '\r') {
                const auto byte = static_cast<unsigned char>(text_[at_]);
                if ((byte < 0x20 && byte != '\t') || byte == 0x7F) {
                    return problem("", "this is no text", "save the table as CSV and import that");
                }
                ++at_;
            }
            fields_.push_back(trimmed(text_.substr(from, at_ - from)));
        }
        if (fields_.size() > most_csv_fields) {
            return problem("", fmt::format("there are more than {} columns", most_csv_fields),
                           "leave only the columns that docs/csv_import.md names");
        }
        if (at_ == text_.size()) return Next::line;
        if (at_ >= limit) {
            return problem("", fmt::format("the line is longer than {} bytes", most_csv_line_bytes),
                           "one line must hold one instant only");
        }
        if (text_[at_] == separator_) {
            ++at_;
            continue;
        }
        if (text_[at_] == '\r') {
            if (at_ + 1 < text_.size() && text_[at_ + 1] != '\n') {
                return problem("", "a carriage return stands in the middle of a line",
                               "save the table with lines that end in LF or CR LF");
            }
            ++at_;
        }
        if (at_ < text_.size()) ++at_;
        return Next::line;
    }
}

Outcome CsvText::read_quoted(std::size_t limit) {
    std::string& field = unquoted_.emplace_back();
    for (++at_; at_ < limit; ++at_) {
        const char c = text_[at_];
        if (c == '"') {
            if (at_ + 1 < limit && text_[at_ + 1] == '"') {
                ++at_;
            } else {
                ++at_;
                while (at_ < limit && is_blank(text_[at_])) ++at_;
                if (at_ < limit && text_[at_] != separator_ && text_[at_] != '\n' && text_[at_] != '\r') {
                    return problem("", "text follows a closing quote",
                                   "put quotes round the whole field or none");
                }
                fields_.push_back(trimmed(field));
                return Done{};
            }
        }
        if (c == '\n') ++lines_ended_;
        field += c;
    }
    return problem("", "a quote is opened and never closed", "close it, or leave the quotes out");
}

Result<double> parse_csv_number(std::string_view field) {
    std::string_view digits = field;
    // from_chars knows no plus sign.
    if (digits.size() > 1 && digits[0] == '+' && digits[1] != '-') digits.remove_prefix(1);
    double number = 0.0;
    const char* const end = digits.data() + digits.size();
    const auto [stopped, failure] = std::from_chars(digits.data(), end, number);
    Problem problem;
    if (field.empty()) {
        problem.what = "there is no number";
        problem.remedy = "leave lines out that have no value, rather than the value";
    } else if (failure == std::errc::result_out_of_range && stopped == end) {
        problem.what = fmt::format("\"{}\" is too large or too small a number", shown(field));
    } else if (failure != std::errc() || stopped != end) {
        problem.what = fmt::format("\"{}\" is not a number", shown(field));
        problem.remedy = field.find(',') != std::string_view::npos
                             ? "use a decimal point, not a comma"
                             : "only numbers with a decimal point may stand there";
    } else if (!std::isfinite(number)) {
        problem.what = fmt::format("\"{}\" is not a finite number", shown(field));
        problem.remedy = "leave lines out that were not measured";
    } else {
        return number;
    }
    return problem;
}

}  // namespace footing
