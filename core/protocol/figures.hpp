// Whether the figures of a protocol are sane: those that a slip of the hand turns into harm, held
// against what is usual and what is allowed for its sugar. Which figures those are is data
// (assets/figures); here is only how they are compared, and that parts of one dose agree.
#pragma once

#include "core/protocol/protocol.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace qb::inline protocols {

// From and to, both included.
struct figure_range {
  int least{0};
  int most{0};

  [[nodiscard]] bool has(int figure) const { return figure >= least && figure <= most; }
};

// What is usual needs no word; what is allowed beside it is confirmed by name; nothing else is
// offered to anybody.
struct known_figure {
  std::optional<figure_range> usual; // none: always confirmed
  figure_range allowed;
  std::string source;
};

// The figures of one sugar.
struct sugar_figures {
  std::string name; // as a protocol names it; `any_other_sugar` for one that is not listed
  known_figure dose_g;
  std::optional<known_figure> syrup_mg_in_ml; // none: as of any other sugar
  known_figure water_ml;
  known_figure last_tube_min;
  known_figure gap_min;
  known_figure fast_min;
};
inline constexpr const char* any_other_sugar = "any other";

// One file of them.
struct figure_rules {
  std::vector<source> sources;
  std::vector<sugar_figures> sugars; // the last is any other's
};

// Reads the file; refuses with line and field, as `read_protocol` does.
[[nodiscard]] result<figure_rules> read_figure_rules(std::string_view text);

// A figure that is not usual.
struct odd_figure {
  std::string rule;     // of the protocol, under which it is confirmed
  std::string found;    // "20 g of lactulose"
  std::string expected; // "10 g", with the source
  bool allowed{false};  // else nobody's word helps
};

// The figures that look wrong and that nobody confirmed, in the order they are read. The first is
// the version, where it is an earlier one.
[[nodiscard]] std::vector<odd_figure> odd_figures(const protocol& p, const figure_rules& rules);

// Refuses a protocol with such a figure: it may not reach a patient.
[[nodiscard]] result<void> check_figures(const protocol& p, const figure_rules& rules);

} // namespace qb::inline protocols
