// Reading the ranges, and holding a protocol against them.
#include "core/protocol/figures.hpp"

#include "core/protocol/rule_reader.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <limits>

namespace qb::inline protocols {

namespace {

using json::fields;

std::optional<figure_range> read_range(fields& f, const char* key) {
  if (!f.has(key)) return std::nullopt;
  const auto two = f.integers(key, 2, 2, 0, std::numeric_limits<int>::max());
  if (two.size() != 2) return std::nullopt;
  if (two[0] > two[1]) f.refuse(key, "a range that falls", "the least, then the most");
  return figure_range{static_cast<int>(two[0]), static_cast<int>(two[1])};
}

known_figure read_figure(const json::value& v, fields& up, const char* key, rule_reader& rules) {
  fields f(v, up.place(key));
  known_figure out;
  out.usual = read_range(f, "usual");
  if (const auto allowed = read_range(f, "allowed"))
    out.allowed = *allowed;
  else
    f.refuse("allowed", "nothing", "two whole numbers");
  if (!f.failed() && out.usual &&
      (!out.allowed.has(out.usual->least) || !out.allowed.has(out.usual->most)))
    f.refuse("usual", "more than is allowed", "a range within the allowed one");
  out.source = rules.source_id(f, "source");
  up.absorb(f.finish());
  return out;
}

sugar_figures read_sugar(fields& f, rule_reader& rules) {
  const auto figure = [&](const char* key) {
    const json::value* v = f.child(key);
    return v == nullptr ? known_figure{} : read_figure(*v, f, key, rules);
  };
  sugar_figures out;
  out.name = f.text("name");
  out.dose_g = figure("dose_g");
  if (f.has("syrup_mg_in_ml")) out.syrup_mg_in_ml = figure("syrup_mg_in_ml");
  out.water_ml = figure("water_ml");
  out.last_tube_min = figure("last_tube_min");
  out.gap_min = figure("gap_min");
  out.fast_min = figure("fast_min");
  return out;
}

// Holds one protocol's figures against one sugar's.
class held_figures {
public:
  held_figures(const protocol& p, const figure_rules& rules)
      : p_(p), any_other_(rules.sugars.back()), sugar_(any_other_) {
    for (const sugar_figures& one : rules.sugars)
      if (one.name == p.sugar.name) sugar_ = one;
  }

  std::vector<odd_figure> odd() {
    // Old records are read for ever; nobody is asked as little any more.
    if (p_.version < protocol::with_safety)
      say("version", fmt::format("version {}", p_.version),
          fmt::format("version {}", protocol::with_safety), false);
    const substrate& s = p_.sugar;
    hold(s.why.rule, s.dose_g, "g of " + s.name, sugar_.dose_g);
    for (const sugar_form& form : s.forms)
      hold_form(form);
    hold(s.water_why.rule, s.water_ml, "ml of water", sugar_.water_ml);
    hold_grid();
    hold_fast();
    return out_;
  }

private:
  void hold(const std::string& rule, int figure, const std::string& unit,
            const known_figure& known) {
    if (known.usual && known.usual->has(figure)) return;
    const figure_range& shown = known.usual ? *known.usual : known.allowed;
    say(rule, fmt::format("{} {}", figure, unit),
        fmt::format("{}{} ({})", known.usual ? "" : "a name for it, and ",
                    shown.least == shown.most ? fmt::format("{}", shown.least)
                                              : fmt::format("{} to {}", shown.least, shown.most),
                    known.source),
        known.allowed.has(figure));
  }

  // The parts of one dose agree: what is printed on the packet is the dose and not more.
  void hold_form(const sugar_form& form) {
    const int dose = p_.sugar.dose_g;
    const std::string found = fmt::format("{} {} of {}", form.amount, form.unit, form.form);
    if (form.unit == "g") {
      // A powder is the sugar itself; a syrup weighed holds water too.
      if (form.amount == dose) return;
      constexpr int most_times = 2;
      say(form.why.rule, found, fmt::format("{} g, as the dose", dose),
          form.form == "syrup" && form.amount > dose && form.amount <= most_times * dose);
      return;
    }
    const known_figure& known =
        sugar_.syrup_mg_in_ml ? *sugar_.syrup_mg_in_ml : *any_other_.syrup_mg_in_ml;
    hold(form.why.rule, dose * 1000 / form.amount,
         fmt::format("mg in 1 ml ({} for {} g)", found, dose), known);
  }

  void hold_grid() {
    int least = p_.offsets.size() > 1 ? std::numeric_limits<int>::max() : 0;
    int most = 0;
    for (std::size_t i = 1; i < p_.offsets.size(); ++i) {
      const int gap = static_cast<int>((p_.offsets[i] - p_.offsets[i - 1]).count());
      least = std::min(least, gap);
      most = std::max(most, gap);
    }
    const std::string& rule = p_.grid_why.rule;
    hold(rule, static_cast<int>(p_.offsets.back().count()), "min to the last tube",
         sugar_.last_tube_min);
    hold(rule, least, "min between two tubes", sugar_.gap_min);
    if (most != least) hold(rule, most, "min between two tubes", sugar_.gap_min);
  }

  // A fast is a window in which nothing fits the test but drinks. Version 1 does not say what fits.
  void hold_fast() {
    if (p_.version < protocol::with_safety) return;
    bool any = false;
    for (const preparation_window& w : p_.windows) {
      if (!w.eat || !w.eat->empty() || !w.drink) continue;
      any = true;
      hold(w.why.rule, static_cast<int>(w.asked().count()), "min without food", sugar_.fast_min);
    }
    if (!any) hold("fast", 0, "min without food", sugar_.fast_min);
  }

  void say(const std::string& rule, std::string found, std::string expected, bool allowed) {
    const auto of_it = [&rule](const confirmed_figure& one) { return one.rule == rule; };
    const bool confirmed = std::any_of(p_.confirmed.begin(), p_.confirmed.end(), of_it);
    if (!allowed || !confirmed)
      out_.push_back({rule, std::move(found), std::move(expected), allowed});
  }

  const protocol& p_;
  const sugar_figures& any_other_;
  sugar_figures sugar_;
  std::vector<odd_figure> out_;
};

} // namespace

result<figure_rules> read_figure_rules(std::string_view text) {
  const auto parsed = json::parse(text);
  if (!parsed) return tl::unexpected(parsed.error());
  fields f(*parsed, "");
  check_format(f, "quarterbreath-figures");
  figure_rules out;
  rule_reader rules(f, out.sources);
  constexpr std::size_t most_sugars = 40;
  rules.each(f, "sugars", 1, most_sugars,
             [&](fields& one) { out.sugars.push_back(read_sugar(one, rules)); });
  if (!f.failed() &&
      (out.sugars.back().name != any_other_sugar || !out.sugars.back().syrup_mg_in_ml))
    f.refuse("sugars", "no last one for any other sugar",
             fmt::format("the last named \"{}\", with a syrup", any_other_sugar));
  if (const auto no = f.finish()) return tl::unexpected(*no);
  return out;
}

std::vector<odd_figure> odd_figures(const protocol& p, const figure_rules& rules) {
  return held_figures(p, rules).odd();
}

result<void> check_figures(const protocol& p, const figure_rules& rules) {
  const std::vector<odd_figure> odd = odd_figures(p, rules);
  if (odd.empty()) return {};
  const auto worst =
      std::find_if(odd.begin(), odd.end(), [](const odd_figure& one) { return !one.allowed; });
  const odd_figure& first = worst == odd.end() ? odd.front() : *worst;
  return tl::unexpected(refusal{
      refusal_kind::out_of_range, "", first.rule, first.found,
      first.expected + (first.allowed ? ", or confirmed by name" : "; nobody may confirm this")});
}

} // namespace qb::inline protocols
