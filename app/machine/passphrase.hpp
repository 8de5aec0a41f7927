// A passphrase, from where nobody else sees it: a terminal without echo, or a file or descriptor
// that was named. Never from the command line, which every process of the machine can read.
#pragma once

#include "core/base/result.hpp"

#include <string>

namespace qb::inline machines {

// A passphrase that is overwritten when it goes.
class passphrase {
public:
  explicit passphrase(std::string text) : text_(std::move(text)) {}
  passphrase(passphrase&&) = default;
  passphrase& operator=(passphrase&&) = default;
  passphrase(const passphrase&) = delete;
  passphrase& operator=(const passphrase&) = delete;
  ~passphrase();
  [[nodiscard]] const std::string& text() const { return text_; }

private:
  std::string text_;
};

// The first line of that file (/dev/fd/3 is a descriptor, "-" standard input); where it is empty
// the terminal is asked with `question`. Refuses (as `missing`) where there is no terminal, and an
// empty line.
[[nodiscard]] result<passphrase> ask_passphrase(const std::string& file,
                                                const std::string& question);

} // namespace qb::inline machines
