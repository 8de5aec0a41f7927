// A test whose figures are not sane reaches nobody, and keeps no other test from anybody.
#include "app/patient/shell/device_data.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <fstream>

using namespace qb;
using namespace qb::test;

namespace fs = std::filesystem;

TEST_CASE("the window offers every test but the one with an absurd dose, and says which") {
  const own_folder folder;
  for (const char* part : {"protocols", "texts", "laboratories", "labels", "figures"})
    fs::copy(repository() + "/assets/" + part, folder.file(part), fs::copy_options::recursive);
  const auto before = load_device_data(folder.path(), "fenwick-vale");
  REQUIRE(before);
  CHECK(before->not_offered.empty());
  std::string text = source_file("assets/protocols/lactulose-10g.json");
  const std::string dose = "\"dose_g\": 10";
  REQUIRE(text.find(dose) != std::string::npos);
  text.replace(text.find(dose), dose.size(), "\"dose_g\": 500");
  std::ofstream(folder.file("protocols/lactulose-10g.json")) << text;
  const auto after = load_device_data(folder.path(), "fenwick-vale");
  REQUIRE(after);
  CHECK(after->tests.size() + 1 == before->tests.size());
  REQUIRE(after->not_offered.size() == 1);
  CHECK(after->not_offered[0].file == "lactulose-10g");
  CHECK(after->not_offered[0].found == "500 g of lactulose");
}

TEST_CASE("a plan, a paper and a kit code refuse the same file, and an old record is read") {
  const own_folder folder;
  std::string text = lactulose_text();
  const std::string dose = "\"dose_g\":10";
  REQUIRE(text.find(dose) != std::string::npos);
  text.replace(text.find(dose), dose.size(), "\"dose_g\":500");
  std::ofstream(folder.file("absurd.json")) << text;
  const std::string assets = repository() + "/assets";
  CHECK(load_protocol(assets, folder.file("absurd.json")).has_value());
  const auto no = load_offered_protocol(assets, folder.file("absurd.json"));
  REQUIRE_FALSE(no.has_value());
  CHECK(exit_status(no.error()) == 2);
}
