// The commands `sign-in` and `sign-out`, and what a sign-in spares other commands.
#include "app/lab/context/signed_in.hpp"
#include "app/lab/own/own_commands.hpp"
#include "app/machine/clocks.hpp"
#include "core/base/text.hpp"

#include <fmt/core.h>

namespace qb::lab {

namespace {

instant clock_now() {
  return std::chrono::floor<std::chrono::seconds>(from_unix_ms(read_clocks().wall_ms));
}

std::string since_text(const signed_in& s) {
  return fmt::format("{} has been signed in here since {}{}", s.who, rfc3339_utc(s.since),
                     s.over ? ", longer ago than a shift: sign in again" : "");
}

// Who is here, and who may be chosen.
int show_bench(const own_laboratory& own, const shared_options& shared, const console& to) {
  const auto here = who_is_signed_in(shared.store, clock_now());
  if (!here) return say_no(here.error(), to);
  if (shared.format == output_format::json) {
    const bool any = here->has_value() && !(*here)->over;
    to.out(json::pretty(
        json::object{{"signed_in", any ? json::value((*here)->who) : json::value(nullptr)}}));
    return 0;
  }
  std::string text = *here ? since_text(**here) + "\n" : "nobody is signed in at this bench\n";
  for (const person_at_work& p : own.people)
    text += fmt::format("  {:<4}{} ({})\n", p.code, p.name, roles_text(p.roles));
  to.out(text);
  return 0;
}

} // namespace

int sign_in_here(const shared_options& shared, const std::string& who, const console& to) {
  const auto own = load_own_laboratory(shared.store);
  if (!own) return say_no(own.error(), to);
  if (!own->is_set_up)
    return say_no(refusal{refusal_kind::not_now, "", "sign-in", "no laboratory is set up",
                          "a list of people to choose from (`set-up`)"},
                  to);
  if (trimmed(who).empty()) return show_bench(*own, shared, to);
  const auto one = person_on_list(own->people, who);
  if (!one) return say_no(one.error(), to);
  if (const auto done = sign_in(shared.store, one->name, clock_now()); !done)
    return say_no(done.error(), to);
  to.out(fmt::format("{} is signed in at this bench; sign-out ends it\n", one->name));
  return 0;
}

int sign_out_here(const console& to) {
  if (const auto done = sign_out(); !done) return say_no(done.error(), to);
  to.out("nobody is signed in at this bench\n");
  return 0;
}

result<std::string> person_at_bench(const shared_options& shared, const console& to) {
  const auto own = load_own_laboratory(shared.store);
  if (!own) return tl::unexpected(own.error());
  if (!own->is_set_up) return std::string();
  const auto here = who_is_signed_in(shared.store, clock_now());
  if (!here) return tl::unexpected(here.error());
  if (!*here) return std::string();
  if ((*here)->over) {
    to.err("quarterbreath-lab: note: " + since_text(**here) + "\n");
    return std::string();
  }
  to.err("quarterbreath-lab: by " + (*here)->who + ", who is signed in at this bench\n");
  return (*here)->who;
}

} // namespace qb::lab
