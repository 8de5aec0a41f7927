// Sheets from others: what is attached to a whole one is found, and one that was changed in its
// structure is read or refused, whatever it says of itself.
#include "app/opened/attached_files.hpp"
#include "app/page/canvas.hpp"
#include "core/base/json.hpp"

#include <catch2/catch.hpp>

#include <cctype>
#include <cstdlib>
#define POINTERHOLDER_TRANSITION 4 // qpdf: its newest form
#include <qpdf/Buffer.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFWriter.hh>
#include <random>

using namespace qb;

namespace {

constexpr const char* made_at = "2027-04-06T10:05:00Z";

std::string sheet_with(const std::vector<page::attached_file>& files) {
  page::canvas c("A page", made_at);
  c.line(0, 0, 1, 1, 1);
  return page::with_attachments(c.finish().value(), files, made_at).value();
}

result<std::vector<page::attached_file>> inside(const std::string& pdf) {
  return attached_files(pdf, ".log.json", json::most_bytes);
}

// A word of the document's own language: where it begins, and how long it is.
struct word {
  std::size_t at;
  std::size_t size;
};

bool is_of_a_word(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '/' || c == '.' || c == '-';
}

std::vector<word> words_of(const std::string& pdf) {
  std::vector<word> out;
  for (std::size_t at = 0; at < pdf.size();) {
    std::size_t end = at;
    while (end < pdf.size() && is_of_a_word(pdf[end]))
      ++end;
    if (end > at) out.push_back({at, end - at});
    at = end + 1;
  }
  return out;
}

// One word becomes another of the same document, in its own room, so that the table of objects
// still fits; or a number becomes one that nobody expects.
void change_a_word(std::string& pdf, const std::vector<word>& words, std::minstd_rand& dice) {
  const word& one = words[dice() % words.size()];
  const word& other = words[dice() % words.size()];
  std::string text = pdf.substr(other.at, other.size);
  if (dice() % 3 == 0) text = std::string(1 + dice() % 9, dice() % 2 == 0 ? '9' : '0');
  if (text.size() > one.size) return;
  text.resize(one.size, ' ');
  pdf.replace(one.at, one.size, text);
}

// The ways in which qpdf's own writer writes the same document.
struct form {
  const char* name;
  void (*set)(QPDFWriter&);
};
constexpr form forms[] = {
    {"as it is", [](QPDFWriter&) {}},
    {"objects in streams", [](QPDFWriter& w) { w.setObjectStreamMode(qpdf_o_generate); }},
    {"linearised", [](QPDFWriter& w) { w.setLinearization(true); }},
    {"linearised, objects in streams",
     [](QPDFWriter& w) {
       w.setLinearization(true);
       w.setObjectStreamMode(qpdf_o_generate);
     }},
    {"to be read by people", [](QPDFWriter& w) { w.setQDFMode(true); }},
    {"nothing deflated",
     [](QPDFWriter& w) {
       w.setCompressStreams(false);
       w.setDecodeLevel(qpdf_dl_all);
     }},
    {"encrypted without a password",
     [](QPDFWriter& w) {
       w.setR6EncryptionParameters("", "owner", true, true, true, true, true, true, qpdf_r3p_full,
                                   true);
     }},
};

std::string written_as(const std::string& pdf, const form& how) {
  QPDF document;
  document.processMemoryFile("PDF", pdf.data(), pdf.size());
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setStaticID(true);
  how.set(writer);
  writer.write();
  const auto out = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(out->getBuffer()), out->getSize()};
}

void change_a_byte(std::string& pdf, std::minstd_rand& dice) {
  pdf[dice() % pdf.size()] = static_cast<char>(dice() % 256);
}

} // namespace

TEST_CASE("attachments of the ending are found, with the signature beside, and no others") {
  const auto found = inside(sheet_with({{"a.log.json", "{}", "application/json", "log"},
                                        {"a.log.json.minisig", "sig", "text/plain", "signature"},
                                        {"b.csv", "x", "text/csv", "samples"}}));
  REQUIRE(found);
  REQUIRE(found->size() == 2);
  CHECK(found->at(0).name == "a.log.json");
  CHECK(found->at(0).bytes == "{}");
  CHECK(found->at(1).bytes == "sig");
  CHECK(inside(sheet_with({}))->empty());
}

TEST_CASE("an attachment of any bytes comes back as it is, up to the limit") {
  std::string bytes;
  for (int i = 0; i < 300'000; ++i)
    bytes += static_cast<char>(i * i % 251);
  const auto found = inside(sheet_with({{"a.log.json", bytes, "application/json", "log"}}));
  REQUIRE(found);
  CHECK(found->front().bytes == bytes);
  const std::string long_one(json::most_bytes + 1, 'a'); // a few kilobytes, deflated
  const auto no = inside(sheet_with({{"a.log.json", long_one, "application/json", "log"}}));
  REQUIRE_FALSE(no);
  CHECK(no.error().where == "PDF");
}

TEST_CASE("what is no whole PDF is refused in its words") {
  CHECK_FALSE(inside(""));
  CHECK_FALSE(inside("%PDF-1.7\n"));
  const std::string whole = sheet_with({{"a.log.json", "{}", "application/json", "log"}});
  const auto half = inside(whole.substr(0, whole.size() / 2));
  REQUIRE_FALSE(half);
  CHECK(half.error().expected == "a whole PDF without a password");
}

TEST_CASE("a sheet changed word by word is read or refused, and nothing else comes of it") {
  const std::string whole = sheet_with({{"a.log.json", "{\"a\":1}", "application/json", "log"},
                                        {"a.log.json.minisig", "sig", "text/plain", "s"}});
  const std::vector<word> words = words_of(whole);
  REQUIRE(words.size() > 200);
  std::minstd_rand dice(20270328);
  int read = 0;
  int refused = 0;
  for (int n = 0; n < 600; ++n) {
    std::string changed = whole;
    for (unsigned long changes = 1 + dice() % 4; changes > 0; --changes)
      change_a_word(changed, words, dice);
    const auto found = inside(changed);
    ++(found ? read : refused);
    // A limit or a fall would be told as another kind or in other words.
    if (!found) CHECK(found.error().expected == "a whole PDF without a password");
  }
  CHECK(read > 50);
  CHECK(refused > 50);
}

TEST_CASE("in whatever form a writer puts a sheet it is read, and changed it is read or refused") {
  const std::string log = "{\"a\":1}" + std::string(3000, ' ');
  const std::string sheet = sheet_with({{"a.log.json", log, "application/json", "log"},
                                        {"a.log.json.minisig", "sig", "text/plain", "s"}});
  const char* tier = std::getenv("QB_DEEP");
  const int tries = tier != nullptr && std::string(tier) == "1" ? 30'000 : 60; // a form
  std::minstd_rand dice(20270329);
  int read = 0;
  int refused = 0;
  for (const form& how : forms) {
    INFO(how.name);
    const std::string whole = written_as(sheet, how);
    const auto as_it_is = inside(whole);
    REQUIRE(as_it_is);
    REQUIRE(as_it_is->size() == 2);
    CHECK(as_it_is->front().bytes == log);
    const std::vector<word> words = words_of(whole);
    for (int n = 0; n < tries; ++n) {
      std::string changed = whole;
      for (unsigned long changes = 1 + dice() % 4; changes > 0; --changes)
        dice() % 2 == 0 ? change_a_word(changed, words, dice) : change_a_byte(changed, dice);
      const auto found = inside(changed);
      ++(found ? read : refused);
      if (!found) CHECK(found.error().where == "PDF");
    }
  }
  INFO(read << " read, " << refused << " refused");
  CHECK(read > tries);
  CHECK(refused > tries);
}
