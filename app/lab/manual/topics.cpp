// What is about no single command: sealed records, and rules of a laboratory's own.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* sealed =
    R"(`age-keygen -o lab.key`, of the Debian package age, makes an identity. Its
recipient, age1..., goes into your profile as seal_to; the file stays with you,
readable by you alone, and opens what patients send: `import --identity`. The
invented laboratory's identity stands in demo-data/keys, for everybody to see.

None of our programs is needed to open a record: age opens the seal, pdfdetach
of the package poppler-utils takes the log out, minisign checks the signature
with the key that stands in its third line.)";

constexpr const char* rules =
    R"(The laboratory that comes with the program is invented, and so are its choices.
Write your own profile, tests and criteria in a copy of the folder assets,
check them, and give them to both programs by --assets; quarterbreath(1) checks
profiles and tests. A log that was made under other rules than yours is noted.)";

} // namespace

std::vector<help::topic> topics() {
  return {{"Sealed to you",
           sealed,
           {{"By hand", "age --decrypt --identity demo-data/keys/fenwick-vale.identity.txt \\\n"
                        "  --output build/try/opened.pdf \\\n"
                        "  build/try/practice-quarterbreath-FV-2072.sheet.pdf.age\n"
                        "pdfdetach -saveall -o build/try build/try/opened.pdf\n"
                        "minisign -V -m build/try/practice-quarterbreath-FV-2072.log.json \\\n"
                        "  -P \"$(sed -n 's/.* key://p' build/try/*.log.json.minisig)\""}}},
          {"Rules of your own",
           rules,
           {{"A record against a copy of the rules",
             "cp -r assets build/try/our-rules\n"
             "quarterbreath-lab --assets build/try/our-rules show FV-2072"}}}};
}

} // namespace qb::lab
