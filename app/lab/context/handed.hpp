// What was handed out already, so that a batch hands out each thing once.
#pragma once

#include "app/store/laboratory_store.hpp"

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace qb::lab {

// Of what something was made: a digest, so that the mark holds nothing of a person.
[[nodiscard]] std::string mark_of(const std::string& bytes);

// Of what a test's output was made; the kit number stands for a test that is not known.
struct handed_mark {
  std::string kit;
  std::string test;
  std::string of;
};

// By test, the mark of what was handed out last.
class handed_marks {
public:
  explicit handed_marks(const std::vector<handed_row>& rows);
  [[nodiscard]] bool has(const handed_mark& mark) const;

private:
  std::map<std::pair<std::string, std::string>, std::string> last_;
};

// Of that kind ("report", "export"), from the store.
[[nodiscard]] result<handed_marks> load_handed(const std::string& store, const std::string& what);

// Kept once the files are on the disk: a kill between the two hands out twice, never nothing.
[[nodiscard]] result<void> keep_handed(const std::string& store, const std::string& what,
                                       const std::vector<handed_mark>& marks,
                                       const std::string& by);

} // namespace qb::lab
