// The table of who may do what, and finding a name in a list.
#include "core/laboratory/people.hpp"

#include "core/base/json_fields.hpp"
#include "core/base/text.hpp"

#include <algorithm>
#include <cctype>
#include <fmt/core.h>

namespace qb::inline laboratories {

namespace {

constexpr std::size_t most_name = 100;
constexpr std::size_t most_code = 12;

refusal no_person(std::string found, std::string expected) {
  return {refusal_kind::malformed, "", "--by", std::move(found), std::move(expected)};
}

std::string list_words(const std::vector<person_at_work>& people) {
  std::string out;
  for (const person_at_work& one : people)
    out += fmt::format("{}{} ({}, {})", out.empty() ? "" : "; ", one.name, one.code,
                       roles_text(one.roles));
  return out.empty() ? "nobody: `people` adds them" : out;
}

bool is_code(const std::string& text) {
  return !text.empty() && text.size() <= most_code &&
         std::all_of(text.begin(), text.end(),
                     [](unsigned char c) { return std::isalnum(c) != 0 || c == '-'; });
}

bool is_name(const std::string& text) {
  return !text.empty() && text == trimmed(text) && character_count(text) <= most_name &&
         json::is_plain_line(text);
}

} // namespace

const char* act_words(work_act act) {
  switch (act) {
  case work_act::receive: return "receive a box";
  case work_act::enter_paper: return "enter a sheet";
  case work_act::measure: return "take in readings";
  case work_act::choose: return "choose between readings";
  case work_act::settle: return "say whose a row is, or which log counts";
  case work_act::set_aside: return "set a finding aside";
  case work_act::conclude: return "conclude a test";
  case work_act::forget: return "forget a test";
  case work_act::issue_kits: return "issue kits";
  case work_act::take_requests: return "take in requests";
  case work_act::make_key: return "make a key to sign with";
  case work_act::set_up: return "set the laboratory up";
  case work_act::change_people: return "change the list of people";
  }
  QB_BELIEVE(false);
  return "";
}

bool may(const work_roles& roles, work_act act) {
  switch (act) {
  case work_act::receive:
  case work_act::enter_paper:
  case work_act::measure:
  case work_act::issue_kits:
  case work_act::take_requests: return roles.bench;
  case work_act::choose:
  case work_act::settle: return roles.bench || roles.reader;
  case work_act::set_aside:
  case work_act::conclude:
  case work_act::forget:
  case work_act::make_key:
  case work_act::set_up:
  case work_act::change_people: return roles.reader;
  }
  QB_BELIEVE(false);
  return false;
}

std::string roles_text(const work_roles& roles) {
  if (roles.bench) return roles.reader ? "bench+reader" : "bench";
  return roles.reader ? "reader" : "none";
}

std::optional<work_roles> read_roles(std::string_view text) {
  if (text == "bench") return work_roles{true, false};
  if (text == "reader") return work_roles{false, true};
  if (text == "bench+reader" || text == "reader+bench") return work_roles{true, true};
  return std::nullopt;
}

result<person_at_work> person_on_list(const std::vector<person_at_work>& people,
                                      const std::string& named) {
  const std::string name = composed(trimmed(named));
  const auto one = std::find_if(people.begin(), people.end(), [&](const person_at_work& p) {
    return !name.empty() && (folded(p.name) == folded(name) || folded(p.code) == folded(name));
  });
  if (one != people.end()) return *one;
  return tl::unexpected(no_person(name.empty() ? "no name" : "a name that is not on the list",
                                  "one of: " + list_words(people)));
}

result<person_at_work> acting_person(const std::vector<person_at_work>* people,
                                     const std::string& named, work_act act) {
  const std::string name = composed(trimmed(named));
  if (people == nullptr) {
    if (is_name(name)) return person_at_work{name, "", {}, "", ""};
    return tl::unexpected(
        no_person(name.empty() ? "no name" : "no plain name",
                  fmt::format("who does it, in at most {} characters", most_name)));
  }
  const auto one = person_on_list(*people, name);
  if (!one || may(one->roles, act)) return one;
  std::vector<person_at_work> able;
  for (const person_at_work& p : *people)
    if (may(p.roles, act)) able.push_back(p);
  return tl::unexpected(
      no_person(fmt::format("{}, whose role is {}", one->name, roles_text(one->roles)),
                fmt::format("somebody who may {}: {}", act_words(act), list_words(able))));
}

result<void> check_people(const std::vector<person_at_work>& people) {
  const auto no = [](std::string found, std::string expected) {
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", "people", std::move(found), std::move(expected)});
  };
  for (const person_at_work& a : people)
    for (const person_at_work& b : people) {
      if (&a == &b) continue;
      const bool name_twice = folded(a.name) == folded(b.name);
      if (name_twice || folded(a.code) == folded(b.code) || folded(a.code) == folded(b.name))
        return no(fmt::format("{} ({}) and {} ({})", a.name, a.code, b.name, b.code),
                  "names and codes that tell people apart");
    }
  if (std::none_of(people.begin(), people.end(),
                   [](const person_at_work& p) { return p.roles.reader; }))
    return no("no reader", "one reader at least, who may conclude and change this list");
  return {};
}

result<person_at_work> read_person_at_work(std::string_view text) {
  std::vector<std::string> parts{""};
  for (const char c : text) {
    if (c == '/')
      parts.emplace_back();
    else
      parts.back() += c;
  }
  const auto no = [](std::string found) {
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", "--person", std::move(found),
                "\"NAME / CODE / ROLES\": a code of letters, digits and hyphens; bench, reader or "
                "bench+reader"});
  };
  constexpr std::size_t all = 3;
  if (parts.size() != all) return no(fmt::format("{} parts between strokes", parts.size()));
  for (std::string& part : parts)
    part = trimmed(part);
  const auto roles = read_roles(parts[2]);
  if (!is_name(parts[0])) return no("no plain name");
  if (!is_code(parts[1])) return no("no such code");
  if (!roles) return no("other roles");
  return person_at_work{parts[0], parts[1], *roles, "", ""};
}

} // namespace qb::inline laboratories
