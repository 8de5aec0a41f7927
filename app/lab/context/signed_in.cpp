// The file at-this-bench: three lines, since when, the store and the name.
#include "app/lab/context/signed_in.hpp"

#include "app/lab/context/lab_context.hpp"
#include "app/machine/files.hpp"
#include "app/machine/surroundings.hpp"
#include "core/time/zone.hpp"

#include <filesystem>

namespace qb::lab {

namespace {

constexpr std::chrono::hours longest_shift{16}; // so that nobody is taken for who went home

result<std::string> bench_file() {
  const auto folder = user_data_folder(program_name);
  if (!folder) return folder;
  return *folder + "/at-this-bench";
}

std::string whole_path(const std::string& store) {
  std::error_code no_matter;
  const auto out = std::filesystem::weakly_canonical(store, no_matter);
  return no_matter ? store : out.string();
}

// The next line of `text`, which is taken from it.
std::string take_line(std::string& text) {
  const std::size_t end = std::min(text.find('\n'), text.size());
  std::string out = text.substr(0, end);
  text.erase(0, end + 1);
  return out;
}

} // namespace

result<std::optional<signed_in>> who_is_signed_in(const std::string& store, instant now) {
  const auto file = bench_file();
  // Without a folder of the user's nobody can have signed in.
  if (!file) return std::optional<signed_in>();
  auto text = read_file(*file);
  if (!text && text.error().kind == refusal_kind::missing) return std::optional<signed_in>();
  if (!text) return tl::unexpected(text.error());
  const auto since = parse_rfc3339_utc(take_line(*text));
  signed_in out;
  out.store = take_line(*text);
  out.who = take_line(*text);
  if (!since || out.who.empty())
    return tl::unexpected(
        refusal{refusal_kind::malformed, *file, "", "another text", "what sign-in wrote"});
  if (out.store != whole_path(store)) return std::optional<signed_in>();
  out.since = *since;
  out.over = now < out.since || now - out.since > longest_shift;
  return std::optional(out);
}

result<void> sign_in(const std::string& store, const std::string& who, instant now) {
  const auto file = bench_file();
  if (!file) return tl::unexpected(file.error());
  const auto folder = std::filesystem::path(*file).parent_path().string();
  if (const auto made = make_folder(folder); !made) return made;
  return write_file(*file, rfc3339_utc(now) + "\n" + whole_path(store) + "\n" + who + "\n");
}

result<void> sign_out() {
  const auto file = bench_file();
  if (!file) return {};
  std::error_code none;
  if (!std::filesystem::exists(*file, none)) return {};
  return remove_file(*file);
}

} // namespace qb::lab
