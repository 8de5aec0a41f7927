// How near two numbers are, and the question.
#include "core/laboratory/kit_register.hpp"

#include "core/protocol/kit_alphabet.hpp"
#include "core/protocol/kit_code.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace qb::inline laboratories {

namespace {

constexpr std::size_t near = 2; // slips; more is another kit
constexpr std::size_t most_named = 3;

// Slips between two texts: a character wrong, left out or added, or two neighbours swapped
// (Damerau's distance, in its restricted form).
std::size_t slips_between(const std::string& a, const std::string& b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i)
    d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j)
    d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i)
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t wrong = a[i - 1] == b[j - 1] ? 0 : 1;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + wrong});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
    }
  return d[a.size()][b.size()];
}

// Whether a kit code of this laboratory could give that number.
bool could_be_ours(const std::string& number, const std::string& letters) {
  const std::string head = letters + "-";
  if (number.size() != head.size() + kit_serial_length || number.rfind(head, 0) != 0) return false;
  return std::all_of(number.begin() + static_cast<std::ptrdiff_t>(head.size()), number.end(),
                     [](char c) { return kit_alphabet.find(c) != kit_alphabet.npos; });
}

} // namespace

const issued_kit* find_issued(const std::vector<issued_kit>& all, const std::string& number) {
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const issued_kit& k) { return k.number == number; });
  return at == all.end() ? nullptr : &*at;
}

std::vector<std::string> nearest_issued(const std::vector<issued_kit>& all,
                                        const std::string& number) {
  std::vector<std::pair<std::size_t, std::string>> found;
  for (const issued_kit& k : all) {
    const std::size_t far = slips_between(k.number, number);
    if (far <= near) found.emplace_back(far, k.number);
  }
  std::sort(found.begin(), found.end());
  std::vector<std::string> out;
  for (const auto& [far, one] : found)
    if (far == found.front().first && out.size() < most_named) out.push_back(one);
  return out;
}

bool is_one_slip(const std::string& a, const std::string& b) {
  return slips_between(a, b) == 1;
}

std::optional<refusal> asked_of_kit(const std::vector<issued_kit>& all, const std::string& number,
                                    const std::string& option) {
  if (all.empty() || find_issued(all, number) != nullptr) return std::nullopt;
  std::string found = fmt::format("no kit {} was issued", number);
  const bool ours = std::any_of(all.begin(), all.end(), [&](const issued_kit& k) {
    return could_be_ours(number, k.number.substr(0, k.number.find('-')));
  });
  if (!ours)
    found +=
        fmt::format(", nor could it be: ours are as {}, of {}", all.front().number, kit_alphabet);
  const std::string nearest = fmt::format("{}", fmt::join(nearest_issued(all, number), ", "));
  if (!nearest.empty()) found += "; nearest issued: " + nearest;
  return refusal{refusal_kind::ambiguous, "", "kit", std::move(found),
                 "the number on the box, or " + option + " where it is meant"};
}

std::optional<std::string> told_beside(const std::vector<std::string>& waiting,
                                       const std::string& number) {
  std::vector<std::string> beside;
  std::copy_if(waiting.begin(), waiting.end(), std::back_inserter(beside),
               [&](const std::string& one) { return is_one_slip(one, number); });
  if (beside.empty()) return std::nullopt;
  if (beside.size() > most_named) beside.resize(most_named);
  return fmt::format("nothing is here of kit {} but what comes now; one slip away is {}, whose "
                     "record is here and whose box is not: is the number right?",
                     number, fmt::join(beside, ", "));
}

} // namespace qb::inline laboratories
