// Reading them in the order in which they need each other.
#include "app/patient/shell/device_data.hpp"

#include "app/machine/files.hpp"

#include <filesystem>

namespace qb::inline shells {

namespace {

result<words> load_texts(const std::string& folder) {
  words out;
  std::error_code none;
  for (const auto& entry : std::filesystem::directory_iterator(folder, none)) {
    const std::string path = entry.path().string();
    const auto text = read_file(path);
    if (!text) return tl::unexpected(text.error());
    const auto read = words::read(*text);
    if (!read) return tl::unexpected(in_file(read.error(), path));
    out.add(*read);
  }
  return out;
}

// One whose figures are not sane is not offered, and does not keep the others from anybody.
result<void> load_tests(const std::string& assets, device_data& out) {
  const auto rules = load_figure_rules(assets);
  if (!rules) return tl::unexpected(rules.error());
  for (const std::string& id : protocol_ids(assets)) {
    auto test = load_protocol(assets, id);
    if (!test) return tl::unexpected(test.error());
    if (const auto sane = check_figures(test->value, *rules); !sane)
      out.not_offered.push_back(in_file(sane.error(), id));
    else
      out.tests.push_back({id, std::move(test->canonical_text), std::move(test->value)});
  }
  if (!out.tests.empty()) return {};
  if (!out.not_offered.empty()) return tl::unexpected(out.not_offered.front());
  return tl::unexpected(refusal{refusal_kind::missing, assets, "protocols", "no protocol",
                                "the program's data files (--assets DIR)"});
}

} // namespace

result<device_data> load_device_data(const std::string& assets, const std::string& profile) {
  auto texts = load_texts(assets + "/texts/en");
  if (!texts) return tl::unexpected(texts.error());
  auto lab = load_profile(assets, profile);
  if (!lab) return tl::unexpected(lab.error());
  const std::string& sheet = lab->value.label_sheet;
  auto labels = load_label_sheet(assets, sheet.empty() ? usual_labels : sheet);
  if (!labels) return tl::unexpected(labels.error());
  device_data out{std::move(*texts), {}, {}, std::move(*lab), std::move(labels->value)};
  if (const auto tests = load_tests(assets, out); !tests) return tl::unexpected(tests.error());
  return out;
}

} // namespace qb::inline shells
