// qpdf's objects, changed in place and written with an id cut from the content.
#include "app/page/finished_pdf.hpp"

#include <functional>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFEFStreamObjectHelper.hh>
#include <qpdf/QPDFEmbeddedFileDocumentHelper.hh>
#include <qpdf/QPDFFileSpecObjectHelper.hh>
#include <qpdf/QPDFWriter.hh>

namespace qb::page {

namespace {

// "D:20270406100500Z", as PDF writes a moment.
std::string pdf_date(const std::string& rfc3339) {
  std::string out = "D:";
  for (const char c : rfc3339)
    if (c >= '0' && c <= '9') out += c;
  return out + "Z";
}

std::string written(QPDF& document) {
  QPDFWriter writer(document);
  writer.setOutputMemory();
  writer.setDeterministicID(true); // from the content, not from the clock
  writer.write();
  const auto buffer = writer.getBufferSharedPointer();
  return {reinterpret_cast<const char*>(buffer->getBuffer()), buffer->getSize()};
}

result<std::string> changed(const std::string& pdf, const std::function<void(QPDF&)>& change) {
  try {
    QPDF document;
    document.setSuppressWarnings(true);
    document.processMemoryFile("the drawn page", pdf.data(), pdf.size());
    change(document);
    return written(document);
  } catch (const std::exception& e) {
    return tl::unexpected(refusal{refusal_kind::machine, "", "finishing the PDF", e.what(),
                                  "a page that was drawn here"});
  }
}

std::string id_mark(const std::string& test_id) {
  return "quarterbreath-test:" + test_id;
}

void attach(QPDF& document, const attached_file& file, const std::string& date) {
  auto stream = QPDFEFStreamObjectHelper::createEFStream(document, file.bytes);
  stream.setSubtype(file.media_type).setCreationDate(date).setModDate(date);
  auto entry = QPDFFileSpecObjectHelper::createFileSpec(document, file.name, stream);
  entry.setDescription(file.about);
  QPDFEmbeddedFileDocumentHelper(document).replaceEmbeddedFile(file.name, entry);
}

} // namespace

result<std::string> with_language(const std::string& pdf, const std::string& language) {
  return changed(pdf, [&language](QPDF& document) {
    QPDFObjectHandle root = document.getRoot();
    root.replaceKey("/Lang", QPDFObjectHandle::newUnicodeString(language));
    QPDFObjectHandle view = QPDFObjectHandle::newDictionary();
    view.replaceKey("/DisplayDocTitle", QPDFObjectHandle::newBool(true));
    root.replaceKey("/ViewerPreferences", view);
  });
}

result<std::string> with_test_id(const std::string& pdf, const std::string& test_id) {
  return changed(pdf, [&](QPDF& document) {
    QPDFObjectHandle info = document.getTrailer().getKey("/Info");
    QB_BELIEVE(info.isDictionary()); // Cairo writes one, with the title
    info.replaceKey("/Keywords", QPDFObjectHandle::newUnicodeString(id_mark(test_id)));
  });
}

bool is_paper_of(const std::string& bytes, const std::string& test_id) {
  // Written as plain text: no stream of objects is compressed in what we write.
  return bytes.compare(0, 5, "%PDF-") == 0 &&
         bytes.find("(" + id_mark(test_id) + ")") != std::string::npos;
}

result<std::string> with_attachments(const std::string& pdf,
                                     const std::vector<attached_file>& files,
                                     const std::string& made_at) {
  return changed(pdf, [&](QPDF& document) {
    for (const attached_file& file : files)
      attach(document, file, pdf_date(made_at));
  });
}

} // namespace qb::page
