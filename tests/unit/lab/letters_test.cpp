// What is drafted where a test cannot be reported: letters and the slip for a new kit.
#include "app/lab/render/letters.hpp"

#include "core/case/concluding.hpp"
#include "tests/unit/case/cases.hpp"
#include "tests/unit/lab/laboratory.hpp"

#include <algorithm>

namespace qb::lab {

using Catch::Contains;

namespace {

// A box with a bad lid, concluded as one that cannot be reported.
class barred_test : public laboratory {
public:
  explicit barred_test(const std::string& words = "too few tubes are left.") {
    import();
    box("FV-3001", "y !4 !7");
    at.by = "Dr L. Fennimore";
    REQUIRE(not_to_be_reported(words) == 0);
  }
  int letters(const std::string& folder = "out") {
    return run([&](const shared_options& shared, const console& to) {
      return write_letters(shared, at, {"FV-3001", path(folder)}, to);
    });
  }
  std::string text() {
    REQUIRE(letters() == 0);
    return file("out/FV-3001.letters.txt");
  }
};

// One paper of three, by its title, with its lines joined again.
std::string paper(const std::string& text, const std::string& title) {
  const std::size_t from = text.find(title);
  REQUIRE(from != std::string::npos);
  std::string out = text.substr(from, text.find("=====", from) - from);
  std::replace(out.begin(), out.end(), '\n', ' ');
  return out;
}

constexpr const char* to_patient = "Your breath test cannot be reported";
constexpr const char* to_doctor = "A breath test that cannot be reported";
constexpr const char* to_bench = "A new kit, if it is wanted";

} // namespace

TEST_CASE("a test that cannot be reported drafts two letters and the slip for a new kit") {
  barred_test lab;
  const std::string text = lab.text();
  CHECK_THAT(text, Contains("To Odile Marchbank") && Contains("To Dr "));
  CHECK_THAT(paper(text, to_patient), Contains("of 6 April 2027 (kit FV-3001)") &&
                                          Contains("The lid of a tube was not closed well") &&
                                          Contains("(tubes 4 and 7).") &&
                                          Contains("nothing was found, and nothing was ruled out"));
  CHECK_THAT(paper(text, to_doctor),
             Contains("too few tubes are left. (Dr L. Fennimore, 2027-04-09)") &&
                 Contains("lid-bad") && Contains("neither a positive nor a negative result"));
  CHECK_THAT(paper(text, to_bench), Contains("In place of kit: FV-3001") &&
                                        Contains("New kit number ____") &&
                                        Contains("lactulose-10g"));
  CHECK_THAT(lab.file("out/FV-3001.letters.pdf"), Contains("%PDF-"));
}

TEST_CASE("letters are drafts of an invented laboratory, signed by nobody, on every page") {
  barred_test lab;
  const std::string text = lab.text();
  const auto count = [&](const std::string& words) {
    std::size_t n = 0;
    for (std::size_t at = text.find(words); at != text.npos; at = text.find(words, at + 1))
      ++n;
    return n;
  };
  CHECK(count(page::letter_draft) == 3);
  CHECK(count("For trying") == 3);
  CHECK(count("Signature ___") == 3);
  CHECK(found_in(text) == found_output::plain);
  CHECK(found_in(lab.file("out/FV-3001.letters.pdf")) == found_output::draft);
  CHECK(lab.letters() == 0); // drafts give way to later drafts
}

TEST_CASE("no letter tells anybody to start or to leave out a medicine, or what they have") {
  barred_test lab;
  const std::string text = lab.text();
  CHECK_THAT(paper(text, to_patient), Contains("do not change any medicine"));
  for (const char* never : {"SIBO", "overgrowth", "intolerance", "stop taking", "malabsorption"})
    CHECK_THAT(text, !Contains(never));
}

TEST_CASE("where no finding tells the reason, the reader's own words stand in the letter") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  std::string table = table_head;
  for (int tube = 1; tube <= 10; ++tube)
    table += "FV-3001," + std::to_string(tube) + ",5,1,5,2027-04-09 10:00\n";
  REQUIRE(lab.readings(table) == 0);
  REQUIRE(lab.not_to_be_reported("the analyser was found out of order later.") == 0);
  CHECK_THAT(lab.out, Contains("to draft its letters: quarterbreath-lab letters test-1"));
  REQUIRE(lab.run([&](const shared_options& shared, const console& to) {
    return write_letters(shared, lab.at, {"FV-3001", lab.path("out")}, to);
  }) == 0);
  CHECK_THAT(paper(lab.file("out/FV-3001.letters.txt"), to_patient),
             Contains("The reader wrote: the analyser was found out of order later."));
}

TEST_CASE("only what cannot be reported has letters, and no longer once more came") {
  laboratory lab;
  const auto letters = [&] {
    return lab.run([&](const shared_options& shared, const console& to) {
      return write_letters(shared, lab.at, {"FV-3001", lab.path("out")}, to);
    });
  };
  lab.import();
  REQUIRE(lab.box("FV-3001", "y") == 0);
  CHECK(letters() == 2);
  CHECK_THAT(lab.err, Contains("a test that nobody concluded"));
  REQUIRE(lab.conclude("Nothing.") == 0);
  CHECK(letters() == 2);
  CHECK_THAT(lab.err, Contains("a test that was reported"));
  barred_test barred;
  REQUIRE(barred.box("FV-3001", "-5") == 0);
  CHECK(barred.letters() == 2);
  CHECK_THAT(barred.err, Contains("more came after"));
  CHECK(barred.file("out/FV-3001.letters.txt").empty());
}

TEST_CASE("a conclusion drafts its letters in the same go, and so does the batch of reports") {
  laboratory lab;
  lab.import();
  REQUIRE(lab.box("FV-3001", "y !4") == 0);
  conclude_options o{"FV-3001", "the lids.", "cannot-be-reported", "", "", "test-1"};
  o.letters = lab.path("letters");
  o.kind = "final";
  CHECK(lab.conclude(o) == 2);
  CHECK_THAT(lab.err, Contains("--letters"));
  o.kind = "cannot-be-reported";
  CHECK(lab.conclude(o) == 0);
  CHECK_THAT(lab.file("letters/FV-3001.letters.txt"), Contains(to_doctor));
  CHECK(lab.run([&](const shared_options& shared, const console& to) {
    report_options all;
    all.format = "json";
    all.out = lab.path("reports");
    all.all = true;
    return write_all_reports(shared, lab.at, all, to);
  }) == 0);
  CHECK_THAT(lab.file("reports/FV-3001.letters.txt"), Contains(to_bench));
}

TEST_CASE("what was told during the test is for the doctor, and to be looked at before a new kit") {
  const auto rules = test::house_rules();
  const std::vector<finding> found{
      {"warning-signs", consequence::review, {}, {}, {}, "fainting was told"}};
  received_kit received = test::with_readings(test::rising);
  kept_case kept;
  kept.what = test::case_with(received, rules, {}, found);
  kept.received = received;
  conclusion last{"FV-3001", "not this one.", "Dr Osk", made_start()};
  last.kind = conclusion_kind::cannot_be_reported;
  kept.what.concluded = last;
  const auto text = letters_text(letters_of(kept, rules.profile).value());
  CHECK_THAT(paper(text, to_doctor), Contains("Warning signs told"));
  CHECK_THAT(paper(text, to_bench), Contains("A reader looked at this: Warning signs told"));
  CHECK_THAT(paper(text, to_patient), !Contains("Warning signs"));
}

} // namespace qb::lab
