// Walking folders and reading files, with every answer of the system looked at.
#include "app/lab/intake/inputs.hpp"

#include "app/machine/files.hpp"
#include "app/machine/posix_file.hpp"

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>

namespace qb::lab {

namespace {

namespace fs = std::filesystem;

refusal no_file(const std::string& path, std::string found, std::string expected,
                refusal_kind kind = refusal_kind::malformed) {
  return {kind, path, "", std::move(found), std::move(expected)};
}

// What the system said about a path: a failing disk is the machine's fault, the rest the path's.
refusal system_refusal(const std::string& path, int why) {
  const bool machine = why == EIO || why == ENOMEM || why == EMFILE || why == ENFILE;
  return no_file(path, std::strerror(why), "a log that can be read",
                 machine ? refusal_kind::machine : refusal_kind::missing);
}

bool may_hold_a_log(const fs::path& path) {
  std::string ending = path.extension().string();
  for (char& c : ending)
    c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return ending == ".json" || ending == ".pdf" || ending == ".age";
}

// Below one folder, by name; folders in folders in their place among the names.
void walk(const fs::path& folder, found_inputs& out) {
  std::error_code no;
  std::vector<std::string> entries; // texts: a path holds its parts as well, and there may be many
  fs::directory_iterator at(folder, no);
  for (; !no && at != fs::directory_iterator(); at.increment(no))
    entries.push_back(at->path().string());
  if (no) {
    out.refused.push_back(system_refusal(folder.string(), no.value()));
    return;
  }
  std::sort(entries.begin(), entries.end());
  for (std::string& name : entries) {
    const fs::path entry(name);
    const bool link = fs::is_symlink(fs::symlink_status(entry, no));
    const bool is_folder = fs::is_directory(fs::status(entry, no));
    if (is_folder && link) {
      out.refused.push_back(
          no_file(entry.string(), "a link to a folder", "files and folders themselves"));
    } else if (is_folder) {
      walk(entry, out);
    } else if (may_hold_a_log(entry)) {
      out.files.push_back({std::move(name), true});
    } else if (entry.extension() != ".minisig") {
      ++out.passed_over;
    }
  }
}

void look_at(const std::string& path, found_inputs& out) {
  std::error_code no;
  const fs::file_status status = fs::status(path, no);
  if (!fs::is_directory(status)) {
    out.files.push_back({path, false}); // what is not there or not readable is told when it is read
    return;
  }
  if (fs::is_symlink(fs::symlink_status(path, no))) {
    out.refused.push_back(no_file(path, "a link to a folder", "the folder itself"));
    return;
  }
  const std::size_t before = out.files.size() + out.refused.size();
  walk(path, out);
  if (out.files.size() + out.refused.size() == before)
    out.refused.push_back(
        no_file(path, "no file ending in .json", "a folder with logs", refusal_kind::missing));
}

} // namespace

found_inputs find_inputs(const std::vector<std::string>& paths) {
  found_inputs out;
  for (const std::string& path : paths) {
    if (path == "-") {
      out.files.push_back({path, false});
    } else {
      look_at(path, out);
    }
  }
  return out;
}

std::optional<std::string> read_signature_beside(const std::string& path) {
  constexpr std::size_t most_signature = 65536;
  const auto text = read_file(path + ".minisig", links::refused);
  if (!text || text->size() > most_signature) return std::nullopt;
  return *text;
}

result<std::string> read_stream(std::FILE* from) {
  return posix::read_to_end(::fileno(from), "-", most_file_bytes);
}

} // namespace qb::lab
