// Reading the folder of codes.
#include "app/lab/context/code_files.hpp"

#include "app/lab/intake/inputs.hpp"
#include "app/machine/files.hpp"

#include <algorithm>
#include <fmt/core.h>

namespace qb::lab {

namespace {

result<fhir::code_file> read_codes(const std::string& path) {
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto file = fhir::read_code_file(*text);
  if (!file) return tl::unexpected(in_file(file.error(), path));
  return file;
}

} // namespace

result<fhir::code_list> load_codes(const std::string& assets) {
  const std::string folder = assets + "/codes";
  const found_inputs found = find_inputs({folder});
  if (!found.refused.empty()) return tl::unexpected(found.refused.front());
  std::vector<fhir::code_file> files;
  for (const found_file& one : found.files) {
    auto file = read_codes(one.path);
    if (!file) return tl::unexpected(file.error());
    files.push_back(std::move(*file));
  }
  auto all = fhir::code_list::of(std::move(files));
  if (!all) return tl::unexpected(in_file(all.error(), folder));
  return all;
}

int check_code_files(const std::vector<std::string>& files, const console& to) {
  int status = 0;
  for (const std::string& path : files) {
    const auto file = read_codes(path);
    to.out(file ? path + ": ok\n" : fmt::format("{}: refused: {}\n", path, sentence(file.error())));
    if (!file) status = std::max(status, exit_status(file.error()));
  }
  return status;
}

} // namespace qb::lab
