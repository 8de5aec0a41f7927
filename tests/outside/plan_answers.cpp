// Answers questions about plans, one a line, for a reader of another make to check.
// Kept to reading and printing: what is checked is core/plan, not this.
//
// Usage: plan_answers FOLDER PROTOCOL_FILE    Questions on standard input, answers on standard
// output:
//   plan ZONE DATE TIME      -> one PLAN | two PLAN | PLAN | none BEFORE AFTER
//   shown ZONE DATE TIME IN  -> one PLAN as clocks of zone IN show the same instants
//   first ZONE DATE RULE NOW -> the earliest start after that last dose, asked at NOW in Unix
//   seconds hours ZONE WEEKDAY FROM TO NOW -> the earliest start at home on that weekday between
//   two minutes
//                               of the day, all preparation kept, or "nothing"
// PLAN: start, then windows' from and until, last doses, samples, day to post, with commas between.
#include "core/plan/earliest.hpp"

#include <fmt/core.h>
#include <fstream>
#include <iostream>
#include <map>
#include <sstream>

namespace {

using namespace qb;

std::string whole_file(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream bytes;
  bytes << in.rdbuf();
  return bytes.str();
}

class zones {
public:
  explicit zones(std::string folder) : folder_(std::move(folder)) {}
  const zone& named(const std::string& name) {
    const auto known = all_.find(name);
    if (known != all_.end()) return known->second;
    return all_.emplace(name, zone::read(name, whole_file(folder_ + "/" + name)).value())
        .first->second;
  }

private:
  std::string folder_;
  std::map<std::string, zone> all_;
};

// The plan as it was made in its zone, its instants as clocks of another show them.
std::string plan_text(const protocol& test, instant start, const zone& z, const zone& shown_in) {
  const auto made = make_plan(test, start, z);
  if (!made) return sentence(made.error());
  const auto at = [&](instant t) { return rfc3339(t, shown_in).value_or("?"); };
  std::string out = at(made->start);
  for (const planned_window& w : made->windows)
    out += "," + at(w.from) + "," + at(w.until);
  for (const planned_washout& w : made->washouts)
    out += "," + date_text(w.last_dose_on_or_before);
  for (const planned_sample& s : made->samples)
    out += "," + at(s.due);
  return out + "," + date_text(made->post_on_or_before);
}

std::string planned(const protocol& test, civil_time start, const zone& z, const zone& shown_in) {
  const auto plan_of = [&](fold which) {
    return plan_text(test, resolve_start(start, z, which).value(), z, shown_in);
  };
  const civil_meaning m = z.meaning_of(start);
  if (const auto* none = std::get_if<missing_time>(&m)) {
    const bool refused = !resolve_start(start, z, fold::first);
    return fmt::format("{} {} {}", refused ? "none" : "taken", civil_text(none->before),
                       civil_text(none->after));
  }
  if (const auto once = resolve_start(start, z, fold::unasked))
    return "one " + plan_text(test, *once, z, shown_in);
  return "two " + plan_of(fold::first) + " | " + plan_of(fold::second);
}

std::string first_start(const protocol& test, civil_date last_dose, const std::string& rule,
                        instant now, const zone& z) {
  circumstances c;
  c.washouts = {{rule, washout_answer::last_on, last_dose, false}};
  const earliest_start first = find_earliest(test, c, now, z);
  return first.at ? rfc3339(*first.at, z).value_or("?") : "nothing";
}

std::string first_at_home(const protocol& test, int weekday, const day_hours& hours, instant now,
                          const zone& z) {
  circumstances c;
  for (const preparation_window& w : test.windows)
    c.moments.push_back({w.why.rule, now - w.from});
  c.home = {{{weekday}, hours}};
  const earliest_start first = find_earliest(test, c, now, z);
  return first.at ? rfc3339(*first.at, z).value_or("?") : "nothing";
}

std::string answer(const protocol& test, zones& all, std::istream& question) {
  std::string kind;
  std::string name;
  std::string date;
  std::string time;
  question >> kind >> name;
  const zone& z = all.named(name);
  std::int64_t now = 0;
  if (kind == "hours") {
    int weekday = 0;
    int from = 0;
    int to = 0;
    question >> weekday >> from >> to >> now;
    return first_at_home(test, weekday, {std::chrono::minutes{from}, std::chrono::minutes{to}},
                         from_unix_ms(now * 1000), z);
  }
  question >> date >> time;
  if (kind == "first") {
    question >> now;
    return first_start(test, parse_date(date).value(), time, from_unix_ms(now * 1000), z);
  }
  const civil_time start = parse_civil(date + " " + time).value();
  if (kind == "plan") return planned(test, start, z, z);
  question >> name;
  return planned(test, start, z, all.named(name));
}

} // namespace

int main(int argc, char** argv) {
  if (argc != 3) return 2;
  const auto test = qb::read_protocol(whole_file(argv[2]));
  if (!test) {
    fmt::print(stderr, "{}\n", qb::sentence(test.error()));
    return 1;
  }
  zones all(argv[1]);
  std::string line;
  while (std::getline(std::cin, line)) {
    std::istringstream question(line);
    fmt::print("{}\n", answer(*test, all, question));
  }
  return 0;
}
