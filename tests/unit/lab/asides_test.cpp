// A second log of a test that tells another story: kept, named everywhere, and counted nowhere.
#include "tests/unit/lab/laboratory.hpp"

namespace qb::lab {

using Catch::Matchers::Contains;

namespace {

std::string other_story() {
  std::string log = make_log();
  const std::string was = "a little wind";
  return log.replace(log.find(was), was.size(), "a great gale");
}

} // namespace

TEST_CASE("a log that was set aside is a finding of the case, and its line on the list says so") {
  laboratory lab;
  lab.import();
  CHECK_THAT(lab.work(), !Contains("two logs that differ"));
  const std::string kept = lab.audit();
  REQUIRE(lab.import_file("b.log.json", other_story()) == 2);
  CHECK_THAT(lab.work(), Contains("two logs that differ"));
  CHECK(lab.audit() == kept); // the first one stays what counts
  const auto store = lab_store::open(lab.path("store.db"));
  REQUIRE(store);
  const auto rows = store->find(which_tests::of_kit_number, "FV-3001");
  REQUIRE(rows);
  REQUIRE(rows->size() == 1);
  CHECK(rows->front().body == make_log());
  CHECK(store->set_aside_of(rows->front().test_id).value() ==
        std::vector<std::string>{other_story()});
}

TEST_CASE("the same log is set aside once, another one beside it") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.import_file("b.log.json", other_story()) == 2);
  REQUIRE(lab.import_file("b.log.json", other_story()) == 2);
  std::string third = other_story();
  third.replace(third.find("gale"), 4, "draught");
  REQUIRE(lab.import_file("c.log.json", third) == 2);
  const auto store = lab_store::open(lab.path("store.db"));
  REQUIRE(store);
  CHECK(store->set_aside_of("test-1").value().size() == 2);
  CHECK(store->set_aside_of("test-2").value().empty());
}

TEST_CASE("forgetting a kit takes what was set aside of it") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.import_file("b.log.json", other_story()) == 2);
  CHECK_THAT(lab.file("store.db"), Contains("a great gale"));
  REQUIRE(lab.forget(true) == 0);
  CHECK_THAT(lab.file("store.db"), !Contains("a great gale") && !Contains("a little wind"));
}

} // namespace qb::lab
