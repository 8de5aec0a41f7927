// Words with a name and a colon before each.
#include "core/report/signed_words.hpp"

#include "core/report/same_test.hpp"

#include <cctype>
#include <fmt/core.h>

namespace qb::inline reports {

namespace {

// As two writers of one number may have it.
bool same_number(const std::string& a, const std::string& b) {
  const auto bare = [](const std::string& text) {
    std::string out;
    for (const char c : text)
      if (std::isalnum(static_cast<unsigned char>(c)) != 0)
        out += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return out;
  };
  return bare(a) == bare(b);
}

} // namespace

signed_log signed_log_of(std::string_view bytes, const read_log_result& log) {
  signed_log out{bytes, {}, test_id_of(log), log.head, log.events.size(), is_rehearsal(log)};
  for (const event& e : log.events)
    if (const auto* told = std::get_if<reported_person>(&e.what)) out.kit_number = told->kit_number;
  return out;
}

std::string plain_number(const std::string& number) {
  std::string safe;
  for (const char c : number) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-') safe += c;
  }
  return safe.empty() ? "kit" : safe;
}

std::string signed_words(const signed_log& log, instant exported, const std::string& key) {
  return fmt::format("quarterbreath {}kit:{} test:{} events:{} chain:{} exported:{} key:{}",
                     log.rehearsal ? "practice " : "", plain_number(log.kit_number),
                     plain_number(log.test_id), log.events, log.head, rfc3339_utc(exported), key);
}

std::string signed_word(const std::string& comment, std::string_view name) {
  const std::string mark = fmt::format(" {}:", name);
  const std::size_t at = comment.find(mark);
  if (at == std::string::npos) return {};
  const std::size_t from = at + mark.size();
  return comment.substr(from, comment.find(' ', from) - from);
}

std::optional<std::string> signed_for_another(const std::string& comment, const signed_log& log) {
  const std::string kit = signed_word(comment, "kit");
  const std::string test = signed_word(comment, "test");
  const std::string events = signed_word(comment, "events");
  const std::string chain = signed_word(comment, "chain");
  if (kit.empty() || chain.empty()) return "it names no test";
  if (!same_number(kit, plain_number(log.kit_number))) return "it names another kit";
  if (!test.empty() && test != plain_number(log.test_id)) return "it names another test";
  if (!events.empty() && events != fmt::format("{}", log.events))
    return "it names another number of events";
  if (chain != log.head) return "it names another end of the record";
  return std::nullopt;
}

} // namespace qb::inline reports
