// Seals, opens, signs and checks what comes on standard input, for readers nobody here wrote.
// The programs do this only to records; here any bytes can be tried, as run_sealed does.
//   seal RECIPIENT DRAW     seals to an age recipient, with 128 hexadecimal digits of chance
//   open IDENTITY-FILE      opens with an age identity file
//   sign SEED COMMENT       a minisign signature, with 64 hexadecimal digits of seed
//   key SEED                the public key of that seed
//   check KEY SIGNATURE-FILE    whether it holds
//   log                     the log attached to a PDF
// Each answers on standard output with status 0, or refuses in one line with status 2.
#include "app/machine/files.hpp"
#include "app/opened/attached_files.hpp"
#include "core/base/json.hpp"
#include "core/seal/age.hpp"
#include "core/seal/minisign.hpp"

#include <cstdio>
#include <iostream>
#include <iterator>

namespace {

using namespace qb;

template <std::size_t size>
seal::secret<size> from_hex(const std::string& hex) {
  seal::secret<size> out;
  for (std::size_t i = 0; i < size; ++i)
    out.bytes[i] = static_cast<unsigned char>(std::stoi(hex.substr(2 * i, 2), nullptr, 16));
  return out;
}

result<std::string> sealed(const std::string& plain, const std::string& to,
                           const std::string& draw) {
  const auto recipient = seal::read_recipient(to);
  if (!recipient) return tl::unexpected(recipient.error());
  return seal::seal_to(*recipient, plain, seal::chance_for(from_hex<64>(draw), plain));
}

result<std::string> opened(const std::string& file, const std::string& identity_path) {
  const auto text = read_file(identity_path);
  if (!text) return tl::unexpected(text.error());
  const auto identities = seal::read_identity_file(*text);
  if (!identities) return tl::unexpected(identities.error());
  return seal::open_sealed(file, *identities);
}

result<std::string> checked(const std::string& bytes, const std::string& key_text,
                            const std::string& signature_path) {
  const auto text = read_file(signature_path);
  if (!text) return tl::unexpected(text.error());
  const auto key = seal::read_public_key(key_text);
  if (!key) return tl::unexpected(key.error());
  const auto signature = seal::read_signature(*text);
  if (!signature) return tl::unexpected(signature.error());
  if (const auto holds = seal::check_signature(bytes, *signature, *key); !holds)
    return tl::unexpected(holds.error());
  return signature->trusted_comment + "\n";
}

result<std::string> attached_log(const std::string& pdf) {
  const auto inside = attached_files(pdf, ".log.json", json::most_bytes);
  if (!inside) return tl::unexpected(inside.error());
  for (const page::attached_file& file : *inside)
    if (file.name.find(".minisig") == std::string::npos) return file.bytes;
  return tl::unexpected(refusal{refusal_kind::missing, "", "PDF", "no log", "a log"});
}

result<std::string> answer(const std::vector<std::string>& words, const std::string& in) {
  const std::string& what = words[0];
  if (what == "seal") return sealed(in, words.at(1), words.at(2));
  if (what == "open") return opened(in, words.at(1));
  if (what == "check") return checked(in, words.at(1), words.at(2));
  if (what == "log") return attached_log(in);
  const seal::signing_key key(from_hex<32>(words.at(1)));
  if (what == "sign") return seal::sign_file(in, key, words.at(2));
  return seal::public_key_text(seal::named(key.open_half()));
}

} // namespace

int main(int argc, char** argv) {
  const std::vector<std::string> words(argv + 1, argv + argc);
  const std::string in{std::istreambuf_iterator<char>(std::cin), {}};
  const auto out = answer(words, in);
  if (!out) {
    std::cerr << sentence(out.error()) << "\n";
    return 2;
  }
  std::cout << *out;
  return 0;
}
