// The words.
#include "app/lab/intake/evidence.hpp"

namespace qb::lab {

namespace {

constexpr const char* proves = "unchanged since export by whoever held this device";

const char* key_of(signature_state s) {
  switch (s) {
  case signature_state::none: return "none";
  case signature_state::good: return "good";
  case signature_state::practice: return "practice-key";
  case signature_state::another: return "for-another";
  case signature_state::bad: return "does-not-match";
  }
  QB_BELIEVE(false);
  return "";
}

} // namespace

std::string evidence_text(const signature_evidence& e) {
  if (e.state == signature_state::none) return "none came with the log";
  if (e.state == signature_state::bad) return "DOES NOT MATCH: " + e.why_bad;
  if (e.state == signature_state::another) return "SIGNED FOR ANOTHER: " + e.why_bad;
  if (e.state == signature_state::practice)
    return "BY THE PRACTICE KEY, which everybody has: proves nothing";
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
