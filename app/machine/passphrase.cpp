// One line read, with the terminal's echo off meanwhile.
#include "app/machine/passphrase.hpp"

#include "core/seal/secret.hpp"

#include <cstdio>
#include <memory>
#include <optional>
#include <termios.h>
#include <unistd.h>

namespace qb::inline machines {

namespace {

constexpr std::size_t most = 1024;

struct closer {
  void operator()(std::FILE* f) const {
    if (f != stdin) std::fclose(f);
  }
};
using open_file = std::unique_ptr<std::FILE, closer>;

// Unbuffered, so that no copy is left in a buffer of the library's.
result<passphrase> line_from(std::FILE* from) {
  std::setvbuf(from, nullptr, _IONBF, 0);
  std::string out;
  out.reserve(most);
  for (int c = std::fgetc(from); c != EOF && c != '\n' && out.size() < most; c = std::fgetc(from))
    out += static_cast<char>(c);
  if (!out.empty() && out.back() == '\r') out.pop_back();
  if (!out.empty()) return passphrase(std::move(out));
  return tl::unexpected(
      refusal{refusal_kind::missing, "", "passphrase", "an empty line", "a passphrase"});
}

// Echo is off while this is there.
class quiet_terminal {
public:
  explicit quiet_terminal(int fd) : fd_(fd) {
    termios now{};
    if (tcgetattr(fd_, &now) != 0) return;
    before_ = now;
    now.c_lflag &= ~static_cast<tcflag_t>(ECHO);
    tcsetattr(fd_, TCSAFLUSH, &now);
  }
  ~quiet_terminal() {
    if (before_) tcsetattr(fd_, TCSAFLUSH, &*before_);
  }
  quiet_terminal(const quiet_terminal&) = delete;
  quiet_terminal& operator=(const quiet_terminal&) = delete;
  [[nodiscard]] bool is_quiet() const { return before_.has_value(); }

private:
  int fd_;
  std::optional<termios> before_;
};

} // namespace

passphrase::~passphrase() {
  seal::wipe(text_.data(), text_.size());
}

result<passphrase> ask_passphrase(const std::string& file, const std::string& question) {
  if (!file.empty()) {
    const open_file from(file == "-" ? stdin : std::fopen(file.c_str(), "re"));
    if (from) return line_from(from.get());
    return tl::unexpected(refusal{refusal_kind::missing, file, "passphrase", "no such file",
                                  "a file whose first line it is"});
  }
  const open_file terminal(std::fopen("/dev/tty", "r+e"));
  if (terminal) {
    const quiet_terminal quiet(fileno(terminal.get()));
    if (quiet.is_quiet()) {
      std::fputs((question + ": ").c_str(), terminal.get());
      std::fflush(terminal.get());
      auto line = line_from(terminal.get());
      std::fputs("\n", terminal.get());
      return line;
    }
  }
  return tl::unexpected(refusal{refusal_kind::missing, "", "passphrase", "no terminal to ask at",
                                "--passphrase FILE (or /dev/fd/N)"});
}

} // namespace qb::inline machines
