// The one file: what is inside it, what is sealed, and what happens without a key.
// The formats themselves are read by other hands in tests/outside/run_sealed.
#include "app/handover/export_record.hpp"
#include "app/machine/device_key.hpp"
#include "app/machine/files.hpp"
#include "app/opened/attached_files.hpp"
#include "core/base/json.hpp"
#include "core/seal/age.hpp"
#include "core/seal/minisign.hpp"
#include "tests/support/repository.hpp"
#include "tests/support/scripted_test.hpp"
#include "tests/unit/handover/own_folder.hpp"

#include <catch2/catch.hpp>
#include <fstream>
#include <sys/stat.h>

using namespace qb;
using namespace qb::handover;
using namespace qb::test;
using Catch::Contains;

namespace {

std::vector<event> a_test(const std::string& id = "one") {
  patient p;
  QB_BELIEVE(p.tell(opened{id, "quarterbreath 0.1.0", false, fenwick_text()}));
  QB_BELIEVE(p.tell(invented_person()));
  QB_BELIEVE(p.tell(plan_of(utc("2027-04-06T06:30:00Z"))));
  return p.e.events();
}

exported_files handed_to(const std::string& to, const std::vector<event>& events, export_set wanted,
                         const export_keys& keys = practice_keys()) {
  const zone london = zone_named("Europe/London");
  const auto files = export_record(
      test::this_disk(), to, events,
      {"quarterbreath 0.1.0", "2026f", london, utc("2027-04-06T12:00:00Z"), keys, wanted});
  if (!files) FAIL(sentence(files.error()));
  return *files;
}

std::string opened_with_demo_key(const std::string& path) {
  const auto text = read_file(repository() + "/demo-data/keys/fenwick-vale.identity.txt");
  const auto identities = seal::read_identity_file(text.value());
  return seal::open_sealed(read_file(path).value(), identities.value()).value();
}

} // namespace

TEST_CASE("a drive that is given away gets one file, sealed, that holds sheet, log and signature") {
  const own_folder folder;
  const auto drive = handed_to(folder.file("drive"), a_test(), export_set::one_file);
  REQUIRE(drive.paths.size() == 1);
  CHECK(drive.paths[0] == folder.file("drive/quarterbreath-FV-2071.sheet.pdf.age"));
  const auto own = handed_to(folder.file("own"), a_test(), export_set::everything);
  const std::string sheet = opened_with_demo_key(drive.paths[0]);
  CHECK(sheet == read_file(own.paths[3]).value());
  const auto inside = attached_files(sheet, ".log.json", json::most_bytes).value();
  REQUIRE(inside.size() == 2);
  CHECK(inside[0].name == "quarterbreath-FV-2071.log.json");
  CHECK(inside[0].bytes == read_file(own.paths[0]).value());
  CHECK(inside[1].bytes == read_file(own.paths[1]).value());
}

TEST_CASE("the trusted comment names kit, chain, moment and key, and no person") {
  const own_folder folder;
  const auto own = handed_to(folder.file("own"), a_test(), export_set::everything);
  const auto s = seal::read_signature(read_file(own.paths[1]).value()).value();
  CHECK_THAT(s.trusted_comment,
             Catch::StartsWith("quarterbreath kit:FV-2071 test:one events:3 chain:"));
  CHECK_THAT(s.trusted_comment, Contains(" exported:2027-04-06T12:00:00Z key:RW"));
  CHECK_THAT(s.trusted_comment, !Contains("practice"));
}

TEST_CASE(
    "a sealed file that is there already is never replaced, since nobody can say whose it is") {
  const own_folder folder;
  const auto first = handed_to(folder.file("drive"), a_test(), export_set::one_file);
  const auto second = handed_to(folder.file("drive"), a_test("two"), export_set::one_file);
  CHECK(second.paths[0] == folder.file("drive/quarterbreath-FV-2071-2.sheet.pdf.age"));
  CHECK(std::filesystem::exists(first.paths[0]));
}

TEST_CASE("with a damaged key the export goes on, unsigned, and the sheet says why") {
  const own_folder folder;
  std::filesystem::create_directories(folder.file("data"));
  std::ofstream(folder.file("data/device.key")) << "qbdevice1nonsense\n";
  const export_keys keys = device_keys(test::this_disk(), folder.file("data"));
  CHECK_FALSE(keys.signing);
  CHECK_THAT(keys.why_unsigned, Catch::StartsWith("device.key: found something else"));
  const auto own = handed_to(folder.file("own"), a_test(), export_set::everything, keys);
  CHECK(own.why_unsigned == keys.why_unsigned);
  for (const std::string& path : own.paths)
    CHECK_THAT(path, !Contains("minisig"));
  const std::string sheet = read_file(own.paths[2]).value();
  CHECK(attached_files(sheet, ".log.json", json::most_bytes).value().size() == 1);
  CHECK(read_file(folder.file("data/device.key")).value() == "qbdevice1nonsense\n");
}

TEST_CASE("the device's key is made once, is its owner's alone, and is not made anew in silence") {
  const own_folder folder;
  const auto first = device_seed(test::this_disk(), folder.file("data"));
  REQUIRE(first);
  CHECK(device_seed(test::this_disk(), folder.file("data")).value().bytes == first->bytes);
  struct stat about {};
  REQUIRE(::stat(folder.file("data/device.key").c_str(), &about) == 0);
  CHECK((about.st_mode & 0777U) == 0600U);
  std::string text = read_file(folder.file("data/device.key")).value();
  for (const std::size_t at : {std::size_t{0}, text.size() / 2, text.size() - 1}) {
    std::string damaged = text;
    damaged[at] = damaged[at] == 'q' ? 'p' : 'q';
    REQUIRE(write_file(folder.file("data/device.key"), damaged));
    const auto no = device_seed(test::this_disk(), folder.file("data"));
    REQUIRE_FALSE(no);
    CHECK_THAT(sentence(no.error()), Contains("move the file away"));
    CHECK(sentence(no.error()).find(text.substr(0, 20)) == std::string::npos);
    CHECK(read_file(folder.file("data/device.key")).value() == damaged);
  }
  std::filesystem::remove(folder.file("data/device.key"));
  CHECK(device_seed(test::this_disk(), folder.file("data")).value().bytes != first->bytes);
}
