// The man page: the same words as the helps, in the requests of man(7).
#include "app/help/man_page.hpp"

#include "app/help/option_words.hpp"

#include <cctype>
#include <cstdio>
#include <fmt/core.h>

namespace qb::help {

namespace {

// A line in which groff sees neither a request nor a character of its own. A dash stays one that a
// shell understands when it is copied from the page.
std::string safe(const std::string& line) {
  std::string out = line.rfind('.', 0) == 0 || line.rfind('\'', 0) == 0 ? "\\&" : "";
  for (const char c : line) {
    switch (c) {
    case '\\': out += "\\e"; break;
    case '-': out += "\\-"; break;
    case '\'': out += "\\(aq"; break;
    case '`': out += "\\(ga"; break;
    case '^': out += "\\(ha"; break;
    case '~': out += "\\(ti"; break;
    default: out += c;
    }
  }
  return out;
}

std::vector<std::string> lines_of(const std::string& text) {
  return CLI::detail::split(text, '\n');
}

std::string as_it_stands(const std::vector<std::string>& lines) {
  std::string out = ".in +2n\n.EX\n";
  for (const std::string& line : lines)
    out += safe(line) + "\n";
  return out + ".EE\n.in\n";
}

// Paragraphs; lines that begin with a blank stand as they are.
std::string paragraphs(const std::string& text) {
  std::string out;
  std::vector<std::string> table;
  bool begun = false;
  const auto end_table = [&out, &table, &begun] {
    if (!table.empty()) out += as_it_stands(table);
    table.clear();
  };
  for (const std::string& line : lines_of(text)) {
    if (line.rfind("  ", 0) == 0) {
      table.push_back(line.substr(2));
      continue;
    }
    end_table();
    if (line.empty()) {
      begun = false;
      continue;
    }
    if (!begun) out += ".PP\n";
    begun = true;
    out += safe(line) + "\n";
  }
  end_table();
  return out;
}

std::string examples_of(const std::vector<example>& examples) {
  std::string out;
  for (const example& one : examples) {
    const std::string end = one.status == 0 ? ":" : fmt::format(" (exit status {}):", one.status);
    // The comment tells a script an example from a table.
    out += ".PP\n" + safe(one.what + end) + fmt::format("\n.\\\" example {}\n", one.status) +
           as_it_stands(lines_of(one.commands));
  }
  return out;
}

std::string group_of(const CLI::App& app, const option_group& group) {
  std::string out = ".PD 0\n";
  for (const CLI::Option* o : group.options) {
    if (app.get_parent() != nullptr && o == app.get_help_ptr()) continue;
    const option_words words = words_of(*o);
    out += ".TP\n\\fB" + safe(words.name) + "\\fR";
    if (!words.value.empty()) out += " \\fI" + safe(words.value) + "\\fR";
    out += "\n" + safe(words.what) + "\n";
  }
  return out + ".PD\n";
}

const CLI::App& command_of(const CLI::App& app, const std::string& typed) {
  const CLI::App* at = &app;
  for (const std::string& word : CLI::detail::split(typed, ' '))
    at = at->get_subcommand(word);
  return *at;
}

std::string command_section(const CLI::App& app, const manual& m, const command_page& page) {
  const CLI::App& command = command_of(app, page.command);
  const std::string typed = m.program + " " + page.command;
  std::string out = ".SS " + safe(page.command) + "\n" + safe(page.summary) + "\n.PP\n\\fB" +
                    safe(typed) + "\\fR" + safe(synopsis_of(command)) + "\n";
  out += paragraphs(page.text);
  for (const option_group& group : groups_of(command))
    out += ".PP\n" + group_of(command, group);
  return out + paragraphs(page.status) + examples_of(page.examples);
}

// A heading is a paragraph's begin by itself.
std::string section(const std::string& title, const std::string& body) {
  const std::string paragraph = ".PP\n";
  std::string out = ".SH ";
  for (const char c : safe(title))
    out += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  const bool begins = body.rfind(paragraph, 0) == 0;
  return out + "\n" + (begins ? body.substr(paragraph.size()) : body);
}

} // namespace

std::string man_page(const CLI::App& app, const manual& m) {
  // Unbroken words can be copied, and looked for.
  std::string out = fmt::format(".nr HY 0\n.TH {} 1 \"\" \"quarterbreath {}\"\n.nh\n.ad l\n",
                                m.program, m.version);
  out += section("name", m.program + " \\- " + safe(m.in_short) + "\n");
  out += section("synopsis", "\\fB" + safe(m.program) + "\\fR" + safe(synopsis_of(app)) + "\n");
  out += section("description", paragraphs(m.opening) + paragraphs(m.text));
  out += section("examples", examples_of(m.examples));
  std::string options;
  for (const option_group& group : groups_of(app))
    options += ".SS " + safe(group.title) + "\n" + group_of(app, group);
  out += section("options", options);
  std::string commands;
  for (const command_page& page : m.pages)
    if (!page.examples.empty()) commands += command_section(app, m, page);
  out += section("commands", commands);
  for (const topic& one : m.topics)
    out += section(one.title, paragraphs(one.text) + examples_of(one.examples));
  out += section("exit status", paragraphs(exit_statuses));
  return out + section("see also", "\\fB" + safe(m.other) + "\\fR(1)\n");
}

int print_man_page(const CLI::App& app, const manual& m) {
  const std::string page = man_page(app, m);
  std::fwrite(page.data(), 1, page.size(), stdout);
  return std::fflush(stdout) == 0 && std::ferror(stdout) == 0 ? 0 : 1;
}

} // namespace qb::help
