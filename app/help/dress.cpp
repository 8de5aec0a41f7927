// What `--help` prints, in the order in which a newcomer asks: what is it, how is it typed, what
// else is there, and at the end all that is to be known.
#include "app/help/dress.hpp"

#include "app/help/option_words.hpp"
#include "core/base/result.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <iterator>
#include <memory>
#include <set>

namespace qb::help {

namespace {

constexpr std::size_t width = 80;
constexpr std::size_t left_column = 27;

// A text set in a column of its own that begins at `from`, beside what stands at the left, or below
// it where that is too long.
std::string beside(const std::string& left, std::size_t from, const std::string& text) {
  const std::string margin(from, ' ');
  std::string out = left.size() > from ? left + "\n" + margin : left + margin.substr(left.size());
  std::size_t used = from;
  for (const std::string& word : CLI::detail::split(text, ' ')) {
    if (used > from && used + 1 + word.size() > width) {
      out += "\n" + margin;
      used = from;
    }
    if (used > from) out += " ";
    used += word.size() + (used > from ? 1 : 0);
    out += word;
  }
  return out + "\n";
}

std::string row(const std::string& name, const std::string& what) {
  return beside("  " + name + "  ", left_column, what);
}

std::string examples_text(const std::vector<example>& examples) {
  std::string out = examples.empty() ? "" : "\nExamples:\n";
  for (const example& one : examples) {
    const std::string end = one.status == 0 ? ":" : fmt::format(" (exit status {}):", one.status);
    out += "  " + one.what + end + "\n    " +
           CLI::detail::find_and_replace(one.commands, "\n", "\n    ") + "\n";
  }
  return out;
}

std::string options_text(const CLI::App& app) {
  std::string out;
  for (const option_group& group : groups_of(app)) {
    out += "\n" + group.title + ":\n";
    for (const CLI::Option* o : group.options) {
      const option_words words = words_of(*o);
      out += row(words.name + (words.value.empty() ? "" : " " + words.value), words.what);
    }
  }
  const std::string shared = shared_options_of(app);
  if (!shared.empty()) out += "\nAs of every command: " + shared + "\n";
  return out;
}

// Each heading once, in the order of the manual; what only leads to others is passed over.
std::string commands_text(const std::vector<command_page>& pages) {
  std::string out;
  std::string heading;
  for (const command_page& one : pages) {
    if (one.examples.empty()) continue;
    if (one.group != heading) out += "\n" + one.group + ":\n";
    heading = one.group;
    out += row(one.command, one.summary);
  }
  return out;
}

// What one help is made of, beside CLI11's options.
struct help_words {
  std::string opening;
  command_page page;
  std::vector<command_page> commands; // those below it
};

class layout : public CLI::Formatter {
public:
  explicit layout(help_words words) : words_(std::move(words)) {}

  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode /*mode*/) const override {
    const command_page& page = words_.page;
    const std::string usage = "Usage: ";
    std::string out =
        words_.opening + "\n\n" + beside(usage, usage.size(), name + synopsis_of(*app));
    out += examples_text(page.examples) + commands_text(words_.commands) + options_text(*app);
    if (!page.text.empty()) out += "\n" + page.text + "\n";
    return out + "\nExit status: " + exit_statuses + "\n" +
           (page.status.empty() ? "" : page.status + "\n");
  }

private:
  help_words words_;
};

std::string typed(const CLI::App& app) {
  const CLI::App* above = app.get_parent();
  if (above == nullptr) return "";
  const std::string before = typed(*above);
  return before + (before.empty() ? "" : " ") + app.get_name();
}

std::vector<command_page> pages_below(const manual& m, const std::string& command) {
  std::vector<command_page> out;
  for (const command_page& page : m.pages)
    if (page.command.rfind(command + " ", 0) == 0) out.push_back(page);
  return out;
}

const std::string* value_of(const manual& m, const std::string& command, const CLI::Option& o) {
  for (const std::string& name : {command + " " + o.get_name(), o.get_name()})
    if (const auto found = m.values.find(name); found != m.values.end()) return &found->second;
  return nullptr;
}

bool takes_value(const CLI::Option* o) {
  return o->nonpositional() && o->get_items_expected_max() > 0;
}

void dress_options(CLI::App& app, const manual& m) {
  for (CLI::Option* o : app.get_options(takes_value))
    o->type_name(*value_of(m, typed(app), *o));
}

void dress_below(CLI::App& app, const manual& m) {
  for (CLI::App* one : app.get_subcommands([](CLI::App*) { return true; })) {
    const std::string command = typed(*one);
    const std::string opening = m.program + " " + command + ": ";
    for (const command_page& page : m.pages)
      if (page.command == command)
        one->formatter(std::make_shared<layout>(
            help_words{opening + page.summary, page, pages_below(m, command)}));
    dress_options(*one, m);
    dress_below(*one, m);
  }
}

// All commands, and the options of which nothing says what stands for their value.
void add_untold(const CLI::App& app, const manual& m, std::multiset<std::string>& commands,
                std::vector<std::string>& options) {
  for (const CLI::Option* o : app.get_options(takes_value))
    if (value_of(m, typed(app), *o) == nullptr) options.push_back(o->get_name());
  for (const CLI::App* one : app.get_subcommands([](const CLI::App*) { return true; })) {
    commands.insert(typed(*one));
    add_untold(*one, m, commands, options);
  }
}

} // namespace

std::vector<std::string> untold(const CLI::App& app, const manual& m) {
  std::multiset<std::string> commands;
  std::vector<std::string> out;
  add_untold(app, m, commands, out);
  std::multiset<std::string> pages;
  for (const command_page& page : m.pages)
    pages.insert(page.command);
  std::set_symmetric_difference(commands.begin(), commands.end(), pages.begin(), pages.end(),
                                std::back_inserter(out));
  return out;
}

void dress(CLI::App& app, const manual& m) {
  QB_BELIEVE(untold(app, m).empty());
  dress_options(app, m);
  dress_below(app, m);
  app.name(m.program);
  const command_page itself{"", "", "", m.text, m.examples, ""};
  app.formatter(std::make_shared<layout>(help_words{m.opening, itself, m.pages}));
}

} // namespace qb::help
