#include "viewer/command_line/arguments.h"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <deque>
#include <set>
#include <sstream>
#include <string>
#include <type_traits>
#include <utility>

namespace footing {

namespace {

template <typename Value>
constexpr bool is_of_numbers = std::is_arithmetic_v<Value>;
template <typename Value>
constexpr bool is_of_numbers<std::optional<Value>> = std::is_arithmetic_v<Value>;
template <typename Value>
constexpr bool is_of_numbers<std::vector<Value>> = std::is_arithmetic_v<Value>;

/// What is wrong with a word that must be a number before anything else is asked of it.
std::string wrong_number(const std::string& word) {
    if (word.empty()) return "a number is missing";
    char* end = nullptr;
    const double value = std::strtod(word.c_str(), &end);
    return end != word.c_str() && !std::isfinite(value) ? "\"" + word + "\" is not a finite number" : "";
}

/// A name of nothing is a script's variable that was never set.
std::string no_word(const std::string& word) {
    return word.empty() ? "nothing is written there" : "";
}

/// The library's help in the words of a person who uses the program, not of one who programs.
class PlainHelp : public CLI::Formatter {
  public:
    PlainHelp() {
        label("SUBCOMMAND", "VERB");
        label("Subcommands", "Verbs");
        label("Positionals", "What it works on");
    }

    std::string make_description(const CLI::App* app) const override {
        std::string words = app->get_description();
        const std::size_t fewest = app->get_require_option_min();
        const std::size_t most = app->get_require_option_max();
        if (fewest == 1 && most == 1) words += ": one of these is needed";
        if (fewest == 1 && most > 1)
            words += ": at least one of these is needed, at most " + std::to_string(most);
        if (fewest == 0 && most == 1) words += ": one of these, or none";
        return words.empty() ? words : words + "\n";
    }

    /// What stands behind an option's name: "NUMBER from 20 to 20000, else 1000; not with --mat".
    std::string make_option_opts(const CLI::Option* option) const override {
        std::string words;
        if (!option->get_type_name().empty()) {  // a flag has none
            const std::string type = option->get_type_name();
            const std::size_t colon = type.find(':');
            const std::string values = colon == std::string::npos ? "" : type.substr(colon + 1);
            words = type.substr(0, colon) == "TEXT" ? " TEXT" : " NUMBER";
            if (values.starts_with("one of ")) words.clear();
            if (!values.empty()) words += " " + values;
            if (option->get_expected_max() > 1) words += " ...";
            if (!option->get_default_str().empty()) words += ", else " + option->get_default_str();
        }
        if (option->get_required()) words += " (needed)";
        const auto others = [&](const char* how, const std::set<CLI::Option*>& options) {
            if (options.empty()) return;
            words += words.empty() ? " " : "; ";
            words += how;
            for (const CLI::Option* other : options) words += " " + other->get_name();
        };
        others("not with", option->get_excludes());
        others("only with", option->get_needs());
        return words;
    }

    /// A group of options: its words in place of the library's heading, then its options.
    std::string make_expanded(const CLI::App* group) const override {
        std::istringstream lines(CLI::Formatter::make_expanded(group));
        std::string words;
        std::string line;
        std::getline(lines, line);
        while (std::getline(lines, line)) {
            if (line != "  Options:") words += line.substr(std::min<std::size_t>(2, line.size())) + "\n";
        }
        return words;
    }
};

}  // namespace

class Argument::Library {
  public:
    explicit Library(CLI::Option* written) : option(written) {}
    CLI::Option* option;
};

class Arguments::Library {
  public:
    explicit Library(CLI::App* of_library) : app(of_library) {}

    Argument* keep(CLI::Option* option) {
        return &options.emplace_back(std::make_unique<Argument::Library>(option));
    }
    Arguments* keep(CLI::App* below) { return &parts.emplace_back(std::make_unique<Library>(below)); }

    template <typename Value>
    Argument* add(const std::string& name, Value& value, const std::string& help) {
        CLI::Option* const option = app->add_option(name, value, help);
        // The library takes "" for 0, and "nan" for a number like any other.
        if constexpr (is_of_numbers<Value>) {
            last_checks.emplace_back(option, CLI::Validator(&wrong_number, ""));
        } else if constexpr (!std::is_same_v<Value, std::optional<std::string>>) {
            last_checks.emplace_back(option, CLI::Validator(&no_word, ""));
        }
        return keep(option);
    }

    /// A verb's own rules say better what may stand there, so these come after them.
    void add_last_checks() {
        for (auto& [option, rule] : last_checks) option->check(rule);
        for (Arguments& part : parts) part.library_->add_last_checks();
    }

    std::vector<std::pair<CLI::Option*, CLI::Validator>> last_checks;
    std::unique_ptr<CLI::App> own;  ///< the program's; a verb's belongs to that
    CLI::App* app;
    std::deque<Argument> options;
    std::deque<Arguments> parts;
    std::string verbs_are_of;  ///< the heading over the subcommands that are added
};

Argument::Argument(std::unique_ptr<Library> library) : library_(std::move(library)) {}
Argument::~Argument() = default;

Argument* Argument::required() {
    library_->option->required();
    return this;
}

Argument* Argument::check(const Check& rule) {
    library_->option->check(
        CLI::Validator([wrong = rule.wrong](std::string& word) { return wrong(word); }, rule.values));
    return this;
}

Argument* Argument::excludes(Argument* other) {
    library_->option->excludes(other->library_->option);
    return this;
}

Argument* Argument::excludes(const std::string& other) {
    library_->option->excludes(other);
    return this;
}

Argument* Argument::needs(Argument* other) {
    library_->option->needs(other->library_->option);
    return this;
}

Argument* Argument::expected(int fewest, int most) {
    library_->option->expected(fewest, most);
    return this;
}

Argument* Argument::delimiter(char between) {
    library_->option->delimiter(between);
    return this;
}

Argument* Argument::capture_default_str() {
    library_->option->capture_default_str();
    return this;
}

bool Argument::given() const {
    return library_->option->count() > 0;
}

Arguments::Arguments(const std::string& about) : library_(std::make_unique<Library>(nullptr)) {
    library_->own = std::make_unique<CLI::App>(about);
    library_->app = library_->own.get();
    library_->app->formatter(std::make_shared<PlainHelp>());
    library_->app->set_help_flag("-h,--help", "tell what may be written here");
}

Arguments::Arguments(std::unique_ptr<Library> library) : library_(std::move(library)) {}
Arguments::~Arguments() = default;

Argument* Arguments::add_option(const std::string& name, std::string& value, const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, double& value, const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, int& value, const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::int64_t& value, const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::uint64_t& value, const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::optional<std::string>& value,
                                const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::optional<double>& value,
                                const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::optional<std::int64_t>& value,
                                const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::optional<std::size_t>& value,
                                const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::vector<std::string>& value,
                                const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_option(const std::string& name, std::vector<double>& value,
                                const std::string& help) {
    return library_->add(name, value, help);
}

Argument* Arguments::add_flag(const std::string& name, bool& value, const std::string& help) {
    return library_->keep(library_->app->add_flag(name, value, help));
}

Arguments* Arguments::add_option_group(const std::string& name, const std::string& about) {
    return library_->keep(library_->app->add_option_group(name, about));
}

Arguments* Arguments::add_subcommand(const std::string& name, const std::string& about) {
    CLI::App* verb = library_->app->add_subcommand(name, about);
    verb->group(library_->verbs_are_of.empty() ? "Verbs" : library_->verbs_are_of);
    return library_->keep(verb);
}

void Arguments::head_subcommands(const std::string& heading) {
    library_->verbs_are_of = heading;
}

void Arguments::require_option(int count) {
    library_->app->require_option(count);
}

void Arguments::require_option(int fewest, int most) {
    library_->app->require_option(static_cast<std::size_t>(fewest), static_cast<std::size_t>(most));
}

void Arguments::require_subcommand(int fewest, int most) {
    library_->app->require_subcommand(static_cast<std::size_t>(fewest), static_cast<std::size_t>(most));
}

void Arguments::fallthrough() {
    CLI::App* const step = library_->app;
    step->fallthrough();
    // Asked for late: the verb above may get more options after this.
    step->footer([step] {
        std::string names;
        for (const CLI::Option* option : step->get_parent()->get_options()) {
            if (option->get_name() != "--help") names += (names.empty() ? " " : ", ") + option->get_name();
        }
        return "As with \"footing " + step->get_parent()->get_name() + "\":" + names;
    });
}

void Arguments::callback(std::function<void()> work) {
    library_->app->callback(std::move(work));
}

bool Arguments::subcommand_given() const {
    return !library_->app->get_subcommands().empty();
}

std::vector<std::string> Arguments::subcommand_names(const std::string& of) const {
    std::vector<std::string> names;
    const auto all = [](CLI::App*) { return true; };
    for (CLI::App* verb : library_->app->get_subcommands(all)) {
        if (of.empty()) names.push_back(verb->get_name());
        if (verb->get_name() != of) continue;
        for (const CLI::App* step : verb->get_subcommands(all)) names.push_back(step->get_name());
    }
    return names;
}

void Arguments::set_version_flag(const std::string& name, const std::string& version) {
    library_->app->set_version_flag(name, version, "tell the version");
}

Arguments::Reading Arguments::parse(int argc, char** argv) {
    library_->add_last_checks();
    try {
        library_->app->parse(argc, argv);
    } catch (const CLI::Success& help_or_version) {
        std::ostringstream words;
        const int code = library_->app->exit(help_or_version, words, words);
        // The library's own way out, std::cout, would not tell that nothing could be written.
        std::fputs(words.str().c_str(), stdout);
        return {code, ""};
    } catch (const CLI::ConversionError& error) {
        // "Could not convert: --swing = 1.5"
        std::string words = error.what();
        if (const std::size_t colon = words.find(": "); colon != std::string::npos) words.erase(0, colon + 2);
        return {std::nullopt, words + " is no such number"};
    } catch (const CLI::ExtrasError& error) {
        // "The following arguments were not expected: z y": the last one first.
        const std::string told = error.what();
        std::istringstream all(told.substr(std::min(told.size(), told.find(": ") + 1)));
        std::string words;
        for (std::string word; all >> word;) words = words.empty() ? word : word + " " + words;
        return {std::nullopt, words + " has no place here"};
    } catch (const CLI::ParseError& error) {
        return {std::nullopt, error.what()};
    }
    return {};
}

}  // namespace footing
