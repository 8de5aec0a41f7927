// The command `people`: the list, and each change of it as an entry of its own.
#include "app/lab/own/own_commands.hpp"

#include "core/base/text.hpp"
#include "core/seal/minisign.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

std::string print_of(const std::string& key) {
  const auto read = seal::read_public_key(key);
  return read ? seal::fingerprint(seal::named(read->key).id) : std::string();
}

int show(const own_laboratory& own, const shared_options& shared, const console& to) {
  json::array list;
  std::string text;
  for (const person_at_work& p : own.people) {
    const std::string print = print_of(p.key);
    list.push_back(json::object{{"name", p.name},
                                {"code", p.code},
                                {"bench", p.roles.bench},
                                {"reader", p.roles.reader},
                                {"key", json::text_or_null(p.key)},
                                {"fingerprint", json::text_or_null(print)}});
    text += fmt::format("{}  ({}, {}){}\n", p.name, p.code, roles_text(p.roles),
                        print.empty() ? "" : "  signs with the key " + print);
  }
  if (text.empty()) text = "nobody: no laboratory is set up in this store (`set-up`)\n";
  to.out(shared.format == output_format::json
             ? json::pretty(json::object{{"people", std::move(list)}})
             : text);
  return 0;
}

// The rows that the change is, and the list as it would then be.
result<std::vector<person_row>> changed(std::vector<person_at_work>& list,
                                        const people_options& o) {
  std::vector<person_row> out;
  const auto find = [&](const std::string& named) {
    return std::find_if(list.begin(), list.end(), [&](const person_at_work& p) {
      return p.name == named || p.code == named;
    });
  };
  if (!o.leave.empty()) {
    const auto one = find(trimmed(o.leave));
    if (one == list.end())
      return tl::unexpected(refusal{refusal_kind::missing, "", "--leaves",
                                    "a name that is not on the list", "one that `people` shows"});
    out.push_back({one->name, one->code, "none", one->key, one->key_file, "", ""});
    list.erase(one);
  }
  if (!o.add.empty()) {
    auto next = read_person_at_work(o.add);
    if (!next) return tl::unexpected(next.error());
    const auto before = find(next->name);
    if (before != list.end() && before->name == next->name) { // told anew: their key stays theirs
      next->key = before->key;
      next->key_file = before->key_file;
      list.erase(before);
    }
    out.push_back(
        {next->name, next->code, roles_text(next->roles), next->key, next->key_file, "", ""});
    list.push_back(std::move(*next));
  }
  return out;
}

} // namespace

int change_people(const shared_options& shared, const lab_context_options& at,
                  const people_options& o, const console& to) {
  const auto own = load_own_laboratory(shared.store);
  if (!own) return say_no(own.error(), to);
  if (o.add.empty() && o.leave.empty()) return show(*own, shared, to);
  if (!own->is_set_up)
    return say_no({refusal_kind::not_now, shared.store, "people", "no laboratory",
                   "one that `set-up` set up, with its first people"},
                  to);
  const auto who = acting_person(own->list(), at.by, work_act::change_people);
  if (!who) return say_no(who.error(), to);
  std::vector<person_at_work> list = own->people;
  auto rows = changed(list, o);
  if (!rows) return say_no(rows.error(), to);
  if (const auto good = check_people(list); !good) return say_no(good.error(), to);
  for (person_row& row : *rows) {
    row.by = who->name;
    row.at = clock_moment();
  }
  auto db = laboratory_store::open(shared.store);
  if (!db) return say_no(db.error(), to);
  if (const auto kept = db->put(laboratory_rows{{}, *rows}); !kept) return say_no(kept.error(), to);
  const auto after = load_own_laboratory(shared.store);
  if (!after) return say_no(after.error(), to);
  return show(*after, shared, to);
}

} // namespace qb::lab
