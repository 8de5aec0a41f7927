// What the seal of a code shows: only what was checked, and with which key.
#include "app/lab/intake/code_seal.hpp"

#include "core/record/codec.hpp"
#include "core/report/signed_words.hpp"
#include "core/seal/minisign.hpp"
#include "tests/unit/report/made_log.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <unistd.h>

namespace qb::lab {

namespace {

namespace fs = std::filesystem;

seal::signing_key key_of(unsigned char first) {
  seal::secret<32> seed;
  seed.bytes.fill(first);
  return seal::signing_key(seed);
}

// A store with logs that a device signed.
class signed_store {
public:
  signed_store() : path_(fs::temp_directory_path() / ("qb-seal-" + std::to_string(::getpid()))) {
    fs::remove(path_);
    std::ofstream{path_};
    logs_.emplace(lab_store::open(path_.string()).value());
  }
  ~signed_store() {
    std::error_code none;
    fs::remove(path_, none);
  }
  signed_store(const signed_store&) = delete;
  signed_store& operator=(const signed_store&) = delete;

  void log_signed_by(const seal::signing_key& key, const std::string& test_id) {
    made_test how;
    how.test_id = test_id;
    log_row row;
    row.test_id = test_id;
    row.events = static_cast<std::int64_t>(make_events(how).size());
    row.kit_number = how.kit_number;
    row.body = make_log(how);
    REQUIRE(logs_->put(row, [](const log_row*) -> result<bool> { return true; }));
    const std::string text = seal::public_key_text(seal::named(key.open_half()));
    const auto log = read_log(row.body).value();
    const std::string words = signed_words(signed_log_of(row.body, log), made_start(), text);
    REQUIRE(logs_->keep_signature(
        {test_id, 0, sha256_hex(row.body), "", seal::sign_file(row.body, key, words)}));
  }
  [[nodiscard]] seal_evidence evidence(const code::packed_result& code) const {
    return seal_evidence_of(*logs_, code).value();
  }

private:
  fs::path path_;
  std::optional<lab_store> logs_;
};

code::packed_result code_signed_by(const seal::signing_key& key) {
  code::packed_result r = code::packed_of(make_events()).value();
  const seal::key_id id = seal::named(key.open_half()).id;
  r.seal = code::packed_seal{id, seal::sign(code::to_be_signed(pack(r), id), key)};
  return r;
}

bool contains(const std::string& text, const char* part) {
  return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("a code without a seal, and one whose key is not here, prove nothing and say so") {
  const signed_store store;
  code::packed_result bare = code::packed_of(make_events()).value();
  CHECK(store.evidence(bare).state == seal_state::none);
  const seal_evidence e = store.evidence(code_signed_by(key_of(1)));
  CHECK(e.state == seal_state::unchecked);
  CHECK(e.against_log == log_key::not_here);
  CHECK(contains(seal_words(e), "not checked"));
  CHECK_FALSE(contains(seal_words(e), "proves"));
}

TEST_CASE("the key of the test's own log checks the seal, and what that proves is said") {
  signed_store store;
  store.log_signed_by(key_of(1), "test-1");
  const seal_evidence e = store.evidence(code_signed_by(key_of(1)));
  CHECK(e.state == seal_state::good);
  CHECK(e.against_log == log_key::same);
  CHECK(contains(seal_words(e), "the key that signed this test's log"));
  CHECK(contains(seal_words(e), "proves only: unchanged since it was made by whoever held this"));
}

TEST_CASE("a key known from another test's log checks it too, and is told apart") {
  signed_store store;
  store.log_signed_by(key_of(1), "test-2");
  const seal_evidence e = store.evidence(code_signed_by(key_of(1)));
  CHECK(e.state == seal_state::good);
  CHECK(e.against_log == log_key::not_here);
  CHECK(contains(seal_words(e), "another log here, of test test-2"));
}

TEST_CASE("a log that another key signed is told, whatever the seal says") {
  signed_store store;
  store.log_signed_by(key_of(2), "test-1");
  CHECK(store.evidence(code_signed_by(key_of(1))).state == seal_state::unchecked);
  store.log_signed_by(key_of(1), "test-2");
  const seal_evidence e = store.evidence(code_signed_by(key_of(1)));
  CHECK(e.state == seal_state::good);
  CHECK(e.against_log == log_key::other);
  CHECK(e.log_fingerprint == seal::fingerprint(seal::named(key_of(2).open_half()).id));
  CHECK(contains(seal_words(e), "ANOTHER KEY"));
}

TEST_CASE("a code that was changed after it was signed does not match") {
  signed_store store;
  store.log_signed_by(key_of(1), "test-1");
  code::packed_result r = code_signed_by(key_of(1));
  r.samples[3].closed += std::chrono::seconds{60};
  CHECK(store.evidence(r).state == seal_state::bad);
  CHECK(contains(seal_words(store.evidence(r)), "DOES NOT MATCH"));
}

} // namespace qb::lab
