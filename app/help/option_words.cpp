// CLI11's list of options, put into words.
#include "app/help/option_words.hpp"

namespace qb::help {

namespace {

std::string joined(const std::set<CLI::Option*>& options) {
  std::string out;
  for (const CLI::Option* one : options)
    out += (out.empty() ? "" : ", ") + one->get_name();
  return out;
}

bool is_help(const CLI::App& app, const CLI::Option& o) {
  return app.get_help_ptr() == &o;
}

std::string name_of(const CLI::Option& o) {
  if (o.get_positional()) return o.get_name(true, false);
  std::string out = o.get_name(false, true);
  if (const auto comma = out.find(','); comma != std::string::npos) out.insert(comma + 1, " ");
  return out;
}

bool is_given_a_value(const CLI::Option& o) {
  return o.get_items_expected_max() > 0;
}

bool takes_many(const CLI::Option& o) {
  return o.get_expected_max() >= CLI::detail::expected_max_vector_size;
}

} // namespace

option_words words_of(const CLI::Option& o) {
  option_words out{name_of(o), "", o.get_description()};
  // CLI11 puts behind a colon what a value is checked for; the words tell that better.
  const std::string type = o.get_type_name();
  if (!o.get_positional() && is_given_a_value(o)) out.value = type.substr(0, type.find(':'));
  if (takes_many(o)) out.value += out.value.empty() ? "..." : " ...";
  if (!o.get_needs().empty()) out.what += "; only with " + joined(o.get_needs());
  if (!o.get_excludes().empty()) out.what += "; not with " + joined(o.get_excludes());
  return out;
}

std::vector<option_group> groups_of(const CLI::App& app) {
  std::vector<option_group> out;
  const auto add = [&out, &app](const std::string& title, const auto& belongs) {
    auto options = app.get_options(belongs);
    if (!title.empty() && !options.empty()) out.push_back({title, std::move(options)});
  };
  add("Arguments", [](const CLI::Option* o) { return o->get_positional(); });
  for (const std::string& title : app.get_groups())
    add(title,
        [&title](const CLI::Option* o) { return o->get_group() == title && o->nonpositional(); });
  return out;
}

std::string synopsis_of(const CLI::App& app) {
  std::string arguments;
  std::string needed;
  std::string more;
  for (const CLI::Option* o : app.get_options()) {
    const option_words words = words_of(*o);
    if (o->get_positional()) {
      const std::string name = words.name + (takes_many(*o) ? "..." : "");
      arguments += o->get_required() ? " " + name : " [" + name + "]";
    } else if (o->get_required()) {
      needed += " " + words.name + " " + words.value;
    } else if (!is_help(app, *o)) {
      more = " [options]";
    }
  }
  if (!app.get_subcommands([](const CLI::App*) { return true; }).empty())
    arguments += app.get_require_subcommand_min() == 0 ? " [COMMAND]" : " COMMAND";
  return arguments + needed + more;
}

std::string shared_options_of(const CLI::App& command) {
  const CLI::App* program = command.get_parent();
  if (program == nullptr) return "";
  while (program->get_parent() != nullptr)
    program = program->get_parent();
  std::string out;
  for (const CLI::Option* o : program->get_options()) {
    const bool own = command.get_option_no_throw(o->get_name()) != nullptr;
    const bool shared = o->get_group() == of_every_command && is_given_a_value(*o) && !own;
    if (shared) out += (out.empty() ? "" : ", ") + o->get_name();
  }
  return out;
}

} // namespace qb::help
