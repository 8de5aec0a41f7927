// Sentences by key: what the window says, kept out of the code so that it can be read as a whole,
// measured for plainness, and translated.
#pragma once

#include "core/base/result.hpp"

#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace qb::inline wording {

// The arguments of one sentence: the names in braces and what stands for them.
using word_args = std::vector<std::pair<std::string, std::string>>;

// A catalogue of one language; its files stand in assets/texts/LANGUAGE, one a topic.
class words {
public:
  // Reads {"format":"quarterbreath-texts","version":1,"language":"en","texts":{KEY:TEXT,...}}.
  [[nodiscard]] static result<words> read(std::string_view text);

  // The sentence of that key with {name} replaced. A key that is missing answers the key itself in
  // square brackets, which the tests look for.
  [[nodiscard]] std::string operator()(const std::string& key, const word_args& args = {}) const;

  // The sentence for a count: KEY.one for 1, KEY.other for all else; {n} is the count.
  [[nodiscard]] std::string counted(const std::string& key, long long n,
                                    const word_args& args = {}) const;

  // Adds another file's sentences of the same language; a key that is there already is a broken
  // belief, since files share no keys.
  void add(const words& more);

  [[nodiscard]] bool has(const std::string& key) const { return texts_.count(key) != 0; }
  [[nodiscard]] const std::map<std::string, std::string>& all() const { return texts_; }

private:
  std::map<std::string, std::string> texts_;
};

} // namespace qb::inline wording
