// Reading the folders that `judge` goes by.
#include "app/lab/context/judge_assets.hpp"

#include "app/assets/assets.hpp"
#include "app/machine/files.hpp"
#include "core/findings/rules.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

// The file's text through one of the strict readers, the file named in its refusal.
template <typename T>
result<T> read_with(const std::string& path, result<T> (*read)(std::string_view)) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto value = read(*text);
  if (!value) return tl::unexpected(in_file(value.error(), path));
  return value;
}

} // namespace

result<std::shared_ptr<const judging_rules>> load_judging_rules(const std::string& assets) {
  auto out = std::make_shared<judging_rules>();
  auto criteria = load_criteria(assets);
  if (!criteria) return tl::unexpected(criteria.error());
  out->criteria = std::move(*criteria);
  auto flags = read_with(assets + "/flags/gases.json", read_flag_rules);
  if (!flags) return tl::unexpected(flags.error());
  out->flags = std::move(*flags);
  return out;
}

int check_judging_files(const std::string& kind, const std::vector<std::string>& files,
                        const console& to) {
  int status = 0;
  for (const std::string& file : files) {
    std::optional<refusal> no;
    if (kind == "criterion") {
      if (const auto read = read_with(file, read_criterion); !read) no = read.error();
    } else if (kind == "findings") {
      if (const auto read = read_with(file, read_finding_rules); !read) no = read.error();
    } else if (const auto read = read_with(file, read_flag_rules); !read) {
      no = read.error();
    }
    to.out(no ? fmt::format("{}: refused: {}\n", file, sentence(*no)) : file + ": ok\n");
    if (no) status = std::max(status, exit_status(*no));
  }
  return status;
}

} // namespace qb::lab
