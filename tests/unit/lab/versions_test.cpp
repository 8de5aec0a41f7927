// Logs of one test that come in any order, signed or not: what the store holds afterwards, and what
// every door says of it.
#include "tests/unit/lab/laboratory.hpp"

#include "app/lab/care/care.hpp"
#include "app/lab/intake/versions.hpp"
#include "core/seal/minisign.hpp"
#include "core/seal/practice_key.hpp"

#include <algorithm>

namespace qb::lab {

using Catch::Matchers::Contains;

namespace {

seal::signing_key key_of(unsigned char fill) {
  seal::secret<32> seed;
  seed.bytes.fill(fill);
  return seal::signing_key(seed);
}

// A log and the signature that comes beside it; an empty one is none.
struct posted_log {
  std::string bytes;
  std::string signature;
};

posted_log signed_log_by(const std::string& bytes, const seal::signing_key& key,
                         const std::string& of = {}) {
  const std::string& meant = of.empty() ? bytes : of;
  const auto log = read_log(meant).value();
  const std::string words = signed_words(signed_log_of(meant, log), made_start(),
                                         seal::public_key_text(seal::named(key.open_half())));
  return {bytes, seal::sign_file(bytes, key, words)};
}

std::string log_of_first(std::size_t count, const std::string& program = "quarterbreath 0.1.0") {
  std::vector<event> events = make_events();
  events.resize(count);
  return write_log(events, program, "");
}

std::string forged(std::size_t count) {
  std::vector<event> events = make_events();
  std::get<reported_person>(events[1].what).doctor = "Dr Ann Other";
  events.resize(count);
  return write_log(events, "quarterbreath 0.1.0", "");
}

int import_one(laboratory& lab, const posted_log& log) {
  std::filesystem::remove(lab.path("a.log.json.minisig"));
  if (!log.signature.empty()) lab.put("a.log.json.minisig", log.signature);
  return lab.import_file("a.log.json", log.bytes);
}

// What counts, its findings' words, and every text that is kept, whatever came first.
std::string outcome(const laboratory& lab) {
  const auto store = lab_store::open(lab.path("store.db")).value();
  const auto rows = store.find(which_tests::of_test_id, "test-1").value();
  REQUIRE(rows.size() == 1);
  std::string out = rows.front().body;
  const provenance told = provenance_in(store, "test-1").value();
  for (const finding& f : told.findings)
    out += f.words + "\n";
  std::vector<std::string> kept = store.set_aside_of("test-1").value();
  const std::vector<log_row> counted = store.versions_of("test-1").value();
  for (const log_row& row : counted)
    kept.push_back(row.body);
  std::sort(kept.begin(), kept.end());
  for (const std::string& text : kept)
    out += text;
  return out;
}

} // namespace

TEST_CASE("logs of one test end alike in every order of import, and none of them is lost") {
  const auto a = key_of(1);
  const std::string wide = log_of_first(40, "quarterbreath 0.1.1"); // the same events
  std::vector<posted_log> post{signed_log_by(log_of_first(30), a),
                               signed_log_by(log_of_first(40), a),
                               {log_of_first(50), {}},
                               {forged(60), {}},
                               signed_log_by(forged(45), a, log_of_first(40)),
                               {wide, {}}};
  std::sort(post.begin(), post.end(),
            [](const posted_log& x, const posted_log& y) { return x.bytes < y.bytes; });
  std::string first;
  std::mt19937 chance(7);
  for (int turn = 0; turn < 12; ++turn) {
    laboratory lab;
    for (const posted_log& one : post)
      (void)import_one(lab, one);
    const std::string now = outcome(lab);
    if (turn == 0) first = now;
    CHECK((now == first)); // in parentheses: both are long
    for (const posted_log& one : post)
      CHECK(now.find(one.bytes) != std::string::npos);
    (void)import_one(lab, post.front()); // once more changes nothing
    CHECK((outcome(lab) == first));
    std::shuffle(post.begin(), post.end(), chance);
  }
}

TEST_CASE("a forged log first, then the signed one: that counts, and both are told everywhere") {
  laboratory lab;
  REQUIRE(import_one(lab, {forged(50), {}}) == 0);
  CHECK_THAT(lab.out, Contains("0 good, 0 not matching, 1 without"));
  REQUIRE(import_one(lab, signed_log_by(make_log(), key_of(1))) == 2);
  CHECK_THAT(lab.err, Contains("this one is better signed and counts"));
  CHECK_THAT(lab.out, Contains("another log of this test came and was set aside"));
  CHECK_THAT(lab.work(), Contains("two logs that differ"));
  const auto shown = lab.shown("FV-3001");
  CHECK(*shown.find("tests")->items()->front().find("doctor")->text() == "Dr Ivo Brandreth");
}

TEST_CASE("a log that grew under another key, under none, or wrongly is told at import") {
  for (const auto& [next, words] : std::vector<std::pair<posted_log, std::string>>{
           {signed_log_by(log_of_first(50), key_of(2)), "more events came signed with another"},
           {{log_of_first(50), {}}, "more events came not signed"},
           {signed_log_by(log_of_first(50), key_of(1), log_of_first(40)), "were set aside"}}) {
    laboratory lab;
    REQUIRE(import_one(lab, signed_log_by(log_of_first(40), key_of(1))) == 0);
    (void)import_one(lab, next);
    CHECK_THAT(lab.out, Contains(words));
  }
}

TEST_CASE("a real test signed with the practice key says so at import and in the case") {
  laboratory lab;
  REQUIRE(import_one(lab, signed_log_by(make_log(), seal::practice_signing_key())) == 0);
  CHECK_THAT(lab.out, Contains("signed with the practice key, which everybody has") &&
                          Contains("1 by the practice key"));
  const auto judged = lab.judged("FV-3001");
  CHECK_THAT(json::canonical(judged) + json::canonical(lab.shown("FV-3001")),
             Contains("signed-practice"));
}

TEST_CASE("which key each version was signed by is kept with it") {
  laboratory lab;
  REQUIRE(import_one(lab, signed_log_by(log_of_first(40), key_of(1))) == 0);
  REQUIRE(import_one(lab, signed_log_by(log_of_first(50), key_of(2))) == 0);
  const auto store = lab_store::open(lab.path("store.db")).value();
  const auto kept = store.signatures_of("test-1").value();
  REQUIRE(kept.size() == 2);
  CHECK(kept[0].print == seal::fingerprint(seal::named(key_of(1).open_half()).id));
  CHECK(kept[1].print == seal::fingerprint(seal::named(key_of(2).open_half()).id));
}

TEST_CASE("a named person says which of two logs counts, by name and reason, and it is kept") {
  laboratory lab;
  REQUIRE(import_one(lab, signed_log_by(make_log(), key_of(1))) == 0);
  const posted_log other = signed_log_by(forged(60), key_of(2));
  REQUIRE(import_one(lab, other) == 2);
  CHECK_THAT(lab.work(), Contains("two logs that differ"));
  const auto digest_of = [&](const std::string& bytes) {
    const auto store = lab_store::open(lab.path("store.db")).value();
    const test_versions versions = load_versions(store, "test-1").value();
    for (const kept_version& v : versions.all)
      if (v.bytes == bytes) return v.digest;
    return std::string();
  };
  CHECK(lab.choose_log("", "asked the patient") == 0); // only shows them
  CHECK(lab.choose_log("zz", "asked the patient") == 2);
  CHECK(lab.choose_log(digest_of(other.bytes).substr(0, 12), "") == 2);
  for (const std::string& bytes : {other.bytes, make_log()}) {
    const int status = lab.choose_log(digest_of(bytes).substr(0, 12), "asked the patient");
    INFO(lab.err);
    REQUIRE(status == 0);
    CHECK_THAT(lab.out, Contains("R. Ashdown said") && Contains("asked the patient"));
    const auto store = lab_store::open(lab.path("store.db")).value();
    CHECK(store.find(which_tests::of_test_id, "test-1").value().front().body == bytes);
  }
  const auto store = lab_store::open(lab.path("store.db")).value();
  CHECK(store.choices_of("test-1").value().size() == 2);
}

} // namespace qb::lab
