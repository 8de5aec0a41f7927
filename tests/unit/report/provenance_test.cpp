// How versions of a log are signed, which of them counts, and that the order they came in is
// nothing to it.
#include "core/report/provenance.hpp"

#include "core/record/codec.hpp"
#include "core/seal/practice_key.hpp"
#include "tests/unit/report/made_log.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

namespace qb {

namespace {

seal::signing_key key_of(unsigned char fill) {
  seal::secret<32> seed;
  seed.bytes.fill(fill);
  return seal::signing_key(seed);
}

std::string print_of(const seal::signing_key& key) {
  return seal::fingerprint(seal::named(key.open_half()).id);
}

// The comment that this log's own export would bear.
std::string words_for(const std::string& bytes, const seal::signing_key& key) {
  const auto log = read_log(bytes).value();
  return signed_words(signed_log_of(bytes, log), made_start(),
                      seal::public_key_text(seal::named(key.open_half())));
}

kept_version version(const std::string& bytes, const std::vector<std::string>& signatures = {}) {
  return {sha256_hex(bytes), bytes, read_log(bytes).value(), signatures};
}
kept_version by(const std::string& bytes, const seal::signing_key& key) {
  return version(bytes, {seal::sign_file(bytes, key, words_for(bytes, key))});
}
kept_version wrongly(const std::string& bytes, const seal::signing_key& key) {
  return version(bytes, {seal::sign_file(bytes + " ", key, words_for(bytes, key))});
}

std::string log_of_first(std::size_t count, bool rehearsal = false) {
  made_test m;
  m.rehearsal = rehearsal;
  std::vector<event> events = make_events(m);
  events.resize(count);
  return write_log(events, "quarterbreath 0.1.0", "");
}
// The same test told otherwise, from its second event on.
std::string forged(std::size_t count) {
  std::vector<event> events = make_events();
  std::get<reported_person>(events[1].what).doctor = "Dr Ann Other";
  events.resize(count);
  return write_log(events, "quarterbreath 0.1.0", "");
}

signature_evidence evidence(const kept_version& v) {
  return evidence_of(signed_log_of(v.bytes, v.log), v.signatures.front());
}

std::vector<std::string> rules_of(const provenance& p) {
  std::vector<std::string> out;
  for (const finding& f : p.findings)
    out.push_back(f.rule);
  return out;
}
using rules = std::vector<std::string>;

} // namespace

TEST_CASE("the print is the key's own, whatever id the signature gives itself") {
  const std::string log = log_of_first(40);
  std::string text = seal::sign_file(log, key_of(2), words_for(log, key_of(2)));
  // The id of key 1 in the place of key 2's: 8 bytes after the two of the kind, in base64.
  const auto id_of = [&](unsigned char n) {
    const std::string other = seal::sign_file(log, key_of(n), "x");
    return other.substr(other.find('\n') + 1, 12);
  };
  const std::size_t at = text.find('\n') + 1;
  text.replace(at, 12, id_of(1));
  const auto e = evidence_of(signed_log_of(log, read_log(log).value()), text);
  CHECK(e.fingerprint != print_of(key_of(1)));
  CHECK((e.state == signature_state::bad || e.fingerprint == print_of(key_of(2))));
}

TEST_CASE("a signature whose comment names another kit, test, length or end is for another") {
  const std::string log = log_of_first(40);
  const std::string good = words_for(log, key_of(1));
  const auto with = [&](const std::string& from, const std::string& to) {
    return evidence(version(log, {seal::sign_file(log, key_of(1), changed(good, from, to))}));
  };
  CHECK(evidence(by(log, key_of(1))).state == signature_state::good);
  CHECK(with("kit:FV-3001", "kit:fv-3001").state == signature_state::good);
  for (const auto& [from, to] :
       std::vector<std::pair<std::string, std::string>>{{"kit:FV-3001", "kit:FV-3002"},
                                                        {"test:test-1", "test:test-2"},
                                                        {"events:40", "events:41"},
                                                        {"chain:", "chain:0"},
                                                        {"kit:FV-3001 ", ""},
                                                        {"chain:", "chains:"}}) {
    INFO(to);
    CHECK(with(from, to).state == signature_state::another);
  }
  // Records of earlier versions name kit and chain alone.
  CHECK(with("test:test-1 events:40 ", "").state == signature_state::good);
}

TEST_CASE("the key that everybody has proves nothing of a real test, and is practice's own") {
  const auto all = seal::practice_signing_key();
  CHECK(evidence(by(log_of_first(40), all)).state == signature_state::practice);
  CHECK(evidence(by(log_of_first(40, true), all)).state == signature_state::good);
  CHECK(rules_of(provenance_of({by(log_of_first(40), all)})) == rules{"signed-practice"});
}

TEST_CASE("unsigned, wrongly signed and signed for another are told, rightly signed is silent") {
  const std::string log = log_of_first(40);
  CHECK(rules_of(provenance_of({version(log)})) == rules{"log-unsigned"});
  CHECK(rules_of(provenance_of({wrongly(log, key_of(1))})) == rules{"signed-wrong"});
  CHECK(rules_of(provenance_of({by(log, key_of(1))})).empty());
  const std::string other = seal::sign_file(log, key_of(1), words_for(log_of_first(41), key_of(1)));
  CHECK(rules_of(provenance_of({version(log, {other})})) == rules{"signed-other"});
  // A scribble beside a good signature takes nothing from it.
  kept_version both = by(log, key_of(1));
  both.signatures.insert(both.signatures.begin(), "scribble");
  CHECK(rules_of(provenance_of({both})).empty());
}

TEST_CASE("a log that grew under another key or under none is told, with both prints") {
  const auto a = key_of(1);
  const auto same = provenance_of({by(log_of_first(30), a), by(log_of_first(40), a)});
  CHECK(rules_of(same).empty());
  CHECK(same.story == std::vector<std::size_t>{0, 1});
  const auto other = provenance_of({by(log_of_first(30), a), by(log_of_first(40), key_of(2))});
  REQUIRE(rules_of(other) == rules{"grown-other-key"});
  CHECK(other.counts == 1);
  CHECK(other.findings[0].words.find(print_of(a)) != std::string::npos);
  CHECK(other.findings[0].words.find(print_of(key_of(2))) != std::string::npos);
  const auto none = provenance_of({by(log_of_first(30), a), version(log_of_first(40))});
  CHECK(none.counts == 1);
  CHECK(rules_of(none) == rules{"grown-unsigned", "log-unsigned"});
  const auto wrong = provenance_of({by(log_of_first(30), a), wrongly(log_of_first(40), a)});
  CHECK(wrong.counts == 0);
  CHECK(rules_of(wrong) == rules{"growth-aside"});
}

TEST_CASE("a forged log that came first does not make the signed one refused, and is told") {
  const auto told = provenance_of({version(forged(60)), by(log_of_first(40), key_of(1))});
  CHECK(told.counts == 1);
  CHECK(rules_of(told) == rules{"log-differs"});
  CHECK(told.findings[0].words.find("the other not signed") != std::string::npos);
}

TEST_CASE("of two that are signed alike a person says which; what comes later is open again") {
  const std::vector<kept_version> two{by(log_of_first(40), key_of(1)), by(forged(40), key_of(2))};
  CHECK(rules_of(provenance_of(two)) == rules{"log-differs", "log-undecided"});
  for (const std::size_t i : {std::size_t{0}, std::size_t{1}}) {
    const version_choice said{two[i].digest, {two[0].digest, two[1].digest}, "R. Ashdown", "asked"};
    auto told = provenance_of(two, {said});
    CHECK(told.counts == i);
    REQUIRE(rules_of(told) == rules{"log-differs"});
    CHECK(told.findings[0].weight == consequence::note);
    std::vector<kept_version> three = two;
    three.push_back(by(log_of_first(50), key_of(1)));
    told = provenance_of(three, {said});
    CHECK(told.counts == (i == 0 ? 2 : 1)); // the story that was chosen grows
    CHECK((rules_of(told) == rules{"log-differs"}) == (i == 0));
  }
}

TEST_CASE("in whatever order versions come, the same one counts and the same is told") {
  std::mt19937 chance(20270406);
  const auto any = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(chance);
  };
  std::vector<std::string> logs;
  for (const std::size_t events : {30U, 40U, 50U}) {
    logs.push_back(log_of_first(events));
    logs.push_back(forged(events));
  }
  int with_wrong = 0;
  constexpr int runs = QB_UNDER_SANITIZERS ? 15 : 60;
  for (int run = 0; run < runs; ++run) {
    std::vector<kept_version> all;
    for (const std::string& log : logs) {
      if (any(3) == 0) continue;
      const auto key = key_of(static_cast<unsigned char>(1 + any(2)));
      switch (any(4)) {
      case 0: all.push_back(version(log)); break;
      case 1: all.push_back(wrongly(log, key)); break;
      case 2: all.push_back(by(log, seal::practice_signing_key())); break;
      default: all.push_back(by(log, key)); break;
      }
    }
    if (all.empty()) continue;
    const auto first = provenance_of(all);
    const std::string counts = all[first.counts].digest;
    const bool any_right = std::any_of(first.each.begin(), first.each.end(), holds);
    const bool wrong_counts = first.signature().state == signature_state::bad;
    const bool all_wrong =
        std::all_of(first.each.begin(), first.each.end(),
                    [](const signature_evidence& e) { return e.state == signature_state::bad; });
    with_wrong += any_right && !all_wrong ? 1 : 0;
    CHECK(wrong_counts == all_wrong);
    for (int turn = 0; turn < 3; ++turn) {
      std::shuffle(all.begin(), all.end(), chance);
      const auto again = provenance_of(all);
      CHECK(all[again.counts].digest == counts);
      REQUIRE(again.findings.size() == first.findings.size());
      for (std::size_t i = 0; i < first.findings.size(); ++i)
        CHECK(again.findings[i].words == first.findings[i].words);
    }
  }
  CHECK(with_wrong > runs / 3); // the case that matters is among them
}

} // namespace qb
