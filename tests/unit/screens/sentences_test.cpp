// Every sentence that a screen or the shell asks for is in the texts.
// A missing key is shown as itself: nobody would see it before a patient does.
#include "tests/support/repository.hpp"
#include "tests/unit/screens/prepare_views.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>

namespace qb {

namespace {

// What `asked` finds in the sources below `folder`: file and key. Headers name drafts alike.
std::vector<std::pair<std::string, std::string>> asked_in(const std::string& folder,
                                                          const std::regex& asked) {
  std::vector<std::pair<std::string, std::string>> out;
  for (const auto& file :
       std::filesystem::recursive_directory_iterator(repository() + "/" + folder)) {
    if (file.path().extension() != ".cpp") continue;
    const auto code = read_file(file.path().string());
    REQUIRE(code);
    for (std::sregex_iterator it(code->begin(), code->end(), asked), end; it != end; ++it)
      out.emplace_back(file.path().filename().string(), it->str(1));
  }
  return out;
}

} // namespace

TEST_CASE("every sentence any screen asks for by name is in the texts") {
  const words t = test::shipped_words();
  const auto all = asked_in("app/patient", std::regex("v\\.t\\(\"([a-z0-9.-]+)\"[,)]"));
  for (const auto& [file, key] : all) {
    INFO(file << " asks for " << key);
    CHECK(t.has(key));
  }
  CHECK(all.size() > 350);
}

TEST_CASE("every key of a sentence that stands in the code is in the texts") {
  const words t = test::shipped_words();
  const std::regex key_like(
      "\"((?:common|practice|where|sugar|symptoms|breathe|breath|unsure|label|"
      "drink|drank-first|drink-told|drink-what|drink-kept|drink-when|no-baseline|"
      "red-flags|rest|right|scorer|drinking|wait|mishap|tell|comment|unwell|finish|copy|pack|who|"
      "spare|"
      "hand-over|return|salvaged|on-paper|kit|trouble|places|papers|erase|erased|shared|reach)\\.["
      "a-z0-9.-]+)\"");
  const auto all = asked_in("app/patient", key_like);
  for (const auto& [file, key] : all) {
    INFO(file << " asks for " << key);
    // A key that ends with a point is the beginning of several.
    CHECK((t.has(key) || t.has(key + ".one") || t.has(key + ".other") || key.back() == '.'));
  }
  CHECK(all.size() > 150);
}

} // namespace qb
