// A laboratory that knows itself: what is set up once, who may do what, and what is refused then.
#include "app/lab/context/receiving_values.hpp"
#include "app/lab/context/signed_conclusion.hpp"
#include "app/lab/own/own_commands.hpp"
#include "core/base/csv.hpp"
#include "tests/unit/lab/laboratory.hpp"

#include <functional>

namespace qb::lab {

using Catch::Contains;

namespace {

// Set up for the invented laboratory, with one person at the bench and one reader.
class set_up_laboratory_of_two : public laboratory {
public:
  set_up_laboratory_of_two() {
    at.by = "lf";
    set_up_options o;
    o.profile = "fenwick-vale";
    o.zone = "Europe/London";
    o.people = {"R. Ashdown / ra / bench", "Dr L. Fennimore / lf / reader"};
    o.trying = true;
    REQUIRE(set_up(o) == 0);
    at.by = "R. Ashdown";
    at.profile.clear();
    at.zone.clear();
  }
  int set_up(const set_up_options& o) {
    return run([&](const shared_options& shared, const console& to) {
      return set_up_laboratory(shared, at, o, to);
    });
  }
  int people(const std::string& add, const std::string& leave) {
    return run([&](const shared_options& shared, const console& to) {
      return change_people(shared, at, {add, leave}, to);
    });
  }
  int conclude(const std::string& words, const std::string& passphrase = "",
               const std::string& kind = "") {
    const std::string reason = kind.empty() ? "" : "more became known";
    return laboratory::conclude(
        {"FV-3001", words, kind, reason, "lost on the way", "test-1", passphrase});
  }
  int key(const std::string& name, const std::string& words) {
    const std::string phrase = put("phrase", words + "\n");
    return run([&](const shared_options& shared, const console& to) {
      return make_reader_key(shared, at, {path(name), phrase, true}, to);
    });
  }
  int kits(const std::string& serial, const std::string& lot) {
    return run([&](const shared_options& shared, const console& to) {
      kit_code_options o;
      o.assets = at.assets;
      o.protocol = "lactulose-10g";
      o.profile = "fenwick-vale";
      o.expires = "2027-12-31";
      o.serial = serial;
      o.store = shared.store;
      o.by = at.by;
      o.lot = lot;
      return make_kit_codes(o, to);
    });
  }
  int report_all(const std::string& folder) {
    return run([&](const shared_options& shared, const console& to) {
      report_options o;
      o.format = "json";
      o.out = path(folder);
      o.all = true;
      return write_all_reports(shared, at, o, to);
    });
  }
  int which(const which_options& o) {
    return run([&](const shared_options& shared, const console& to) {
      return show_which(shared, at, o, to);
    });
  }
  int requests(const std::string& table) {
    const std::string columns =
        put("columns.json", R"({"format":"quarterbreath-request-columns","version":1,"kit":"kit",)"
                            R"("name":"name","birth_date":"born"})");
    const std::string file = put("requests.csv", table);
    return run([&](const shared_options& shared, const console& to) {
      return take_requests(shared, at, {file, columns}, to);
    });
  }
};

} // namespace

TEST_CASE("what was set up once needs not be said again: profile, zone and people") {
  set_up_laboratory_of_two lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(lab.out, Contains("arrived 9 Apr 2027"));
  lab.at.by = "ra"; // the code stands for the name
  CHECK(lab.box("FV-3001", "-7") == 0);
  CHECK_THAT(lab.out, Contains("tube 7 is not in the box"));
}

TEST_CASE("a set-up store takes another profile only on purpose, and every output says so") {
  set_up_laboratory_of_two lab;
  lab.import();
  const std::string other = repository() + "/assets/laboratories/fenwick-vale-kiosk.json";
  lab.at.profile = other;
  CHECK(lab.box("FV-3001", "y") == 2);
  CHECK_THAT(lab.err,
             Contains("--profile") && Contains("fenwick-vale") && Contains("--another-profile"));
  lab.at.another_profile = true;
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK_THAT(*lab.judged("FV-3001").find("mark")->text(),
             Contains("said on purpose: this laboratory's own is fenwick-vale"));
  // The mark holds commas, and is one cell all the same.
  const std::string table = lab.audit();
  auto rows = csv::reader::open(table, ",").value();
  for (int line = 0; line < 3; ++line) {
    const csv::row row = rows.next().value().value();
    CHECK(row.cells.size() == 12);
    if (line > 0) CHECK_THAT(row.cells.back(), Contains("said on purpose"));
  }
  lab.at.profile = "fenwick-vale"; // the same, said again
  lab.at.another_profile = false;
  CHECK(lab.box("FV-3001", "y") == 0);
}

TEST_CASE("the invented laboratory is marked on what is drawn from it, set up or not") {
  laboratory lab;
  lab.import();
  CHECK_THAT(*lab.judged("FV-3001").find("mark")->text(), Contains("invented laboratory"));
  lab.export_to("out");
  CHECK_THAT(lab.file("out/tests.csv"), Contains("For trying only"));
  CHECK_THAT(lab.file("out/fhir.ndjson"), Contains("For trying only"));
  set_up_laboratory_of_two own;
  own.import();
  CHECK_THAT(*own.judged("FV-3001").find("mark")->text(), Contains("invented laboratory"));
}

TEST_CASE("a laboratory is set up by a reader, with a profile that is its own, or on purpose") {
  laboratory lab;
  const auto set = [&](const set_up_options& o) {
    return lab.run([&](const shared_options& shared, const console& to) {
      return set_up_laboratory(shared, lab.at, o, to);
    });
  };
  set_up_options o;
  o.profile = "fenwick-vale";
  o.people = {"R. Ashdown / ra / bench", "Dr L. Fennimore / lf / reader"};
  o.trying = true;
  CHECK(set(o) == 2); // by R. Ashdown, of the bench
  CHECK_THAT(lab.err, Contains("somebody who may set the laboratory up: Dr L. Fennimore"));
  lab.at.by = "lf";
  o.trying = false;
  CHECK(set(o) == 2);
  CHECK_THAT(lab.err, Contains("an invented laboratory's"));
  o.trying = true;
  o.zone = "Europe/Nowhere";
  CHECK(set(o) == 2);
  o.zone.clear();
  o.people.pop_back();
  CHECK(set(o) == 2);
  CHECK_THAT(lab.err, Contains("no reader"));
  CHECK(set({}) == 0);
  CHECK_THAT(lab.out, Contains("no laboratory is set up"));
}

TEST_CASE("only a reader concludes, and only the bench receives; nobody unknown does anything") {
  set_up_laboratory_of_two lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK(lab.conclude("Nothing.") == 2);
  CHECK_THAT(lab.err, Contains("somebody who may conclude a test: Dr L. Fennimore (lf, reader)"));
  for (const char* nobody : {"", "Dr L. Fennimor", "lf2"}) {
    lab.at.by = nobody;
    CHECK(lab.conclude("Nothing.") == 2);
    CHECK_THAT(lab.err, Contains("one of: R. Ashdown (ra, bench); Dr L. Fennimore"));
    CHECK(lab.box("FV-3001", "-7") == 2);
  }
  lab.at.by = "lf";
  CHECK(lab.box("FV-3001", "-7") == 2);
  CHECK(lab.conclude("Nothing.") == 0);
  CHECK_THAT(lab.out, Contains("concluded by Dr L. Fennimore"));
}

TEST_CASE("who is not on the list, or has not the role, is refused at every door") {
  set_up_laboratory_of_two lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  const std::string sheet = "2027-04-06 07:30 07:45 08:00 08:15 08:30 08:45 09:00 09:15 09:30 "
                            "09:45 drink 07:32-07:34";
  const auto aside = [&] {
    return lab.run([&](const shared_options& shared, const console& to) {
      return override_finding(shared, lab.at, {"FV-3001", "sample-late", {}, "so", false}, to);
    });
  };
  const auto whose = [&] {
    lab.at.test = "test-1";
    const int status = lab.assign({"FV-3001", "so"});
    lab.at.test.clear();
    return status;
  };
  struct door {
    work_act act;
    std::function<int()> open;
  };
  const std::vector<door> doors{
      {work_act::receive, [&] { return lab.box("FV-3001", "y"); }},
      {work_act::enter_paper, [&] { return lab.paper(sheet); }},
      {work_act::measure,
       [&] {
         return lab.readings(std::string(table_head) + "FV-3001,1,4,1,5,2027-04-09 10:00\n");
       }},
      {work_act::choose, [&] { return lab.choose(1, 1, "so"); }},
      {work_act::settle,
       [&] {
         return lab.back({"FV-3001", "lid", 4, "so"});
       }},
      {work_act::settle, [&] { return lab.choose_log("ab", "so"); }},
      {work_act::settle, whose},
      {work_act::forget,
       [&] {
         return lab.forget_named({"FV-3001", "so"});
       }},
      {work_act::set_aside, aside},
      {work_act::conclude, [&] { return lab.conclude("So."); }},
      {work_act::issue_kits, [&] { return lab.kits("2C7H", "L7"); }},
      {work_act::take_requests, [&] { return lab.requests("kit,name,born\nFV-3001,O,\n"); }},
      {work_act::make_key, [&] { return lab.key("x.key", "a long passphrase"); }},
      {work_act::change_people, [&] { return lab.people("N / n / bench", ""); }},
      {work_act::set_up, [&] {
         set_up_options o;
         o.zone = "UTC";
         return lab.set_up(o);
       }}};
  for (const door& one : doors)
    for (const std::string& by :
         {std::string("R. Ashdown"), std::string("lf"), std::string(), std::string("A. Nobody")}) {
      lab.at.by = by;
      INFO(act_words(one.act) << " by \"" << by << "\"");
      const int status = one.open();
      const bool bench = by == "R. Ashdown";
      const bool known = bench || by == "lf";
      if (known && may({bench, !bench}, one.act)) {
        CHECK_FALSE(Contains("--by").match(lab.err));
      } else {
        CHECK(status == 2);
        CHECK_THAT(lab.err, Contains("--by: found"));
      }
    }
}

TEST_CASE("people come and leave by a reader's word, and a reader is left") {
  set_up_laboratory_of_two lab;
  CHECK(lab.people("Dr P. Ottoline / po / bench+reader", "") == 2); // by the bench
  lab.at.by = "lf";
  CHECK(lab.people("Dr P. Ottoline / po / bench+reader", "") == 0);
  CHECK_THAT(lab.out, Contains("Dr P. Ottoline  (po, bench+reader)"));
  CHECK(lab.people("", "ra") == 0);
  CHECK_FALSE(Contains("Ashdown").match(lab.out));
  lab.at.by = "ra";
  CHECK(lab.box("FV-3001", "y") == 2);
  lab.at.by = "po";
  CHECK(lab.people("", "lf") == 0);
  CHECK(lab.people("", "po") == 2);
  CHECK_THAT(lab.err, Contains("no reader"));
}

TEST_CASE("a reader with a key signs what they conclude, and what was signed is checked") {
  set_up_laboratory_of_two lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK(lab.key("ra.key", "a long passphrase") == 2); // the bench signs nothing
  lab.at.by = "lf";
  CHECK(lab.key("lf.key", "short") == 2);
  REQUIRE(lab.key("lf.key", "a long passphrase") == 0);
  CHECK(lab.key("lf.key", "a long passphrase") == 2); // never written over
  CHECK(lab.conclude("Nothing.", lab.put("wrong", "another passphrase\n")) == 2);
  CHECK(lab.judged("FV-3001").find("conclusion")->is_null());
  REQUIRE(lab.conclude("Nothing.", lab.put("phrase", "a long passphrase\n")) == 0);
  CHECK_THAT(lab.out, Contains("signed with the key"));
  const json::value judged = lab.judged("FV-3001");
  const json::value* signature = judged.find("conclusion")->find("signature");
  CHECK(*signature->find("state")->text() == "good");
  const auto write = [&] {
    return lab.run([&](const shared_options& shared, const console& to) {
      return write_signed(shared, lab.at, {"FV-3001", lab.path("c.json")}, to);
    });
  };
  REQUIRE(write() == 0);
  const auto key = seal::read_public_key(*signature->find("key")->text()).value();
  const auto read = seal::read_signature(lab.file("c.json.minisig")).value();
  CHECK(seal::check_signature(lab.file("c.json"), read, key).has_value());
  const auto body = json::parse(lab.file("c.json")).value();
  CHECK(*body.find("kit")->text() == "FV-3001");
  CHECK(*body.find("conclusion")->find("words")->text() == "Nothing.");
  CHECK(*body.find("person")->find("name")->text() == "Odile Marchbank");
  CHECK(json::canonical(body) + "\n" == lab.file("c.json"));
}

TEST_CASE("a signature is of one conclusion: not of other words, another kit or another's key") {
  set_up_laboratory_of_two lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  lab.at.by = "lf";
  REQUIRE(lab.key("lf.key", "a long passphrase") == 0);
  REQUIRE(lab.conclude("Nothing.", lab.put("phrase", "a long passphrase\n")) == 0);
  const auto state_of = [&](conclusion entry) {
    reader_mark out{reader_mark::none};
    lab.run([&](const shared_options& shared, const console&) {
      out = signature_of(receiving_store::open(shared.store).value(),
                         load_own_laboratory(shared.store).value(), entry)
                ->state;
      return 0;
    });
    return out;
  };
  conclusion entry{"FV-3001", "Nothing.", "Dr L. Fennimore",
                   instant{std::chrono::sys_days{std::chrono::year{2027} / 4 / 9} +
                           std::chrono::hours{9} + std::chrono::minutes{30}},
                   ""};
  entry.mark.test = "test-1";
  CHECK(state_of(entry) == reader_mark::good);
  entry.words = "Something.";
  CHECK(state_of(entry) == reader_mark::bad);
  entry.words = "Nothing.";
  entry.kit = "FV-3002";
  CHECK(state_of(entry) == reader_mark::bad);
  entry.kit = "FV-3001";
  entry.number = 2;
  CHECK(state_of(entry) == reader_mark::none);
  entry.number = 1;
  entry.mark.test = "test-2";
  CHECK(state_of(entry) == reader_mark::none);
  entry.mark.test = "test-1";
  lab.run([&](const shared_options& shared, const console&) {
    auto db = receiving_store::open(shared.store).value();
    auto row = db.signatures_of("test-1", 1)->front();
    seal::secret<32> seed;
    seed.bytes.fill(5);
    const seal::signing_key other(seed);
    row.signature =
        seal::sign_file(row.body, other, seal::read_signature(row.signature)->trusted_comment);
    row.key = seal::public_key_text(seal::named(other.open_half()));
    return db.put_issued(row_of(entry), {{}, {row}}, {}) ? 0 : 1;
  });
  CHECK(state_of(entry) == reader_mark::unknown);
}

TEST_CASE("where kits are issued, a number that none has is asked about at every door") {
  set_up_laboratory_of_two lab;
  CHECK(lab.kits("2C7H", "") == 2);
  CHECK_THAT(lab.err, Contains("--lot"));
  REQUIRE(lab.kits("2C7H", "L7") == 0);
  CHECK(lab.kits("2C7H", "L7") == 2);
  CHECK_THAT(lab.err, Contains("kit FV-2C7H, which was issued before"));
  CHECK(lab.box("fv 27ch", "y") == 2);
  CHECK_THAT(lab.err, Contains("no kit FV-27CH was issued; nearest issued: FV-2C7H"));
  CHECK_FALSE(Contains("FV-27CH").match(lab.work(true)));
  CHECK(lab.box("fv 2c7h", "lactulose-10g y") == 0);
  CHECK(lab.paper("2027-04-06 07:30 07:45 08:00 08:15 08:30 08:45 09:00 09:15 09:30 09:45 "
                  "drink 07:32-07:34") == 2);
  CHECK_THAT(lab.err, Contains("no kit FV-3002 was issued"));
  CHECK(lab.import_file("a.log.json", make_log({})) == 2);
  CHECK_THAT(lab.err, Contains("no kit FV-3001 was issued"));
  CHECK(lab.readings(std::string(table_head) + "FV-2C7J,1,4,1,5,2027-04-09 10:00\n") == 2);
  CHECK_THAT(lab.err, Contains("nearest issued: FV-2C7H"));
  CHECK(lab.requests("kit,name,born\nFV-2C7J,Odile,1948-05-17\n") == 2);
  CHECK_THAT(lab.err, Contains("nearest issued: FV-2C7H"));
  lab.at.not_issued = true;
  CHECK(lab.box("fv 27ch", "lactulose-10g y") == 0);
  CHECK_THAT(lab.work(true), Contains("FV-27CH"));
}

TEST_CASE("without a register a slip from a number that waits for its box is told of") {
  set_up_laboratory_of_two lab;
  const auto is_told = [&] {
    return lab.err.find("note: nothing is here of kit") != std::string::npos &&
           lab.err.find("one slip away is FV-3001") != std::string::npos;
  };
  lab.import();
  CHECK(lab.box("FV-3010", "lactulose-10g y") == 0);
  CHECK(is_told());
  CHECK(lab.paper("2027-04-06 07:30 07:45 08:00 08:15 08:30 08:45 09:00 09:15 09:30 09:45 "
                  "drink 07:32-07:34") == 0);
  CHECK(is_told());
  CHECK(lab.box("FV-4012", "lactulose-10g y") == 0);
  CHECK_FALSE(is_told());
  made_test practice;
  practice.rehearsal = true;
  practice.test_id = "practised";
  practice.kit_number = "FV-5001";
  REQUIRE(lab.import_file("practice.log.json", make_log(practice), true) == 0);
  CHECK(lab.box("FV-5011", "lactulose-10g y") == 0);
  CHECK(lab.err.find("one slip away") == std::string::npos);
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK(lab.box("FV-3011", "lactulose-10g y") == 0); // the other's box is here
  CHECK_FALSE(is_told());
}

TEST_CASE("with a register a number that was issued needs no telling, however near another is") {
  set_up_laboratory_of_two lab;
  REQUIRE(lab.kits("2C7H", "L7") == 0);
  REQUIRE(lab.kits("2C7J", "L7") == 0);
  made_test sent;
  sent.kit_number = "FV-2C7H";
  REQUIRE(lab.import_file("sent.log.json", make_log(sent)) == 0);
  CHECK(lab.box("FV-2C7J", "lactulose-10g y") == 0);
  CHECK(lab.err.find("one slip away") == std::string::npos);
}

TEST_CASE("requests are kept by kit, told anew where they differ, and passed over where not") {
  set_up_laboratory_of_two lab;
  CHECK(lab.requests("kit,name,born\nfv 3001,Odile Marchbank,1948-05-17\n") == 0);
  CHECK(lab.out == "1 new, 0 told anew, 0 already there\n");
  CHECK(lab.requests("kit,name,born\nFV-3001,Odile Marchbank,1948-05-17\nFV-3002,B,\n") == 0);
  CHECK(lab.out == "1 new, 0 told anew, 1 already there\n");
  CHECK(lab.requests("kit,name,born\nFV-3001,Odile Marchbank,1949-05-17\n") == 0);
  CHECK(lab.out == "0 new, 1 told anew, 0 already there\n");
  lab.at.by = "lf";
  CHECK(lab.requests("kit,name,born\nFV-3003,C,\n") == 2);
}

TEST_CASE("each concluded test is reported once, and again when it was concluded anew") {
  set_up_laboratory_of_two lab;
  lab.import();
  CHECK(lab.box("FV-3001", "y") == 0);
  lab.at.by = "lf";
  CHECK(lab.report_all("reports") == 0);
  CHECK_THAT(lab.out, Contains("0 of 0 reports"));
  REQUIRE(lab.conclude("Nothing.") == 0);
  CHECK(lab.report_all("reports") == 0);
  CHECK_THAT(lab.out, Contains("1 of 1 reports"));
  CHECK_THAT(lab.file("reports/FV-3001.report.json"), Contains("Nothing."));
  CHECK(lab.report_all("reports") == 0);
  CHECK_THAT(lab.out, Contains("0 of 0 reports"));
  REQUIRE(lab.conclude("Something.", "", "amended") == 0);
  CHECK(lab.report_all("reports") == 0);
  CHECK_THAT(lab.out, Contains("1 of 1 reports"));
}

TEST_CASE("an export of what is new has each kit once, until something of it changes") {
  set_up_laboratory_of_two lab;
  lab.import();
  const auto fresh = [&](const std::string& folder) {
    return lab.run([&](const shared_options& shared, const console& to) {
      return export_all(shared, lab.at, lab.path(folder), to, true);
    });
  };
  CHECK(fresh("a") == 0);
  CHECK_THAT(lab.out, Contains("1 kits"));
  CHECK(fresh("b") == 0);
  CHECK_THAT(lab.out, Contains("0 kits"));
  CHECK_FALSE(Contains("FV-3001").match(lab.file("b/tests.csv")));
  CHECK(lab.box("FV-3001", "y") == 0);
  CHECK(fresh("c") == 0);
  CHECK_THAT(lab.file("c/tests.csv"), Contains("FV-3001"));
}

TEST_CASE("which tests used a protocol, a profile, a criterion or a lot is one question") {
  set_up_laboratory_of_two lab;
  REQUIRE(lab.kits("2C7H", "L7") == 0);
  REQUIRE(lab.kits("2C7J", "L7") == 0);
  lab.at.not_issued = true;
  CHECK(lab.box("FV-2C7H", "lactulose-10g y") == 0);
  CHECK(lab.box("FV-9999", "glucose-75g y") == 0);
  const auto said = [&](const which_options& o) {
    REQUIRE(lab.which(o) == 0);
    return lab.out;
  };
  CHECK(said({"lactulose-10g", "", "", ""}) == "FV-2C7H  lactulose-10g  not concluded\n");
  CHECK_THAT(said({"", "", "", "L7"}),
             Contains("FV-2C7H  lactulose-10g") && Contains("FV-2C7J  issued, nothing of it"));
  CHECK_THAT(said({"", "fenwick-vale", "", ""}), Contains("FV-2C7H") && Contains("FV-9999"));
  CHECK(said({"lactose-25g", "", "", ""}) == "no test used it\n");
  CHECK(lab.which({}) == 2);
  CHECK(lab.which({"lactulose-10g", "", "", "L7"}) == 2);
}

} // namespace qb::lab
