// A signature checked against the key it names itself.
#include "app/lab/intake/evidence.hpp"

#include "core/seal/minisign.hpp"

namespace qb::lab {

namespace {

constexpr const char* proves = "unchanged since export by whoever held this device";

const char* key_of(signature_state s) {
  switch (s) {
  case signature_state::none: return "none";
  case signature_state::good: return "good";
  case signature_state::bad: return "does-not-match";
  }
  QB_BELIEVE(false);
  return "";
}

// The word after "key:" in a trusted comment.
std::string named_key_of(const std::string& comment) {
  constexpr std::string_view mark = " key:";
  const std::size_t at = comment.find(mark);
  if (at == std::string::npos) return {};
  const std::size_t from = at + mark.size();
  return comment.substr(from, comment.find(' ', from) - from);
}

} // namespace

signature_evidence evidence_of(const std::string& log_text,
                               const std::optional<std::string>& signature) {
  signature_evidence out;
  if (!signature) return out;
  out.state = signature_state::bad;
  const auto read = seal::read_signature(*signature);
  if (!read) {
    out.why_bad = sentence(read.error());
    return out;
  }
  out.fingerprint = seal::fingerprint(read->id);
  const std::string text = named_key_of(read->trusted_comment);
  const auto key = seal::read_public_key(text);
  if (!key) {
    out.why_bad = "its comment names no key";
    return out;
  }
  if (const auto holds = seal::check_signature(log_text, *read, *key); !holds) {
    out.why_bad = sentence(holds.error());
    return out;
  }
  out.state = signature_state::good;
  out.key = text;
  out.comment = read->trusted_comment;
  return out;
}

std::string evidence_text(const signature_evidence& e) {
  if (e.state == signature_state::none) return "none came with the log";
  if (e.state == signature_state::bad) return "DOES NOT MATCH: " + e.why_bad;
  return "good, key fingerprint " + e.fingerprint + "; proves only: " + proves;
}

json::value evidence_json(const signature_evidence& e) {
  const bool good = e.state == signature_state::good;
  return json::object{{"state", key_of(e.state)},
                      {"fingerprint", json::text_or_null(e.fingerprint)},
                      {"key", json::text_or_null(e.key)},
                      {"comment", json::text_or_null(e.comment)},
                      {"why", json::text_or_null(e.why_bad)},
                      {"proves", good ? json::value(proves) : json::value(nullptr)}};
}

} // namespace qb::lab
