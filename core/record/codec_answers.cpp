// Kit code, cautions and washouts as JSON and back.
#include "core/record/codec_answers.hpp"

#include "core/record/codec_parts.hpp"

namespace qb {

using json::fields;
using json::object;
using json::value;

value encode_fact(const reported_kit& x) {
  return object{{"code", x.code},
                {"kit_number", x.kit_number},
                {"protocol", x.protocol_id},
                {"expires", date_text(x.expires)}};
}
void decode_fact(fields& d, reported_kit& x) {
  x.code = d.text("code", most_words);
  x.kit_number = d.text("kit_number", most_words);
  x.protocol_id = d.text("protocol", most_words);
  x.expires = read_date(d, "expires");
}

value encode_fact(const reported_caution& x) {
  return object{{"rule", x.rule},
                {"answer", key_of(x.answer)},
                {"outcome", key_of(x.outcome)},
                {"who", x.who},
                {"words", x.words}};
}
void decode_fact(fields& d, reported_caution& x) {
  static const std::vector<std::string> answers{
      key_of(caution_answer::no), key_of(caution_answer::yes), key_of(caution_answer::unsure)};
  static const std::vector<std::string> outcomes{key_of(asked_outcome::not_asked),
                                                 key_of(asked_outcome::go_on),
                                                 key_of(asked_outcome::not_this_test)};
  x.rule = d.text("rule", most_words);
  x.answer = static_cast<caution_answer>(d.choice("answer", answers));
  x.outcome = static_cast<asked_outcome>(d.choice("outcome", outcomes));
  x.who = d.text("who", most_words, true);
  x.words = d.text("words", most_words, true);
}

value encode_fact(const reported_washout& x) {
  return object{{"rule", x.what.rule},
                {"answer", key_of(x.what.answer)},
                {"on", x.what.on ? value(date_text(*x.what.on)) : value(nullptr)},
                {"agreed", x.what.agreed},
                {"who", x.who}};
}
void decode_fact(fields& d, reported_washout& x) {
  static const std::vector<std::string> answers{
      key_of(washout_answer::never), key_of(washout_answer::last_on), key_of(washout_answer::until),
      key_of(washout_answer::cannot_stop), key_of(washout_answer::unknown)};
  x.what.rule = d.text("rule", most_words);
  x.what.answer = static_cast<washout_answer>(d.choice("answer", answers));
  const bool dated =
      x.what.answer == washout_answer::last_on || x.what.answer == washout_answer::until;
  if (dated) {
    x.what.on = read_date(d, "on");
  } else {
    d.null("on");
  }
  x.what.agreed = d.boolean("agreed");
  x.who = d.text("who", most_words, true);
}

} // namespace qb
