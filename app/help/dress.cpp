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

// The commands below one, each heading once, in their order.
std::string commands_text(const CLI::App& app) {
  std::string out;
  std::string heading;
  for (const CLI::App* one : app.get_subcommands([](const CLI::App*) { return true; })) {
    if (one->get_group() != heading) out += "\n" + one->get_group() + ":\n";
    heading = one->get_group();
    out += two_columns(one->get_name(), one->get_description());
  }
  return out;
}

class layout : public CLI::Formatter {
public:
  explicit layout(command_page page) : page_(std::move(page)) {}

  std::string make_help(const CLI::App* app, std::string name,
                        CLI::AppFormatMode /*mode*/) const override {
    const bool program = app->get_parent() == nullptr;
    std::string out = program ? page_.summary : name + ": " + page_.summary;
    out += "\n\nUsage: " + name + synopsis_of(*app) + "\n" + examples_text(page_.examples) +
           commands_text(*app) + options_text(*app);
    if (!page_.text.empty()) out += "\n" + page_.text + "\n";
    out += fmt::format("\nExit status: {}\n", exit_statuses);
    if (!page_.status.empty()) out += page_.status + "\n";
    return out;
  }

private:
  command_page page_;
};

std::string typed(const CLI::App& app) {
  const CLI::App* above = app.get_parent();
  if (above == nullptr) return "";
  const std::string before = typed(*above);
  return before + (before.empty() ? "" : " ") + app.get_name();
}

// Answers how many commands there are.
std::size_t dress_below(CLI::App& app, const manual& m) {
  std::size_t count = 0;
  for (CLI::App* one : app.get_subcommands([](CLI::App*) { return true; })) {
    const std::string command = typed(*one);
    const auto page = std::find_if(m.pages.begin(), m.pages.end(), [&command](const auto& p) {
      return p.command == command;
    });
    QB_BELIEVE(page != m.pages.end());
    one->description(page->summary)->group(page->group);
    one->formatter(std::make_shared<layout>(*page));
    count += 1 + dress_below(*one, m);
  }
  return count;
}

} // namespace

void dress(CLI::App& app, const manual& m) {
  const std::size_t commands = dress_below(app, m);
  QB_BELIEVE(commands == m.pages.size());
  app.name(m.program);
  app.formatter(std::make_shared<layout>(
      command_page{"", "", m.opening, m.text, m.examples, ""}));
}

} // namespace qb::help
