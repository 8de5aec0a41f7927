// qpdf as a reader of what cannot be trusted.
#include "app/page/attached_files.hpp"

#include <qpdf/Pipeline.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFExc.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <stdexcept>

namespace qb {

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

std::vector<attached_file> read_all(QPDF& document, const std::string& ending,
                                    std::size_t most_bytes) {
  const auto listed = QPDFEmbeddedFileDocumentHelper(document).getEmbeddedFiles();
  if (listed.size() > most_files) throw std::length_error("more attachments than 64");
  std::vector<attached_file> out;
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

} // namespace

bool looks_like_pdf(const std::string& bytes) {
  return bytes.compare(0, 5, "%PDF-") == 0;
}

result<std::vector<attached_file>> attached_files(const std::string& pdf, const std::string& ending,
                                                  std::size_t most_bytes) {
  try {
    QPDF document;
    document.setSuppressWarnings(true);
    document.setAttemptRecovery(false);
    document.processMemoryFile("PDF", pdf.data(), pdf.size());
    return read_all(document, ending, most_bytes);
  } catch (const QPDFExc& e) {
    return tl::unexpected(refusal{refusal_kind::malformed, "", "PDF", e.getMessageDetail(),
                                  "a whole PDF without a password"});
  } catch (const std::exception& e) {
    return tl::unexpected(
        refusal{refusal_kind::malformed, "", "PDF", e.what(), "a whole PDF without a password"});
  }
}

} // namespace qb
