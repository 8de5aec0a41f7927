// Taking the layers off what was sent, and what the signature beside it is worth.
#include "app/lab/intake/evidence.hpp"
#include "app/lab/intake/unpack.hpp"
#include "app/page/canvas.hpp"
#include "app/page/finished_pdf.hpp"
#include "core/seal/minisign.hpp"

#include <catch2/catch.hpp>

namespace qb::lab {

namespace {

using Catch::Contains;

std::string drawn_page() {
  page::canvas c("A page", "2027-04-06T10:05:00Z");
  c.line(0, 0, 1, 1, 1);
  return c.finish().value();
}

std::string sheet_with(const std::vector<page::attached_file>& files) {
  return page::with_attachments(drawn_page(), files, "2027-04-06T10:05:00Z").value();
}

seal::identity own_identity() {
  seal::identity out;
  out.scalar.bytes.fill(5);
  return out;
}

std::string sealed(const std::string& plain) {
  return seal::seal_to(seal::recipient_of(own_identity()), plain,
                       seal::chance_for(seal::secret<64>{}, plain))
      .value();
}

std::string signed_by(unsigned char fill, const std::string& text, bool names_its_key = true) {
  seal::secret<32> seed;
  seed.bytes.fill(fill);
  const seal::signing_key key(seed);
  const std::string name = seal::public_key_text(seal::named(key.open_half()));
  return seal::sign_file(text, key,
                         std::string("quarterbreath kit:FV-1 chain:h") +
                             (names_its_key ? " key:" + name : ""));
}

} // namespace

TEST_CASE("a log comes by itself, attached, sealed, or attached and sealed") {
  const std::vector<page::attached_file> files{
      {"a.log.json", "{}", "application/json", "log"},
      {"a.log.json.minisig", "sig", "text/plain", "signature"}};
  CHECK(unpack("{}", {})->text == "{}");
  CHECK_FALSE(unpack("{}", {})->signature);
  for (const std::string& bytes : {sheet_with(files), sealed(sheet_with(files))}) {
    const auto out = unpack(bytes, {own_identity()});
    REQUIRE(out);
    CHECK(out->text == "{}");
    CHECK(out->signature == std::string("sig"));
  }
  CHECK(unpack(sealed("{}"), {own_identity()})->text == "{}");
}

TEST_CASE("what holds no log for us is refused by name, and known as passable in a folder") {
  const auto plain = unpack(drawn_page(), {});
  REQUIRE_FALSE(plain);
  CHECK_THAT(sentence(plain.error()), Contains("no log attached"));
  CHECK(carries_nothing(plain.error()));
  const auto closed = unpack(sealed("{}"), {});
  REQUIRE_FALSE(closed);
  CHECK(carries_nothing(closed.error()));
  const auto foreign = unpack(sealed("{}"), {seal::identity{}});
  REQUIRE_FALSE(foreign);
  CHECK_FALSE(carries_nothing(foreign.error()));
  const auto twice = unpack(sealed(sealed("{}")), {own_identity()});
  REQUIRE_FALSE(twice);
  CHECK_THAT(sentence(twice.error()), Contains("sealed twice"));
}

TEST_CASE("a sheet with two logs is not guessed at, and one too large is not unpacked") {
  const auto two = unpack(sheet_with({{"a.log.json", "{}", "application/json", ""},
                                      {"b.log.json", "{}", "application/json", ""}}),
                          {});
  REQUIRE_FALSE(two);
  CHECK_THAT(sentence(two.error()), Contains("several logs attached"));
  const std::string much(std::size_t{17} * 1024 * 1024, ' ');
  const auto large = unpack(sheet_with({{"a.log.json", much, "application/json", ""}}), {});
  REQUIRE_FALSE(large);
  CHECK_THAT(sentence(large.error()), Contains("more bytes than a log may have"));
}

TEST_CASE("a name with a path in it is only a name") {
  const auto out = unpack(sheet_with({{"../../etc/a.log.json", "{}", "application/json", ""}}), {});
  REQUIRE(out);
  CHECK(out->text == "{}");
}

TEST_CASE("a page has its language and its title in the catalogue, and the same bytes again") {
  const std::string page = drawn_page();
  CHECK_THAT(page, Contains("/Lang"));
  CHECK_THAT(page, Contains("/DisplayDocTitle true"));
  CHECK(page == drawn_page());
  const std::vector<page::attached_file> files{{"a.log.json", "{}", "application/json", "log"}};
  CHECK(sheet_with(files) == sheet_with(files));
  CHECK_THAT(sentence(page::with_attachments("no PDF", files, "").error()),
             Contains("finishing the PDF"));
}

TEST_CASE("a signature is good, missing, or does not match; and says what it proves") {
  const signed_log log{"{}", "FV-1", "t", "h", 1, false};
  const auto good = evidence_of(log, signed_by(1, "{}"));
  CHECK(good.state == signature_state::good);
  CHECK(good.fingerprint.size() == 16);
  CHECK_THAT(evidence_text(good),
             Contains("proves only: unchanged since export by whoever held this device"));
  CHECK(evidence_text(evidence_of(log, std::nullopt)) == "none came with the log");
  signed_log other = log;
  other.bytes = "{ }";
  const auto changed = evidence_of(other, signed_by(1, "{}"));
  CHECK(changed.state == signature_state::bad);
  CHECK(changed.key.empty());
  CHECK_THAT(evidence_text(changed), Contains("DOES NOT MATCH: ") && Contains("other bytes"));
  CHECK_THAT(evidence_of(log, signed_by(1, "{}", false)).why_bad, Contains("names no key"));
  CHECK_THAT(evidence_of(log, std::string("scribble")).why_bad, Contains("the four lines"));
  other.bytes = "{}";
  other.kit_number = "FV-2";
  CHECK_THAT(evidence_text(evidence_of(other, signed_by(1, "{}"))),
             Contains("SIGNED FOR ANOTHER: it names another kit"));
}

TEST_CASE("a log signed anew by another key shows another fingerprint") {
  const signed_log log{"{}", "FV-1", "t", "h", 1, false};
  CHECK(evidence_of(log, signed_by(1, "{}")).fingerprint !=
        evidence_of(log, signed_by(2, "{}")).fingerprint);
}

} // namespace qb::lab
