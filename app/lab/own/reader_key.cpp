// The commands `reader-key` and `signed`.
#include "app/lab/own/own_commands.hpp"

#include "app/lab/context/case_file.hpp"
#include "app/machine/device_key.hpp"
#include "app/machine/files.hpp"
#include "app/machine/passphrase.hpp"
#include "core/base/text.hpp"
#include "core/seal/bytes.hpp"
#include "core/seal/sealed_seed.hpp"

#include <filesystem>
#include <fmt/core.h>

namespace qb::lab {

namespace {

constexpr std::size_t least_passphrase = 10; // characters; fewer are tried out even at that cost

result<passphrase> chosen_passphrase(const std::string& file) {
  auto first = ask_passphrase(file, "A passphrase for your key");
  if (!first) return first;
  if (character_count(first->text()) < least_passphrase)
    return tl::unexpected(refusal{refusal_kind::out_of_range, "", "passphrase", "a short one",
                                  fmt::format("at least {} characters", least_passphrase)});
  if (!file.empty()) return first;
  const auto again = ask_passphrase(file, "The same once more");
  if (!again) return tl::unexpected(again.error());
  if (again->text() == first->text()) return first;
  return tl::unexpected(
      refusal{refusal_kind::malformed, "", "passphrase", "two that differ", "the same twice"});
}

result<void> is_new_file(const std::string& path) {
  std::error_code none;
  if (!std::filesystem::exists(std::filesystem::symlink_status(path, none))) return {};
  return tl::unexpected(refusal{refusal_kind::out_of_range, path, "--out", "a file that is there",
                                "a new one: a key is never written over"});
}

} // namespace

int make_reader_key(const shared_options& shared, const lab_context_options& at,
                    const reader_key_options& o, const console& to) {
  const auto own = load_own_laboratory(shared.store);
  if (!own) return say_no(own.error(), to);
  if (!own->is_set_up)
    return say_no({refusal_kind::not_now, shared.store, "reader-key", "no laboratory",
                   "one that `set-up` set up, with this reader among its people"},
                  to);
  const auto who = acting_person(own->list(), at.by, work_act::make_key);
  if (!who) return say_no(who.error(), to);
  if (const auto fresh = is_new_file(o.out); !fresh) return say_no(fresh.error(), to);
  const auto words = chosen_passphrase(o.passphrase);
  if (!words) return say_no(words.error(), to);
  const seal::secret<64> chance = drawn_bytes();
  const seal::secret<32> seed(seal::taken<32>(seal::seen(chance.bytes)));
  const auto sealed = seal::seal_seed(seed, words->text(), drawn_bytes(),
                                      o.quick ? seal::least_cost() : seal::usual_cost());
  if (!sealed) return say_no(sealed.error(), to);
  if (const auto put = write_file(o.out, *sealed); !put) return say_no(put.error(), to);
  const seal::named_key key = seal::named(seal::signing_key(seed).open_half());
  std::error_code no_matter;
  const std::string path = std::filesystem::absolute(o.out, no_matter).lexically_normal();
  auto db = laboratory_store::open(shared.store);
  if (!db) return say_no(db.error(), to);
  const auto kept =
      db->put(laboratory_rows{{},
                              {{who->name, who->code, roles_text(who->roles),
                                seal::public_key_text(key), path, who->name, clock_moment()}}});
  if (!kept) return say_no(kept.error(), to);
  to.out(fmt::format("{}  signs with the key {}\npublic half: {}\nsealed half: {}\n", who->name,
                     seal::fingerprint(key.id), seal::public_key_text(key), path));
  return 0;
}

int write_signed(const shared_options& shared, const lab_context_options& at,
                 const signed_options& o, const console& to) {
  const auto opened = open_case(shared, at, o.kit);
  if (!opened) return say_no(opened.error(), to);
  const signed_evidence& e = opened->kept.reader_seal;
  if (e.state == reader_mark::none)
    return say_no({refusal_kind::missing, shared.store, "KIT",
                   opened->kept.what.concluded ? "a conclusion that is not signed"
                                               : "a kit that nobody concluded",
                   "one that a reader concluded with a key"},
                  to);
  for (const auto& [path, bytes] :
       {std::pair(o.out, &e.body), std::pair(o.out + ".minisig", &e.signature)}) {
    if (const auto put = write_file(path, *bytes); !put) return say_no(put.error(), to);
  }
  to.out(fmt::format("{}\nminisign -Vm {} -P {}\n", signed_words(e), o.out, e.key));
  return e.state == reader_mark::good ? 0
                                      : exit_status({refusal_kind::out_of_range, {}, {}, {}, {}});
}

} // namespace qb::lab
