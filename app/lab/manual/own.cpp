// The words of `set-up`, `people`, `reader-key`, `signed`, `requests` and `which`.
#include "app/lab/manual/manual.hpp"

namespace qb::lab {

namespace {

constexpr const char* set_up_text =
    R"(Once for a laboratory: its profile, its folder of assets (--assets), its zone,
the file with its age identity, the one that describes its analyser's tables,
the folders in which records (--inbox) and tables (--tables) arrive and to
which reports go (--reports), and its people. The store remembers, and no
command has to be told any of it again; of the identity it keeps the path,
never the key. The first set-up names the people, and a reader among them says
it. What is given later stands in place of what was told before, which stays in
the store with who told it and when. Without options it shows what is set up.

Another profile than this one, or another folder of assets, is refused
from then on, unless --another-profile says that it is meant; then every report,
export and FHIR resource says so. The invented laboratory that comes with the
program is set up only with --for-trying, and what is drawn from it is marked as
that, set up or not. --usual makes this store the one that is meant where
neither --store nor --data names another.

In a store that was never set up any name will do, but never a blank one, and
what decides says in one line that no laboratory is set up.)";

constexpr const char* people_text =
    R"(--by takes a name of this list as it is written, or its short code. A name that
is not on it is refused, with the list. What somebody may do is their role's:

  bench    receive, enter sheets, issue kits, take in readings and
           requests
  reader   conclude, set findings aside, forget, make a key of their own,
           set the laboratory up, change this list
  both     choose between readings, say whose a row is, which log counts

The list always has a reader. Who leaves may do nothing any more; what they did
stays theirs.)";

constexpr const char* reader_key_text =
    R"(A key (Ed25519) of the reader's own. Its secret half goes into the new file of
--out, sealed by a passphrase (Argon2id, XChaCha20-Poly1305); the store keeps
the public half and where the file lies. From then on `conclude` asks for the
passphrase and signs; a new key stands in place of an earlier one, and what that
signed goes on being good. The passphrase is asked for at the terminal without
showing it, or is the first line of the file of --passphrase (/dev/fd/3 is a
descriptor); it is never an option, since others can read those.

Keep a copy of the file where only you are. Whoever has it and the passphrase
signs as you; without either nobody can.)";

constexpr const char* signed_text =
    R"(What is signed are bytes that anybody can read: the conclusion, the case that it
rests on (record, tubes, findings, what was set aside) and the judgement, as
canonical JSON (core/case/conclusion_bytes.hpp). They go into the file of --out,
their signature beside it as FILE.minisig, and the line that checks them with
minisign is printed. Exit status 2 where the signature does not hold, or is by a
key that this reader never had.)";

constexpr const char* requests_text =
    R"(Whom each kit was meant for, by the hospital's own list: name, birth date,
hospital number, order number. A table (CSV) needs a description of its columns,
as demo-data/requests/columns.json is one; without --columns the file is FHIR: a
ServiceRequest, or a Bundle of them with their Patients, the kit's number in
specimen[0].identifier. All of a list is taken or nothing. A kit that is told
anew keeps what was told before.)";

constexpr const char* which_text =
    R"(For the day on which a rule, a criterion or a lot turns out wrong: every test
that used it, with when it was concluded. Of a lot those kits too that were
issued and of which nothing is here. A profile is the one that the record froze;
of a code or a paper sheet it is the laboratory's own. A lot is the register's,
or where a kit was not issued here the one that stands on its box; a run is that
of any reading of the test, those that do not count too.)";

// Every page's examples begin with a store of their own, build/try/NAME.db.
std::string set_up_command(const std::string& name) {
  return "quarterbreath-lab set-up --store build/try/" + name +
         ".db --for-trying \\\n"
         "  --profile fenwick-vale --zone Europe/London \\\n"
         "  --person \"R. Ashdown / ra / bench\" \\\n"
         "  --person \"Dr L. Fennimore / lf / reader\" --by lf";
}

std::string make_key_command(const std::string& name) {
  const std::string file = "build/try/" + name;
  return set_up_command(name) + "\necho \"six plain words of your own\" > " + file +
         ".phrase\n"
         "rm -f " +
         file +
         ".key\n"
         "quarterbreath-lab reader-key --by lf --out " +
         file +
         ".key \\\n"
         "  --passphrase " +
         file + ".phrase --store " + file + ".db";
}

} // namespace

std::vector<help::command_page> own_pages() {
  const std::string group = "The laboratory itself";
  return {{"set-up",
           group,
           "profile, zone, people: told once, and kept",
           set_up_text,
           {{"The invented laboratory, in a store of its own", set_up_command("own")},
            {"What is set up", "quarterbreath-lab set-up --store build/try/own.db"}},
           ""},
          {"people",
           group,
           "who works here, and who may do what",
           people_text,
           {{"The list",
             set_up_command("people") + "\nquarterbreath-lab people --store build/try/people.db"},
            {"Somebody comes, of both roles", "quarterbreath-lab people --by lf \\\n"
                                              "  --store build/try/people.db \\\n"
                                              "  --add \"Dr P. Ottoline / po / bench+reader\""},
            {"The bench may not change it",
             "quarterbreath-lab people --by ra --leaves lf \\\n  --store build/try/people.db", 2}},
           ""},
          {"reader-key",
           group,
           "a reader's own key, to sign conclusions with",
           reader_key_text,
           {{"A key, its passphrase in a file", make_key_command("keys")}},
           ""},
          {"signed",
           group,
           "a conclusion's bytes and signature, for other tools",
           signed_text,
           {{"A test is read and signed, and the signature taken out",
             make_key_command("signed") +
                 "\nquarterbreath-lab import --rehearsals build/try \\\n"
                 "  --store build/try/signed.db\n"
                 "quarterbreath-lab conclude FV-2072 --rehearsals --by lf \\\n"
                 "  --kind cannot-be-reported --words \"it was for training only.\" \\\n"
                 "  --passphrase build/try/signed.phrase --confirm 2979d0 \\\n"
                 "  --store build/try/signed.db\n"
                 "quarterbreath-lab signed FV-2072 --rehearsals \\\n"
                 "  --out build/try/FV-2072.signed.json --store build/try/signed.db"}},
           ""},
          {"requests",
           group,
           "a list of what was asked for, by kit",
           requests_text,
           {{"From a table", set_up_command("requests") +
                                 "\nquarterbreath-lab requests demo-data/requests/morning.csv \\\n"
                                 "  --columns demo-data/requests/columns.json --by ra \\\n"
                                 "  --store build/try/requests.db"}},
           ""},
          {"which",
           group,
           "which tests used a protocol, profile, criterion or lot",
           which_text,
           {{"All of one test", "quarterbreath-lab which --protocol lactulose-10g --rehearsals"},
            {"All of one lot", "quarterbreath-lab which --lot L7"}},
           ""}};
}

} // namespace qb::lab
