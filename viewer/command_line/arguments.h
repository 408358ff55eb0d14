#pragma once

#include <cstdint>
#include <functional>
#include <initializer_list>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace footing {

/// A rule for one word of the command line: `values` tells in the help what may stand there ("" tells
/// nothing), `wrong` returns what is wrong with the word, or nothing.
struct Check {
    std::string values;
    std::function<std::string(const std::string&)> wrong;
};

/// One option or flag of a verb. Belongs to its Arguments; each call returns it again, to be chained.
class Argument {
  public:
    class Library;
    explicit Argument(std::unique_ptr<Library> library);
    ~Argument();
    Argument(const Argument&) = delete;
    Argument& operator=(const Argument&) = delete;

    Argument* required();
    Argument* check(const Check& rule);
    /// Not together with that one.
    Argument* excludes(Argument* other);
    Argument* excludes(const std::string& other);
    /// Only together with that one.
    Argument* needs(Argument* other);
    /// Takes so many words.
    Argument* expected(int fewest, int most);
    /// One word holds several values, parted by this.
    Argument* delimiter(char between);
    /// The help shows the value that stands when nothing is given.
    Argument* capture_default_str();

    /// Whether it was written.
    [[nodiscard]] bool given() const;

  private:
    std::unique_ptr<Library> library_;
};

/// What may be written behind a verb, or behind the program's name. The one door to the library that reads
/// command lines: its header takes the compiler ten seconds in each file that includes it.
class Arguments {
  public:
    class Library;
    /// The program's own: about is the first line of its help.
    explicit Arguments(const std::string& about);
    explicit Arguments(std::unique_ptr<Library> library);
    ~Arguments();
    Arguments(const Arguments&) = delete;
    Arguments& operator=(const Arguments&) = delete;

    /// The word behind the name ("--rate", or "FILE" for one that stands by its place) is stored in `value`,
    /// which must live as long as this. A number must be finite; a text must not be empty, but for an
    /// optional one: "" is what empties a note.
    Argument* add_option(const std::string& name, std::string& value, const std::string& help);
    Argument* add_option(const std::string& name, double& value, const std::string& help);
    Argument* add_option(const std::string& name, int& value, const std::string& help);
    Argument* add_option(const std::string& name, std::int64_t& value, const std::string& help);
    Argument* add_option(const std::string& name, std::uint64_t& value, const std::string& help);
    Argument* add_option(const std::string& name, std::optional<std::string>& value, const std::string& help);
    Argument* add_option(const std::string& name, std::optional<double>& value, const std::string& help);
    Argument* add_option(const std::string& name, std::optional<std::int64_t>& value,
                         const std::string& help);
    Argument* add_option(const std::string& name, std::optional<std::size_t>& value, const std::string& help);
    Argument* add_option(const std::string& name, std::vector<std::string>& value, const std::string& help);
    Argument* add_option(const std::string& name, std::vector<double>& value, const std::string& help);
    Argument* add_flag(const std::string& name, bool& value, const std::string& help);
    Arguments* add_option_group(const std::string& name, const std::string& about);
    Arguments* add_subcommand(const std::string& name, const std::string& about);

    /// The help puts the subcommands that are added from now on under this heading.
    void head_subcommands(const std::string& heading);

    /// So many of the options must be written; with one number exactly that many.
    void require_option(int count);
    void require_option(int fewest, int most);
    void require_subcommand(int fewest, int most);
    /// A word that is not known here may belong to the verb above.
    void fallthrough();
    /// What is done when this was written and is sound.
    void callback(std::function<void()> work);
    /// Whether a subcommand of this was written.
    [[nodiscard]] bool subcommand_given() const;

    /// Of this, or of its subcommand `of`.
    [[nodiscard]] std::vector<std::string> subcommand_names(const std::string& of = "") const;
    void set_version_flag(const std::string& name, const std::string& version);

    /// How reading the command line ended: done, help or version printed (exit_code holds), or what is wrong.
    struct Reading {
        std::optional<int> exit_code;
        std::string wrong;
    };
    /// Reads the words and calls what they ask for.
    [[nodiscard]] Reading parse(int argc, char** argv);

  private:
    std::unique_ptr<Library> library_;
};

}  // namespace footing
