// The program's data files: where they are, and the strict readers' answers with file names added.
#pragma once

#include "core/curve/criteria.hpp"
#include "core/protocol/figures.hpp"
#include "core/protocol/profile.hpp"
#include "core/protocol/protocol.hpp"
#include "core/sheet/label_sheet.hpp"

#include <string>
#include <vector>

namespace qb::inline assets {

// A file's content twice: as it was parsed, and as the canonical text that is frozen in a record.
template <typename T>
struct loaded {
  T value;
  std::string canonical_text;
};

// The folder of assets: `given` where one was given, else the "assets" folder of the source tree or
// installation that holds the program at `program_path`.
[[nodiscard]] std::string assets_folder(const std::string& given, const std::string& program_path);

// By id ("lactulose-10g", from the assets), or by path where the text holds a slash or ends in
// ".json". An unknown id is refused with the ids there are.
[[nodiscard]] result<loaded<protocol>> load_protocol(const std::string& assets,
                                                     const std::string& id_or_path);
// The same for a patient: refuses one whose figures are not sane (core/protocol/figures.hpp), by
// the ranges of those assets.
[[nodiscard]] result<loaded<protocol>> load_offered_protocol(const std::string& assets,
                                                             const std::string& id_or_path);

// The ranges of figures in the assets.
[[nodiscard]] result<figure_rules> load_figure_rules(const std::string& assets);

// As `load_protocol`.
[[nodiscard]] result<loaded<lab_profile>> load_profile(const std::string& assets,
                                                       const std::string& id_or_path);

// The labels of a laboratory whose profile names none, and of a print that is asked for none.
inline constexpr const char* usual_labels = "a4-70x37";

// The same for a sheet or roll of labels ("a4-70x37").
[[nodiscard]] result<loaded<label_sheet>> load_label_sheet(const std::string& assets,
                                                           const std::string& id_or_path);

// The criteria in the assets, in the order of their names. Refuses what the strict reader refuses,
// a criterion whose file is not named as its id, ids that do not fit together, and a folder without
// any.
[[nodiscard]] result<std::vector<criterion>> load_criteria(const std::string& assets);

// The ids of the protocols in the assets, sorted.
[[nodiscard]] std::vector<std::string> protocol_ids(const std::string& assets);

} // namespace qb::inline assets
