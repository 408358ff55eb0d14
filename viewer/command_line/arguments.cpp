#include "viewer/command_line/arguments.h"

#include <CLI/CLI.hpp>
#include <deque>
#include <utility>

namespace footing {

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
        return keep(app->add_option(name, value, help));
    }

    std::unique_ptr<CLI::App> own;  ///< the program's; a verb's belongs to that
    CLI::App* app;
    std::deque<Argument> options;
    std::deque<Arguments> parts;
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
    return library_->keep(library_->app->add_subcommand(name, about));
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
    library_->app->fallthrough();
}

void Arguments::callback(std::function<void()> work) {
    library_->app->callback(std::move(work));
}

bool Arguments::subcommand_given() const {
    return !library_->app->get_subcommands().empty();
}

std::vector<std::string> Arguments::subcommand_names() const {
    std::vector<std::string> names;
    for (const CLI::App* verb : library_->app->get_subcommands([](CLI::App*) { return true; })) {
        names.push_back(verb->get_name());
    }
    return names;
}

void Arguments::set_version_flag(const std::string& name, const std::string& version) {
    library_->app->set_version_flag(name, version);
}

Arguments::Reading Arguments::parse(int argc, char** argv) {
    try {
        library_->app->parse(argc, argv);
    } catch (const CLI::Success& help_or_version) {
        return {library_->app->exit(help_or_version), ""};
    } catch (const CLI::ParseError& error) {
        return {std::nullopt, error.what()};
    }
    return {};
}

}  // namespace footing
