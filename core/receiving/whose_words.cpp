// The names of tests, and what came between two looks at a kit.
#include "core/receiving/whose.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::inline receiving {

namespace {

constexpr std::size_t short_length = 6;

std::int64_t last_entry(std::int64_t so_far, std::int64_t entry) {
  return std::max(so_far, entry);
}

// Those of a list that have a higher entry than any before.
template <typename T>
std::vector<const T*> later(const std::vector<T>& before, const std::vector<T>& now) {
  std::int64_t seen = 0;
  for (const T& one : before)
    seen = last_entry(seen, one.mark.entry);
  std::vector<const T*> out;
  for (const T& one : now)
    if (one.mark.entry > seen) out.push_back(&one);
  return out;
}

std::string at_words(instant t) {
  std::string text = rfc3339_utc(t).substr(0, std::string("2027-04-12T10:00").size());
  std::replace(text.begin(), text.end(), 'T', ' ');
  return text + " UTC";
}

} // namespace

std::string sheet_test_id(const paper_record& sheet) {
  // FNV-1a of what was written, by whom and when: a name, no seal.
  constexpr std::uint64_t prime = 1099511628211ULL;
  std::uint64_t digest = 14695981039346656037ULL;
  for (const std::string& part :
       {sheet.kit, sheet.protocol, sheet.written, sheet.by, rfc3339_utc(sheet.entered)})
    for (const char c : part + "\n")
      digest = (digest ^ static_cast<unsigned char>(c)) * prime;
  return fmt::format("sheet-{:016x}", digest);
}

std::string short_test_id(const std::string& id) {
  return id.size() <= short_length ? id : id.substr(id.size() - short_length);
}

std::vector<std::string> came_between(const kit_rows& before, const kit_rows& now) {
  std::vector<std::string> out;
  for (const auto* a : later(before.arrivals, now.arrivals))
    out.push_back(fmt::format("{} told the box ({})", a->by, at_words(a->entered.value_or(a->at))));
  if (const auto n = later(before.scans, now.scans).size(); n > 0)
    out.push_back(fmt::format("{} tube{} scanned", n, n == 1 ? " was" : "s were"));
  for (const auto* p : later(before.papers, now.papers))
    out.push_back(fmt::format("{} entered a paper sheet ({})", p->by, at_words(p->entered)));
  std::string tubes;
  const auto read = later(before.readings, now.readings);
  for (const auto* r : read)
    tubes += fmt::format("{}{}", tubes.empty() ? "" : ", ", r->sample);
  if (!read.empty())
    out.push_back(fmt::format("{} reading{} came, of tube{} {}", read.size(),
                              read.size() == 1 ? "" : "s", read.size() == 1 ? "" : "s", tubes));
  for (const auto* c : later(before.choices, now.choices))
    out.push_back(fmt::format("{} chose between the readings of tube {} ({})", c->by, c->sample,
                              at_words(c->at)));
  for (const auto* o : later(before.overrides, now.overrides))
    out.push_back(fmt::format("{} {} {} ({})", o->by,
                              o->withdrawn ? "let stand again" : "set aside", o->rule,
                              at_words(o->at)));
  for (const auto* c : later(before.conclusions, now.conclusions))
    out.push_back(fmt::format("{} concluded ({})", c->by, at_words(c->at)));
  for (const auto* r : later(before.rulings, now.rulings))
    out.push_back(fmt::format("{} said of its {}{}: {} ({})", r->by, ruled_text(r->what),
                              r->tube > 0 ? fmt::format(" of tube {}", r->tube) : "",
                              row_word_text(r->says), at_words(r->at)));
  return out;
}

} // namespace qb::inline receiving
