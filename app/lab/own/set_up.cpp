// The command `set-up`: once, and whenever something of it changes. Nothing is forgotten.
#include "app/assets/assets.hpp"
#include "app/lab/own/own_commands.hpp"
#include "app/machine/files.hpp"
#include "core/receiving/reading_layout.hpp"

#include <algorithm>
#include <filesystem>
#include <fmt/core.h>

namespace qb::lab {

namespace {

refusal no_set_up(const char* option, std::string found, std::string expected) {
  return {refusal_kind::missing, "", option, std::move(found), std::move(expected)};
}

std::string absolute(const std::string& path) {
  std::error_code no_matter;
  if (path.empty()) return path;
  return std::filesystem::absolute(path, no_matter).lexically_normal().string();
}

bool is_path(const std::string& profile) {
  return profile.find('/') != profile.npos ||
         (profile.size() > 5 && profile.substr(profile.size() - 5) == ".json");
}

bool tells_anything(const set_up_options& o) {
  return !o.profile.empty() || !o.assets.empty() || !o.zone.empty() || !o.identity.empty() ||
         !o.layout.empty() || !o.people.empty() || !o.inbox.empty() || !o.tables.empty() ||
         !o.reports.empty();
}

// Whether that very person is on the list, so that the same set-up may be told twice.
bool is_told(const std::vector<person_at_work>& people, const person_at_work& one) {
  return std::any_of(people.begin(), people.end(), [&](const person_at_work& p) {
    return p.name == one.name && p.code == one.code && roles_text(p.roles) == roles_text(one.roles);
  });
}

// What counts after this: as it was, with what was given in its place.
result<own_laboratory> wanted_of(const own_laboratory& before, const set_up_options& o) {
  own_laboratory out = before;
  if (!o.profile.empty()) out.profile = is_path(o.profile) ? absolute(o.profile) : o.profile;
  if (!o.assets.empty()) out.assets = absolute(o.assets);
  if (!o.zone.empty()) out.zone = o.zone;
  if (!o.identity.empty()) out.identity = absolute(o.identity);
  if (!o.layout.empty()) out.layout = absolute(o.layout);
  for (const auto& [given, into] :
       {std::pair{&o.inbox, &out.inbox}, {&o.tables, &out.tables}, {&o.reports, &out.reports}})
    if (!given->empty()) *into = absolute(*given);
  for (const std::string& text : o.people) {
    auto one = read_person_at_work(text);
    if (!one) return tl::unexpected(one.error());
    if (!is_told(before.people, *one)) out.people.push_back(std::move(*one));
  }
  if (out.profile.empty())
    return tl::unexpected(
        no_set_up("--profile", "no profile", "the laboratory's own: an id, or a file"));
  if (const auto good = check_people(out.people); !good) return tl::unexpected(good.error());
  return out;
}

// That every part is there and can be used.
result<void> check(const own_laboratory& wanted, const set_up_options& o,
                   const shared_options& shared, const lab_context_options& at) {
  const std::string& assets = wanted.assets.empty() ? at.assets : wanted.assets;
  const auto profile = load_profile(assets, wanted.profile);
  if (!profile) return tl::unexpected(profile.error());
  if (profile->value.for_trying && !o.trying)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "--profile",
                                  profile->value.id + ", an invented laboratory's",
                                  "your own; or --for-trying, and every output is marked"});
  if (!wanted.zone.empty()) {
    if (const auto zone = shared.zones(wanted.zone); !zone) return tl::unexpected(zone.error());
  }
  if (!wanted.identity.empty()) {
    if (const auto file = read_file(wanted.identity); !file) return tl::unexpected(file.error());
  }
  if (!wanted.layout.empty()) {
    const auto file = read_file(wanted.layout);
    if (!file) return tl::unexpected(file.error());
    if (const auto layout = read_reading_layout(*file); !layout)
      return tl::unexpected(in_file(layout.error(), wanted.layout));
  }
  for (const std::string* folder : {&wanted.inbox, &wanted.tables, &wanted.reports}) {
    std::error_code none;
    if (!folder->empty() && !std::filesystem::is_directory(*folder, none))
      return tl::unexpected(
          refusal{refusal_kind::missing, *folder, "", "no folder", "one that is there"});
  }
  return {};
}

laboratory_rows rows_of(const own_laboratory& before, const own_laboratory& wanted,
                        const std::string& by, const std::string& at) {
  laboratory_rows out;
  const auto put = [&](const char* name, const std::string& was, const std::string& is) {
    if (was != is) out.settings.push_back({name, is, by, at});
  };
  put("profile", before.profile, wanted.profile);
  put("assets", before.assets, wanted.assets);
  put("zone", before.zone, wanted.zone);
  put("identity", before.identity, wanted.identity);
  put("layout", before.layout, wanted.layout);
  put("inbox", before.inbox, wanted.inbox);
  put("tables", before.tables, wanted.tables);
  put("reports", before.reports, wanted.reports);
  for (std::size_t i = before.people.size(); i < wanted.people.size(); ++i) {
    const person_at_work& p = wanted.people[i];
    out.people.push_back({p.name, p.code, roles_text(p.roles), "", "", by, at});
  }
  return out;
}

int show(const own_laboratory& own, const shared_options& shared, const console& to) {
  if (shared.format == output_format::json) {
    to.out(json::pretty(json::object{{"set_up", own.is_set_up},
                                     {"store", shared.store},
                                     {"profile", json::text_or_null(own.profile)},
                                     {"assets", json::text_or_null(own.assets)},
                                     {"zone", json::text_or_null(own.zone)},
                                     {"identity", json::text_or_null(own.identity)},
                                     {"layout", json::text_or_null(own.layout)},
                                     {"inbox", json::text_or_null(own.inbox)},
                                     {"tables", json::text_or_null(own.tables)},
                                     {"reports", json::text_or_null(own.reports)},
                                     {"people", static_cast<std::int64_t>(own.people.size())}}));
    return 0;
  }
  if (!own.is_set_up) {
    to.out("no laboratory is set up in " + shared.store + "\n");
    return 0;
  }
  const auto line = [](const char* name, const std::string& value, const char* without) {
    return fmt::format("{:<10}{}\n", name, value.empty() ? without : value);
  };
  to.out(line("store", shared.store, "") + line("profile", own.profile, "") +
         line("assets", own.assets, "those of the program") +
         line("zone", own.zone, "this machine's") + line("identity", own.identity, "none") +
         line("readings", own.layout, "plain tables") + line("inbox", own.inbox, "none") +
         line("tables", own.tables, "none") + line("reports", own.reports, "none") +
         fmt::format("{:<10}{} (`people` shows them)\n", "people", own.people.size()));
  return 0;
}

} // namespace

int set_up_laboratory(const shared_options& shared, const lab_context_options& at,
                      const set_up_options& o, const console& to) {
  const auto before = load_own_laboratory(shared.store);
  if (!before) return say_no(before.error(), to);
  if (!tells_anything(o) && !o.usual) return show(*before, shared, to);
  if (tells_anything(o)) {
    const auto wanted = wanted_of(*before, o);
    if (!wanted) return say_no(wanted.error(), to);
    // The first time the one who says it is among the people who are told.
    const auto who = acting_person(before->is_set_up ? &before->people : &wanted->people, at.by,
                                   work_act::set_up);
    if (!who) return say_no(who.error(), to);
    if (const auto good = check(*wanted, o, shared, at); !good) return say_no(good.error(), to);
    if (const auto made = make_private_file(shared.store); !made) return say_no(made.error(), to);
    auto db = laboratory_store::open(shared.store);
    if (!db) return say_no(db.error(), to);
    const auto kept = db->put(rows_of(*before, *wanted, who->name, clock_moment()));
    if (!kept) return say_no(kept.error(), to);
  }
  if (o.usual) {
    const auto named = set_usual_store(absolute(shared.store));
    if (!named) return say_no(named.error(), to);
  }
  const auto after = load_own_laboratory(shared.store);
  if (!after) return say_no(after.error(), to);
  return show(*after, shared, to);
}

} // namespace qb::lab
