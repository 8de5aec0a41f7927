// The laboratory's criteria and flags, read from its folder of assets.
#pragma once

#include "app/lab/context/console.hpp"
#include "core/curve/judge_curve.hpp"

#include <memory>
#include <string>
#include <vector>

namespace qb::lab {

// The criteria as `load_criteria` reads them, and assets/flags/gases.json.
[[nodiscard]] result<std::shared_ptr<const judging_rules>>
load_judging_rules(const std::string& assets);

// `criterion check FILE...`, `flags check FILE...` and `findings check FILE...`: one line a file,
// "FILE: ok" or what is wrong; answers the exit status.
[[nodiscard]] int check_judging_files(const std::string& kind,
                                      const std::vector<std::string>& files, const console& to);

} // namespace qb::lab
