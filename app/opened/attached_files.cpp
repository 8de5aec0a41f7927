// qpdf as a reader of what cannot be trusted.
#include "app/opened/attached_files.hpp"

#include "app/machine/confined.hpp"

#include <array>
#include <cstring>
#include <new>
#include <qpdf/Pipeline.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFExc.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <stdexcept>

namespace qb::inline opening {

namespace {

constexpr std::size_t most_files = 64;

// Keeps what is unpacked, and stops the unpacking at the limit: a few bytes can unpack to millions.
class bounded : public Pipeline {
public:
  explicit bounded(std::size_t most) : Pipeline("bounded", nullptr), most_(most) {}
  void write(const unsigned char* data, std::size_t size) override {
    full_ = full_ || size > most_ - bytes_.size();
    if (full_) throw std::length_error("full"); // qpdf makes a warning of it, and stops
    bytes_.append(reinterpret_cast<const char*>(data), size);
  }
  void finish() override {}
  [[nodiscard]] bool full() const { return full_; }
  std::string take() { return std::move(bytes_); }

private:
  std::size_t most_;
  bool full_{false};
  std::string bytes_;
};

bool ends(const std::string& text, const std::string& tail) {
  return text.size() >= tail.size() &&
         text.compare(text.size() - tail.size(), tail.size(), tail) == 0;
}

std::vector<page::attached_file> read_all(QPDF& document, const std::string& ending,
                                          std::size_t most_bytes) {
  const auto listed = QPDFEmbeddedFileDocumentHelper(document).getEmbeddedFiles();
  if (listed.size() > most_files) throw std::length_error("more attachments than 64");
  std::vector<page::attached_file> out;
  for (const auto& [key, entry] : listed) {
    const std::string name = entry->getFilename();
    if (!ends(name, ending) && !ends(name, ending + ".minisig")) continue;
    QPDFObjectHandle stream = entry->getEmbeddedFileStream();
    if (!stream.isStream()) throw std::runtime_error("an attachment without content");
    bounded into(most_bytes);
    const bool whole = stream.pipeStreamData(&into, nullptr, 0, qpdf_dl_generalized, true);
    if (into.full()) throw std::length_error("more bytes than a log may have");
    if (!whole) throw std::runtime_error("an attachment that cannot be unpacked");
    out.push_back({name, into.take(), "", ""});
  }
  return out;
}

// An answer as it goes from the child to its parent: texts, each after its length.
void put(std::string& out, const std::string& text) {
  const std::uint64_t size = text.size();
  std::array<char, sizeof size> head{};
  std::memcpy(head.data(), &size, sizeof size);
  out.append(head.data(), head.size()).append(text);
}

std::vector<std::string> texts_of(std::string_view all) {
  std::vector<std::string> out;
  std::uint64_t size = 0;
  while (all.size() >= sizeof size) {
    std::memcpy(&size, all.data(), sizeof size);
    all.remove_prefix(sizeof size);
    QB_BELIEVE(size <= all.size());
    out.emplace_back(all.substr(0, size));
    all.remove_prefix(size);
  }
  return out;
}

// Names and bytes, one after the other; or one text alone, which says what is wrong.
std::string in_the_child(const std::string& pdf, const std::string& ending,
                         std::size_t most_bytes) {
  std::string out;
  try {
    QPDF document;
    document.setSuppressWarnings(true);
    document.setAttemptRecovery(false);
    document.processMemoryFile("PDF", pdf.data(), pdf.size());
    for (const page::attached_file& file : read_all(document, ending, most_bytes)) {
      put(out, file.name);
      put(out, file.bytes);
    }
    return out;
  } catch (const std::bad_alloc&) {
    throw; // a limit, and not what is wrong with the document
  } catch (const QPDFExc& e) {
    out.clear();
    put(out, e.getMessageDetail());
  } catch (const std::exception& e) {
    out.clear();
    put(out, e.what());
  }
  return out;
}

// A sheet of ours takes some hundredths of a second and a few megabytes.
constexpr std::size_t mebibyte = 1024UL * 1024UL;
constexpr std::size_t memory_for_a_sheet = 160 * mebibyte;
constexpr unsigned int processor_for_a_sheet = 2; // in seconds
constexpr unsigned int deadline_for_a_sheet = 5;

} // namespace

bool looks_like_pdf(const std::string& bytes) {
  return bytes.compare(0, 5, "%PDF-") == 0;
}

result<std::vector<page::attached_file>>
attached_files(const std::string& pdf, const std::string& ending, std::size_t most_bytes) {
  const auto answer = confined(
      [&] { return in_the_child(pdf, ending, most_bytes); },
      {memory_for_a_sheet, processor_for_a_sheet, deadline_for_a_sheet, most_bytes + mebibyte},
      "PDF");
  if (!answer) return tl::unexpected(answer.error());
  std::vector<std::string> texts = texts_of(*answer);
  if (texts.size() == 1)
    return tl::unexpected(refusal{refusal_kind::malformed, "", "PDF", texts.front(),
                                  "a whole PDF without a password"});
  std::vector<page::attached_file> out;
  for (std::size_t i = 0; i + 1 < texts.size(); i += 2)
    out.push_back({std::move(texts[i]), std::move(texts[i + 1]), "", ""});
  return out;
}

} // namespace qb::inline opening
