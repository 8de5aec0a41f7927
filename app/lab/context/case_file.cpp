// Finding the record, then the join.
#include "app/lab/context/case_file.hpp"

#include "app/lab/context/judge_assets.hpp"
#include "app/lab/intake/versions.hpp"
#include "app/machine/files.hpp"
#include "core/case/case_parts.hpp"
#include "core/record/log.hpp"

namespace qb::lab {

namespace {

result<finding_rules> load_finding_rules(const std::string& assets) {
  const std::string path = assets + "/findings/findings.json";
  const auto text = read_file(path);
  if (!text) return tl::unexpected(text.error());
  auto rules = read_finding_rules(*text);
  if (!rules) return tl::unexpected(in_file(rules.error(), path));
  return rules;
}

refusal no_case(const lab_context& at, std::string found, std::string expected) {
  return {refusal_kind::missing, at.shared().store, "", std::move(found), std::move(expected)};
}

// The evidence of log and code, which the case itself does not hold.
result<kept_case> kept_of(const lab_context& at, test_case what, received_kit received,
                          known_kit known) {
  kept_case out;
  out.what = std::move(what);
  out.received = std::move(received);
  out.log = known.events;
  out.rehearsal = known.rehearsal;
  out.known = std::move(known);
  out.mark = at.standing().mark;
  if (out.what.concluded) {
    auto seal = signature_of(at.received(), at.own(), *out.what.concluded);
    if (!seal) return tl::unexpected(seal.error());
    out.reader_seal = std::move(*seal);
  }
  if (out.known.code) {
    auto seal = seal_evidence_of(at.logs(), *out.known.code);
    if (!seal) return tl::unexpected(seal.error());
    out.seal = std::move(*seal);
  }
  if (!out.log) return out;
  const std::string& id = out.known.log->test_id;
  const auto told = provenance_in(at.logs(), id, &*out.log);
  if (!told) return tl::unexpected(in_file(told.error(), at.shared().store));
  out.signature = told->signature();
  auto beside = code_beside_of(at.logs(), id, *out.log);
  if (!beside) return tl::unexpected(beside.error());
  out.beside = std::move(*beside);
  return out;
}

result<kept_case> load_case(const lab_context& at, const case_rules& rules, named_test named) {
  kept_test& test = named.of.tests[named.which];
  if (!test.known.told)
    return tl::unexpected(
        named.of.only_practice
            ? no_case(at, "practice, not a test",
                      "a test, or --rehearsals for practice marked as such")
            : no_case(at, "neither log, code nor paper sheet of it",
                      "a kit number or test id that was imported or scanned, or entered by paper"));
  auto one = case_of_known(at, rules, test.received, test.known);
  if (!one) return tl::unexpected(one.error());
  auto out = kept_of(at, std::move(*one), std::move(test.received), std::move(test.known));
  if (out) out->looked_at = std::move(named.of);
  return out;
}

} // namespace

result<case_rules> load_case_rules(const lab_context& at) {
  case_rules out;
  out.profile = at.profile();
  auto findings = load_finding_rules(at.options().assets);
  if (!findings) return tl::unexpected(findings.error());
  out.findings = std::move(*findings);
  auto judging = load_judging_rules(at.options().assets);
  if (!judging) return tl::unexpected(judging.error());
  out.judging = std::move(*judging);
  return out;
}

result<test_case> case_of_known(const lab_context& at, const case_rules& rules,
                                const received_kit& received, const known_kit& known) {
  std::vector<finding> box = as_findings(at.findings_of(received, known));
  if (known.log) {
    if (known.beside)
      for (finding& f : beside_findings(*known.beside, known.events->events))
        box.push_back(std::move(f));
    auto from = provenance_in(at.logs(), known.log->test_id, &*known.events);
    if (!from) return tl::unexpected(in_file(from.error(), at.shared().store));
    for (finding& f : from->findings)
      box.push_back(std::move(f));
    auto out = case_of(*known.events, *known.log, received, rules, box);
    if (!out) return tl::unexpected(in_file(out.error(), at.shared().store));
    return out;
  }
  if (known.code) {
    const protocol* test = at.test(known.code->protocol_id);
    if (test == nullptr)
      return tl::unexpected(no_case(at, "a code of another test", "one of the laboratory's"));
    auto out = case_of(*known.code, *test, received, rules, at.shared().own, box);
    if (!out) return tl::unexpected(in_file(out.error(), at.shared().store));
    return out;
  }
  if (received.papers.empty())
    return tl::unexpected(no_case(at, "neither log, code nor paper sheet", "one of them"));
  const protocol* test = at.test(received.papers.back().protocol);
  if (test == nullptr)
    return tl::unexpected(no_case(at, "a paper sheet of another test", "one of the laboratory's"));
  return case_of(received.papers.back(), *test, received, rules, box);
}

kit_facts facts_of(const lab_context& at, const case_rules& rules, const received_kit& received,
                   const known_kit& known) {
  kit_facts out;
  out.received = &received;
  out.told = known.told ? &*known.told : nullptr;
  if (known.told) {
    if (auto one = case_of_known(at, rules, received, known)) {
      out.findings = std::move(one->findings);
      out.since = std::move(one->since);
      return out;
    }
  }
  // Of what makes no case yet the findings are weighed by the same rules.
  std::vector<finding> found = as_findings(at.findings_of(received, known));
  if (known.log)
    found.insert(found.begin(), known.log->findings.begin(), known.log->findings.end());
  out.findings = weigh_findings(found, protocol{}, received, rules);
  return out;
}

result<opened_case> open_case(const shared_options& shared, const lab_context_options& options,
                              const std::string& kit_or_test) {
  auto at = lab_context::open(shared, options, false);
  if (!at) return tl::unexpected(at.error());
  auto rules = load_case_rules(*at);
  if (!rules) return tl::unexpected(rules.error());
  auto named = find_test(*at, kit_or_test);
  if (!named) return tl::unexpected(named.error());
  auto kept = load_case(*at, *rules, std::move(*named));
  if (!kept) return tl::unexpected(kept.error());
  return opened_case{std::move(*at), std::move(*rules), std::move(*kept)};
}

} // namespace qb::lab
