// Checking, ranking, and the words of what was found.
#include "core/report/provenance.hpp"

#include "core/report/same_test.hpp"
#include "core/seal/practice_key.hpp"

#include <algorithm>
#include <fmt/core.h>
#include <tuple>

namespace qb::inline reports {

namespace {

// How much a signature speaks for a version: a key that everybody has as little as none.
int worth(signature_state s) {
  switch (s) {
  case signature_state::good: return 2;
  case signature_state::practice:
  case signature_state::none: return 1;
  case signature_state::another:
  case signature_state::bad: return 0;
  }
  QB_BELIEVE(false);
  return 0;
}

// Of several signatures the one that proves most; which of equal ones does not depend on the order.
signature_evidence best_of(const kept_version& v) {
  const signed_log log = signed_log_of(v.bytes, v.log);
  signature_evidence out = evidence_of(log, std::nullopt);
  bool any = false;
  const auto key = [](const signature_evidence& e) {
    return std::make_tuple(-worth(e.state), e.state, e.fingerprint, e.comment, e.why_bad);
  };
  for (const std::string& text : v.signatures) {
    signature_evidence one = evidence_of(log, text);
    if (!any || key(one) < key(out)) out = std::move(one);
    any = true;
  }
  return out;
}

std::string signed_how(const signature_evidence& e) {
  switch (e.state) {
  case signature_state::good: return "signed with the key " + e.fingerprint;
  case signature_state::practice: return "signed with the practice key that everybody has";
  case signature_state::none: return "not signed";
  case signature_state::another: return "signed for another record (" + e.why_bad + ")";
  case signature_state::bad: return "wrongly signed (" + e.why_bad + ")";
  }
  QB_BELIEVE(false);
  return {};
}

finding of_test(const char* rule, consequence weight, std::string words) {
  return {rule, weight, {}, {}, {}, std::move(words)};
}

class weighing {
public:
  weighing(const std::vector<kept_version>& versions, const std::vector<version_choice>& choices)
      : all_(versions), choice_(choices.empty() ? nullptr : &choices.back()) {
    for (const kept_version& v : all_)
      out_.each.push_back(best_of(v));
    for (const kept_version& a : all_) {
      relations_.emplace_back();
      for (const kept_version& b : all_)
        relations_.back().push_back(&a == &b ? log_relation::same
                                             : compare_logs(a.log, b.log).what);
    }
  }

  provenance run() {
    out_.counts = chosen().value_or(best(all_indices()));
    tell_story();
    own_signature();
    growth();
    others();
    return std::move(out_);
  }

private:
  using indices = std::vector<std::size_t>;

  [[nodiscard]] indices all_indices() const {
    indices out;
    for (std::size_t i = 0; i < all_.size(); ++i)
      out.push_back(i);
    return out;
  }
  [[nodiscard]] int worth_of(std::size_t i) const { return worth(out_.each[i].state); }
  [[nodiscard]] bool grew(std::size_t from, std::size_t to) const {
    return relations_[from][to] == log_relation::grown;
  }
  [[nodiscard]] bool differ(std::size_t a, std::size_t b) const {
    return relations_[a][b] == log_relation::contradicts;
  }

  // The best signature of a version and of those it grew from: what a story rests on.
  [[nodiscard]] int support(std::size_t i) const {
    int most = worth_of(i);
    if (most == 0) return 0;
    for (std::size_t j = 0; j < all_.size(); ++j)
      if (grew(j, i)) most = std::max(most, worth_of(j));
    return most;
  }
  // The smaller, the better. All but the digest tells two stories apart; that one only keeps the
  // answer the same in every order, and says nothing for a version.
  [[nodiscard]] auto standing(std::size_t i) const {
    return std::make_tuple(-support(i), -worth_of(i), !all_[i].log.mismatches.empty());
  }
  [[nodiscard]] auto order(std::size_t i) const {
    return std::make_tuple(standing(i), -static_cast<std::int64_t>(all_[i].log.events.size()),
                           all_[i].digest);
  }

  // Of these, the best that none of them grew on: a growth goes before what it grew from, unless it
  // is wrongly signed.
  [[nodiscard]] std::size_t best(const indices& among) const {
    const bool all_wrong =
        std::all_of(among.begin(), among.end(), [&](std::size_t i) { return worth_of(i) == 0; });
    indices last;
    for (const std::size_t i : among) {
      if (!all_wrong && worth_of(i) == 0) continue;
      const bool grown_on = std::any_of(among.begin(), among.end(), [&](std::size_t j) {
        return grew(i, j) && (all_wrong || worth_of(j) > 0);
      });
      if (!grown_on) last.push_back(i);
    }
    return *std::min_element(last.begin(), last.end(),
                             [&](std::size_t a, std::size_t b) { return order(a) < order(b); });
  }

  // The version that a person said, or what that has grown into since.
  [[nodiscard]] std::optional<std::size_t> chosen() const {
    if (choice_ == nullptr) return std::nullopt;
    indices story;
    for (std::size_t i = 0; i < all_.size(); ++i)
      if (all_[i].digest == choice_->digest) story.push_back(i);
    if (story.empty()) return std::nullopt;
    const std::size_t said = story.front();
    for (std::size_t i = 0; i < all_.size(); ++i)
      if (grew(said, i) && !was_seen(i) && worth_of(i) > 0) story.push_back(i);
    if (story.size() == 1) return said;
    story.erase(story.begin());
    return best(story);
  }
  [[nodiscard]] bool was_seen(std::size_t i) const {
    return choice_ != nullptr && std::find(choice_->seen.begin(), choice_->seen.end(),
                                           all_[i].digest) != choice_->seen.end();
  }

  // Of each length of the story the best version, and none that is wrongly signed.
  void tell_story() {
    indices before;
    for (std::size_t i = 0; i < all_.size(); ++i)
      if (grew(i, out_.counts) && (worth_of(i) > 0 || worth_of(out_.counts) == 0))
        before.push_back(i);
    const auto events = [&](std::size_t i) { return all_[i].log.events.size(); };
    std::sort(before.begin(), before.end(), [&](std::size_t a, std::size_t b) {
      return std::make_tuple(events(a), order(a)) < std::make_tuple(events(b), order(b));
    });
    for (const std::size_t i : before)
      if (out_.story.empty() || events(out_.story.back()) != events(i)) out_.story.push_back(i);
    out_.story.push_back(out_.counts);
  }

  void say(const char* rule, consequence weight, std::string words) {
    out_.findings.push_back(of_test(rule, weight, std::move(words)));
  }

  void own_signature() {
    const signature_evidence& own = out_.signature();
    switch (own.state) {
    case signature_state::good: return;
    case signature_state::none:
      return say("log-unsigned", consequence::note, "no signature came with the log");
    case signature_state::practice:
      return say("signed-practice", consequence::review,
                 "the log is signed with the practice key, which everybody has");
    case signature_state::another:
      return say("signed-other", consequence::review,
                 "the signature beside the log is of another record: " + own.why_bad);
    case signature_state::bad:
      return say("signed-wrong", consequence::review,
                 "the signature beside the log does not hold: " + own.why_bad);
    }
  }

  // A record that was signed goes on being signed, with the same key.
  void growth() {
    const std::size_t* before = nullptr;
    for (const std::size_t& i : out_.story) {
      const signature_evidence& now = out_.each[i];
      if (before != nullptr && holds(out_.each[*before])) grown_on(*before, i, now);
      if (holds(now) || before == nullptr) before = &i;
    }
  }
  void grown_on(std::size_t before, std::size_t next, const signature_evidence& now) {
    const std::string& key = out_.each[before].fingerprint;
    const std::size_t events = all_[before].log.events.size();
    if (!holds(now))
      return say("grown-unsigned", consequence::review,
                 fmt::format("up to event {} the record is signed with the key {}; {} more events "
                             "came {}",
                             events, key, all_[next].log.events.size() - events, signed_how(now)));
    if (now.fingerprint != key)
      say("grown-other-key", consequence::review,
          fmt::format("up to event {} the record is signed with the key {}; {} more events came "
                      "signed with another, {}",
                      events, key, all_[next].log.events.size() - events, now.fingerprint));
  }

  // What is kept beside it and does not count, each once.
  void others() {
    bool open = false;
    for (std::size_t i = 0; i < all_.size(); ++i) {
      const bool settled = was_seen(i);
      if (differ(out_.counts, i)) {
        if (told_by_growth(i)) continue;
        another_story(i, settled);
        open = open || (!settled && standing(i) == standing(out_.counts));
      } else if (grew(out_.counts, i)) {
        say("growth-aside", settled ? consequence::note : consequence::review,
            fmt::format("{} more events came, {}, and were set aside{}",
                        all_[i].log.events.size() - all_[out_.counts].log.events.size(),
                        signed_how(out_.each[i]), decision(settled)));
      }
    }
    if (open)
      say("log-undecided", consequence::review,
          "logs of this test contradict each other and none is better signed: a named person says "
          "which counts (which-log)");
    std::sort(out_.findings.begin(), out_.findings.end(), [](const finding& a, const finding& b) {
      return std::tie(a.rule, a.words) < std::tie(b.rule, b.words);
    });
  }
  // A story that contradicts is told once, by its last version.
  [[nodiscard]] bool told_by_growth(std::size_t i) const {
    for (std::size_t j = 0; j < all_.size(); ++j)
      if (grew(i, j) && differ(out_.counts, j) && was_seen(i) == was_seen(j)) return true;
    return false;
  }
  [[nodiscard]] std::string decision(bool settled) const {
    return settled ? fmt::format("; {} decided: {}", choice_->by, choice_->reason) : std::string();
  }
  void another_story(std::size_t i, bool settled) {
    auto one = aside_finding(all_[out_.counts].log, all_[i].log);
    if (!one) return;
    one->words +=
        fmt::format("; the log that counts is {}, the other {}{}", signed_how(out_.signature()),
                    signed_how(out_.each[i]), decision(settled));
    if (settled) one->weight = consequence::note;
    out_.findings.push_back(std::move(*one));
  }

  const std::vector<kept_version>& all_;
  const version_choice* choice_;
  std::vector<std::vector<log_relation>> relations_; // of the second, held against the first
  provenance out_;
};

} // namespace

signature_evidence evidence_of(const signed_log& log, const std::optional<std::string>& signature) {
  signature_evidence out;
  if (!signature) return out;
  out.state = signature_state::bad;
  const auto read = seal::read_signature(*signature);
  if (!read) {
    out.why_bad = sentence(read.error());
    return out;
  }
  const std::string text = signed_word(read->trusted_comment, "key");
  auto key = seal::read_public_key(text);
  if (!key) {
    out.why_bad = "its comment names no key";
    return out;
  }
  out.fingerprint = seal::fingerprint(seal::named(key->key).id);
  key->id = read->id; // whatever name it goes by, it is the key that is asked
  if (const auto good = seal::check_signature(log.bytes, *read, *key); !good) {
    out.why_bad = sentence(good.error());
    return out;
  }
  out.key = text;
  out.comment = read->trusted_comment;
  if (auto other = signed_for_another(out.comment, log)) {
    out.state = signature_state::another;
    out.why_bad = std::move(*other);
    return out;
  }
  const bool known_to_all = key->key == seal::practice_signing_key().open_half();
  out.state = known_to_all && !log.rehearsal ? signature_state::practice : signature_state::good;
  return out;
}

provenance provenance_of(const std::vector<kept_version>& versions,
                         const std::vector<version_choice>& choices) {
  QB_BELIEVE(!versions.empty());
  return weighing(versions, choices).run();
}

} // namespace qb::inline reports
