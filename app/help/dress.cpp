// What `--help` prints, in the order in which a newcomer asks: what is it, how is it typed, what
// else is there, and at the end all that is to be known.
#include "app/help/dress.hpp"

#include "app/help/option_words.hpp"
#include "core/base/result.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <memory>

namespace qb::help {

namespace {

constexpr std::size_t width = 80;
constexpr std::size_t left_column = 27;

// Broken between words into lines that fit beside or below what stands at the left.
std::string two_columns(const std::string& left, const std::string& right) {
  std::string out = "  " + left;
  if (out.size() + 2 > left_column) out += "\n";
  std::string line(out.back() == '\n' ? left_column : left_column - out.size(), ' ');
  std::size_t used = left_column;
  for (const std::string& word : CLI::detail::split(right, ' ')) {
    if (used > left_column && used + 1 + word.size() > width) {
      out += line + "\n";
      line = std::string(left_column, ' ');
      used = left_column;
    }
    if (used > left_column) line += " ";
    line += word;
    used += word.size() + (used > left_column ? 1 : 0);
  }
  return out + line + "\n";
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
      out += two_columns(words.name + (words.value.empty() ? "" : " " + words.value), words.what);
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
    out += two_columns(one.command, one.summary);
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
    std::string out = words_.opening + "\n\nUsage: " + name + synopsis_of(*app) + "\n";
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

// Answers how many commands there are.
std::size_t dress_below(CLI::App& app, const manual& m) {
  std::size_t count = 0;
  for (CLI::App* one : app.get_subcommands([](CLI::App*) { return true; })) {
    const std::string command = typed(*one);
    const auto page = std::find_if(m.pages.begin(), m.pages.end(),
                                   [&command](const auto& p) { return p.command == command; });
    QB_BELIEVE(page != m.pages.end());
    const std::string opening = m.program + " " + command + ": " + page->summary;
    one->formatter(std::make_shared<layout>(help_words{opening, *page, pages_below(m, command)}));
    count += 1 + dress_below(*one, m);
  }
  return count;
}

} // namespace

void dress(CLI::App& app, const manual& m) {
  QB_BELIEVE(dress_below(app, m) == m.pages.size());
  app.name(m.program);
  const command_page itself{"", "", "", m.text, m.examples, ""};
  app.formatter(std::make_shared<layout>(help_words{m.opening, itself, m.pages}));
}

} // namespace qb::help
