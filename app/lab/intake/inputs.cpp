// Walking folders and reading files, with every answer of the system looked at.
#include "app/lab/intake/inputs.hpp"

#include "core/base/json.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <fmt/core.h>
#include <sys/stat.h>
#include <unistd.h>

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

refusal too_large(const std::string& path) {
  return no_file(path, "more bytes", fmt::format("at most {} bytes", json::most_bytes),
                 refusal_kind::out_of_range);
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

result<std::string> read_descriptor(int fd, const std::string& path) {
  std::string bytes;
  std::array<char, 65536> part{};
  for (;;) {
    const ssize_t n = ::read(fd, part.data(), part.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return tl::unexpected(system_refusal(path, errno));
    if (n == 0) return bytes;
    bytes.append(part.data(), static_cast<std::size_t>(n));
    if (bytes.size() > json::most_bytes) return tl::unexpected(too_large(path));
  }
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

result<std::string> read_input(const std::string& path) {
  // Without waiting, so that a pipe with nobody at its other end does not hold the import up.
  const int fd = ::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC | O_NOCTTY);
  if (fd < 0) return tl::unexpected(system_refusal(path, errno));
  struct stat about {};
  result<std::string> bytes = std::string();
  if (::fstat(fd, &about) != 0) {
    bytes = tl::unexpected(system_refusal(path, errno));
  } else if (S_ISREG(about.st_mode)) {
    bytes = read_descriptor(fd, path);
  } else {
    bytes = tl::unexpected(no_file(path, S_ISDIR(about.st_mode) ? "a folder" : "a pipe or a device",
                                   "a file, or - for standard input"));
  }
  ::close(fd);
  return bytes;
}

std::optional<std::string> read_signature_beside(const std::string& path) {
  constexpr std::size_t most_signature = 65536;
  const auto text = read_input(path + ".minisig");
  if (!text || text->size() > most_signature) return std::nullopt;
  return *text;
}

result<std::string> read_stream(std::FILE* from) {
  return read_descriptor(::fileno(from), "-");
}

} // namespace qb::lab
